import type { Board, Candidate } from '../../grid/board.js'
import type { House } from '../../grid/layout.js'
import type { Task, Watch } from '../../limits.js'
import { premisesOf } from '../cases/propagation.js'
import { factsOf } from '../facts.js'
import { zeros } from '../number-lists.js'
import { PremiseSearch } from '../premise-search.js'
import { type Components, componentsOf } from './components.js'

/** Cells with as many sectors as cells: the candidates of other cells there go. */
export interface LockedCells {
  /** Ascending. */
  readonly cells: readonly number[]
  readonly sectors: readonly { readonly house: number; readonly digit: number }[]
  readonly removals: readonly Candidate[]
}

const NONE = -1

/** Ways tried to fill the board, which serve as a beginning only; where more are needed nothing is found. */
const BUDGET = 100_000

/** As many as a mask has bits. */
const MOST_PARTS = 32

/** part -> the parts it leads to, and those that lead to it, as masks. */
class Leads {
  readonly to = new Int32Array(MOST_PARTS)
  readonly from = new Int32Array(MOST_PARTS)

  clear(): void {
    this.to.fill(0)
    this.from.fill(0)
  }

  add(one: number, other: number): void {
    this.to[one]! |= 1 << other
    this.from[other]! |= 1 << one
  }
}

/**
 * The open cells of a board, each matched to a sector, a digit of a house, where every digit is counted by houses of one kind
 * chosen beforehand. A digit is missing from as many houses of any kind, so there are as many sectors as cells. Cells whose
 * sectors are all matched to cells among them are locked. Which cells these are does not depend on the matching.
 *
 * (The way in which the constraint "all different" is made consistent: J.-C. Régin, 1994.) As matching serves some way to
 * fill the board, right or not: it matches cells to sectors whichever kinds are chosen, so a cell leads to the same cells by a
 * digit whatever is chosen for others.
 */
export class SectorMatching {
  private readonly board: Board
  private readonly cells: readonly number[]
  /** cell -> its digit in the filling. */
  private readonly filling: Uint8Array
  /** kind -> cell -> index of the cell's house of that kind. */
  private readonly houseOf: readonly Int32Array[]
  /** kind -> cell × order + digit - 1 -> the cell of the same house that the digit is matched to. */
  private readonly holders: readonly Int32Array[]
  /** digit - 1 -> the kind chosen; none (-1) and a digit leads nowhere. */
  private readonly chosen: Int32Array
  /** Cell -> its place in the list of cells; and what leads where, by places, as `componentsOf` takes it. */
  private readonly placeOf: Int32Array
  private readonly from: number[]
  private readonly to: number[] = []
  /** The digits that are not settled. */
  private open: readonly number[] = []
  /** How many parts the settled digits make, which part a cell is in, and what they lead to. */
  private parts = 0
  private readonly partOf: Int32Array
  private readonly settled = new Leads()
  /** digit - 1 -> kind -> what the digit leads to while it is not settled. */
  private readonly leads: readonly (readonly Leads[])[]
  /** digit - 1 -> cells with that candidate. */
  private readonly cellsWith: readonly (readonly number[])[]

  /** @param kinds for each kind its houses, which have every cell once */
  private constructor(board: Board, kinds: readonly (readonly House[])[], filling: Uint8Array) {
    const { order, cellCount } = board.geometry
    this.board = board
    this.cells = factsOf(board).openCells
    this.filling = filling
    this.houseOf = kinds.map((kind) => {
      const houseOf = new Int32Array(cellCount)
      for (const { index, cells } of kind) for (const cell of cells) houseOf[cell] = index
      return houseOf
    })
    this.holders = kinds.map((kind) => this.holdersIn(kind))
    this.chosen = new Int32Array(order).fill(NONE)
    this.placeOf = new Int32Array(cellCount)
    this.cells.forEach((cell, place) => {
      this.placeOf[cell] = place
    })
    this.from = zeros(this.cells.length + 1)
    this.partOf = new Int32Array(cellCount)
    this.cellsWith = Array.from({ length: order }, (_, d) => factsOf(board).cellsWith(d + 1))
    this.leads = this.cellsWith.map(() => kinds.map(() => new Leads()))
  }

  /** Undefined where the board cannot be filled, or no way to fill it was found. */
  static *of(
    board: Board,
    kinds: readonly (readonly House[])[],
    watch: Watch,
  ): Task<SectorMatching | undefined> {
    const search = new PremiseSearch(board.geometry, premisesOf(board))
    const trues = yield* search.findWithin(watch, [], BUDGET)
    if (typeof trues === 'string') return undefined
    const filling = new Uint8Array(board.geometry.cellCount)
    for (const { cell, digit } of trues) filling[cell] = digit
    return new SectorMatching(board, kinds, filling)
  }

  /** Counts a digit by the houses of this kind from now on. */
  choose(digit: number, kind: number): void {
    this.chosen[digit - 1] = kind
  }

