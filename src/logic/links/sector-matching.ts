import type { Board, Candidate } from '../../grid/board.js'
import type { House } from '../../grid/geometry.js'
import { premisesOf } from '../cases/propagation.js'
import { factsOf } from '../facts.js'
import { PremiseSearch } from '../premise-search.js'
import { maskWords } from './cell-masks.js'

/** Cells with as many sectors as cells: the candidates of other cells there go. */
export interface LockedCells {
  /** Ascending. */
  readonly cells: readonly number[]
  readonly sectors: readonly { readonly house: number; readonly digit: number }[]
  readonly removals: readonly Candidate[]
}

/** Ways tried to fill the board, which serve as a beginning only; where more are needed nothing is found. */
const BUDGET = 100_000

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
  private readonly words: number
  /** cell -> its digit in the filling. */
  private readonly filling: Uint8Array
  /** kind -> cell -> index of the cell's house of that kind. */
  private readonly houseOf: readonly Int32Array[]
  /** kind -> cell × order + digit - 1 -> the cell of the same house that the digit is matched to. */
  private readonly holders: readonly Int32Array[]
  /** kind -> cell -> cells of the same house that have its digit, as a mask. */
  private readonly takers: readonly Int32Array[]
  /** digit - 1 -> the kind chosen. */
  private readonly chosen: Int32Array
  /** For Tarjan's strongly connected components: order of discovery (0: not yet), lowest reached, component. */
  private readonly found: Int32Array
  private readonly lowest: Int32Array
  private readonly component: Int32Array
  private readonly stack: number[] = []
  private discovered = 0
  /** For following all cells from one: a mask of those met, and these in order. */
  private readonly reached: Int32Array
  private readonly waiting: Int32Array
  private met = 0

  /** @param kinds for each kind its houses, which have every cell once */
  private constructor(board: Board, kinds: readonly (readonly House[])[], filling: Uint8Array) {
    const { order, cellCount } = board.geometry
    this.board = board
    this.cells = factsOf(board).openCells
    this.words = maskWords(board.geometry)
    this.filling = filling
    this.houseOf = kinds.map((kind) => {
      const houseOf = new Int32Array(cellCount)
      for (const { index, cells } of kind) for (const cell of cells) houseOf[cell] = index
      return houseOf
    })
    this.holders = kinds.map((kind) => this.holdersIn(kind))
    this.takers = kinds.map((kind) => this.takersIn(kind))
    this.chosen = new Int32Array(order)
    this.found = new Int32Array(cellCount)
    this.lowest = new Int32Array(cellCount)
    this.component = new Int32Array(cellCount)
    this.reached = new Int32Array(this.words)
    this.waiting = new Int32Array(cellCount)
  }

  /** Undefined where the board cannot be filled, or no way to fill it was found. */
  static of(board: Board, kinds: readonly (readonly House[])[]): SectorMatching | undefined {
    const trues = new PremiseSearch(board.geometry, premisesOf(board)).find([], BUDGET)
    if (typeof trues === 'string') return undefined
    const filling = new Uint8Array(board.geometry.cellCount)
    for (const { cell, digit } of trues) filling[cell] = digit
    return new SectorMatching(board, kinds, filling)
  }

  /** Counts a digit by the houses of this kind from now on. */
  choose(digit: number, kind: number): void {
    this.chosen[digit - 1] = kind
  }

  /** The smallest locked cells around each sector that other cells have candidates in. */
  lockedCells(): LockedCells[] {
    // with most choices on most boards all cells can pass their sectors round among them
    if (this.allMeet(true) && this.allMeet(false)) return []
    this.markComponents()
    const { board, cells, component } = this
    const sets = new Map<number, Candidate[]>()
    for (const cell of cells) {
      for (let rest = board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
        const digit = 32 - Math.clz32(rest & -rest)
        const other = component[this.holder(cell, digit)]!
        if (component[cell] === other) continue
        const removals = sets.get(other)
        if (removals) removals.push({ cell, digit })
        else sets.set(other, [{ cell, digit }])
      }
    }
    return [...sets].map(([from, removals]) => this.lockedBy(from, removals))
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

  private takersIn(kind: readonly House[]): Int32Array {
    const { board, filling, words } = this
    const takers = new Int32Array(board.geometry.cellCount * words)
    for (const { cells } of kind)
      for (const holder of cells)
        for (const cell of cells)
          if (filling[holder] && board.hasCandidate(cell, filling[holder]!))
            takers[holder * words + (cell >>> 5)]! |= 1 << (cell & 31)
    return takers
  }

  /** Are all cells reached from the first by the cells that could take their sectors, or else by those whose sectors they could take? */
  private allMeet(byTakers: boolean): boolean {
    const { cells, waiting } = this
    this.reached.fill(0)
    this.met = 0
    this.meet(cells[0]!)
    for (let at = 0; at < this.met && this.met < cells.length; at++) {
      if (byTakers) this.meetTakers(waiting[at]!)
      else this.meetHolders(waiting[at]!)
    }
    return this.met === cells.length
  }

  private meet(cell: number): void {
    const bit = 1 << (cell & 31)
    if (this.reached[cell >>> 5]! & bit) return
    this.reached[cell >>> 5]! |= bit
    this.waiting[this.met++] = cell
  }

  private meetTakers(cell: number): void {
    const { words, reached, waiting } = this
    const takers = this.takers[this.chosen[this.filling[cell]! - 1]!]!
    for (let w = 0; w < words; w++) {
      let fresh = takers[cell * words + w]! & ~reached[w]!
      reached[w]! |= fresh
      for (; fresh !== 0; fresh &= fresh - 1) waiting[this.met++] = w * 32 + 31 - Math.clz32(fresh & -fresh)
    }
  }

  private meetHolders(cell: number): void {
    for (let rest = this.board.candidates[cell]!; rest !== 0; rest &= rest - 1)
      this.meet(this.holder(cell, 32 - Math.clz32(rest & -rest)))
  }

  /** The cell that a cell's digit is matched to. */
  private holder(cell: number, digit: number): number {
    return this.holders[this.chosen[digit - 1]!]![cell * this.board.geometry.order + digit - 1]!
  }

  /** Parts the cells into those that can pass their sectors round among them. */
  private markComponents(): void {
    this.found.fill(0)
    this.discovered = 0
    for (const cell of this.cells) if (this.found[cell] === 0) this.discover(cell)
  }

  private discover(cell: number): void {
    const { board, found, lowest, component, stack } = this
    found[cell] = lowest[cell] = ++this.discovered
    component[cell] = -1
    stack.push(cell)
    for (let rest = board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
      const holder = this.holder(cell, 32 - Math.clz32(rest & -rest))
      if (found[holder] === 0) {
        this.discover(holder)
        lowest[cell] = Math.min(lowest[cell]!, lowest[holder]!)
      } else if (component[holder]! < 0) lowest[cell] = Math.min(lowest[cell]!, found[holder]!)
    }
    if (lowest[cell] !== found[cell]) return
    // a component is named by the first of its cells
    for (let member = -1; member !== cell; ) {
      member = stack.pop()!
      component[member] = cell
    }
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