  /**
   * Takes what is chosen for all digits but these as settled: cells that can pass their sectors round by it stay one part whatever
   * is chosen for the rest.
   */
  settleAllBut(digits: readonly number[]): void {
    for (const digit of digits) this.chosen[digit - 1] = NONE
    this.open = digits
    const { count, of } = this.components()
    this.parts = count
    for (let i = 0; i < this.cells.length; i++) this.partOf[this.cells[i]!] = of[i]!
    if (this.parts > MOST_PARTS) return
    this.settled.clear()
    for (let d = 0; d < this.chosen.length; d++) {
      const kind = this.chosen[d]!
      if (kind !== NONE) this.addLeads(d + 1, kind, this.settled)
      else {
        for (let other = 0; other < this.holders.length; other++) {
          this.leads[d]![other]!.clear()
          this.addLeads(d + 1, other, this.leads[d]![other]!)
        }
      }
    }
  }

  /** What a digit leads to, counted by houses of a kind. */
  private addLeads(digit: number, kind: number, leads: Leads): void {
    const { partOf } = this
    const { order } = this.board.geometry
    const holders = this.holders[kind]!
    const cells = this.cellsWith[digit - 1]!
    for (let i = 0; i < cells.length; i++)
      leads.add(partOf[cells[i]!]!, partOf[holders[cells[i]! * order + digit - 1]!]!)
  }

  /**
   * Is there surely nothing locked, once all digits are decided? It is so when the cells fall into groups, mostly but one, each of
   * which can pass its sectors round and has nothing to do with the others. (With very many parts it is not asked.)
   */
  nothingLocked(): boolean {
    if (this.parts > MOST_PARTS) return false
    for (let left = this.parts === MOST_PARTS ? -1 : (1 << this.parts) - 1; left !== 0; ) {
      const first = left & -left
      const met = this.metFrom(first, 'to')
      if (met !== this.metFrom(first, 'from')) return false
      left &= ~met
    }
    return true
  }

  /** The parts that one leads to, or else those that lead to it. */
  private metFrom(first: number, way: 'to' | 'from'): number {
    const { settled, leads, open, chosen } = this
    let met = first
    for (let waiting = first; waiting !== 0; ) {
      const part = 31 - Math.clz32(waiting & -waiting)
      let next = settled[way][part]!
      for (let i = 0; i < open.length; i++) next |= leads[open[i]! - 1]![chosen[open[i]! - 1]!]![way][part]!
      waiting = (waiting & (waiting - 1)) | (next & ~met)
      met |= next
    }
    return met
  }

  /** The smallest locked cells around each sector that other cells have candidates in, once all digits are decided. */
  lockedCells(): LockedCells[] {
    const { board, cells, placeOf } = this
    const { of } = this.components()
    /** part -> a cell of it, and what others lose to it */
    const sets = new Map<number, { readonly holder: number; readonly removals: Candidate[] }>()
    for (const cell of cells) {
      for (let rest = board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
        const digit = 32 - Math.clz32(rest & -rest)
        const holder = this.holder(cell, digit)
        const part = of[placeOf[holder]!]!
        if (of[placeOf[cell]!] === part) continue
        const set = sets.get(part)
        if (set) set.removals.push({ cell, digit })
        else sets.set(part, { holder, removals: [{ cell, digit }] })
      }
    }
    return [...sets.values()].map(({ holder, removals }) => this.lockedBy(holder, removals))
  }

  private holdersIn(kind: readonly House[]): Int32Array {
    const { board, filling } = this
    const { order, cellCount } = board.geometry
    const holders = new Int32Array(cellCount * order)
    for (const { cells } of kind)
      for (const holder of cells)
        if (filling[holder]) for (const cell of cells) holders[cell * order + filling[holder]! - 1] = holder
    return holders
  }

  /** The cell that a cell's digit is matched to; itself while nothing is chosen for the digit. */
  private holder(cell: number, digit: number): number {
    const kind = this.chosen[digit - 1]!
    return kind === NONE ? cell : this.holders[kind]![cell * this.board.geometry.order + digit - 1]!
  }

  /** Parts the cells into those that can pass their sectors round among them by what is chosen. */
  private components(): Components {
    const { cells, board, from, to, placeOf } = this
    let edges = 0
    for (let i = 0; i < cells.length; i++) {
      for (let rest = board.candidates[cells[i]!]!; rest !== 0; rest &= rest - 1)
        to[edges++] = placeOf[this.holder(cells[i]!, 32 - Math.clz32(rest & -rest))]!
      from[i + 1] = edges
    }
    return componentsOf(cells.length, from, to)
  }

  /** The cells that a cell's sectors lead to, all of them matched, one after the other. */
  private lockedBy(from: number, removals: readonly Candidate[]): LockedCells {
    const { board, filling, chosen, houseOf } = this
    const cells = new Set([from])
    for (const cell of cells)
      for (let rest = board.candidates[cell]!; rest !== 0; rest &= rest - 1)
        cells.add(this.holder(cell, 32 - Math.clz32(rest & -rest)))
    return {
      cells: [...cells].sort((a, b) => a - b),
      sectors: [...cells].map((cell) => {
        const digit = filling[cell]!
        return { house: houseOf[chosen[digit - 1]!]![cell]!, digit }
      }),
      removals,
    }
  }
}
