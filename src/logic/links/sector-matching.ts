import type { Board, Candidate } from '../../grid/board.js'
import type { House } from '../../grid/geometry.js'
import { factsOf } from '../facts.js'

/** Cells with as many sectors as cells: the candidates of other cells there go. */
export interface LockedCells {
  /** Ascending. */
  readonly cells: readonly number[]
  readonly sectors: readonly { readonly house: number; readonly digit: number }[]
  readonly removals: readonly Candidate[]
}

/**
 * The open cells of a board, each matched to a sector, a digit of a house, where every digit is counted by houses of one kind
 * chosen beforehand. A digit is missing from as many houses of any kind, so there are as many sectors as cells, and in a
 * solution each cell takes another: a matching exists. Cells whose sectors are all matched to cells among them are locked.
 *
 * (The way in which the constraint "all different" is made consistent: J.-C. Régin, 1994. Changing the choice for one
 * digit keeps the rest of the matching.)
 */
export class SectorMatching {
  private readonly board: Board
  private readonly cells: readonly number[]
  /** kind -> cell -> first sector of the cell's house of that kind. */
  private readonly firstSector: readonly Int32Array[]
  /** digit - 1 -> the same for the kind chosen. */
  private readonly chosen: Int32Array[]
  /** sector (house × order + digit - 1) -> cells with the digit there. */
  private readonly members: readonly (readonly number[])[]
  /** sector -> matched cell, cell -> matched sector; -1 for none. */
  private readonly cellOf: Int32Array
  private readonly sectorOf: Int32Array
  private readonly tried: Int32Array
  private runs = 0
  /** For Tarjan's strongly connected components: order of discovery (0: not yet), lowest reached, component. */
  private readonly found: Int32Array
  private readonly lowest: Int32Array
  private readonly component: Int32Array
  private readonly stack: number[] = []
  private discovered = 0
  private components = 0

  /** @param kinds for each kind its houses, which have every cell once */
  constructor(board: Board, kinds: readonly (readonly House[])[]) {
    const { geometry, candidates } = board
    const { order, cellCount, houses } = geometry
    this.board = board
    this.cells = factsOf(board).openCells
    this.firstSector = kinds.map((kind) => {
      const first = new Int32Array(cellCount)
      for (const { index, cells } of kind) for (const cell of cells) first[cell] = index * order
      return first
    })
    this.chosen = new Array(order).fill(this.firstSector[0])
    this.members = houses.flatMap(({ cells }) =>
      Array.from({ length: order }, (_, d) => cells.filter((cell) => candidates[cell]! & (1 << d))),
    )
    this.cellOf = new Int32Array(this.members.length).fill(-1)
    this.sectorOf = new Int32Array(cellCount).fill(-1)
    this.tried = new Int32Array(this.members.length)
    this.found = new Int32Array(cellCount)
    this.lowest = new Int32Array(cellCount)
    this.component = new Int32Array(cellCount)
  }

  /** Counts a digit by the houses of this kind from now on. */
  choose(digit: number, kind: number): void {
    if (this.chosen[digit - 1] === this.firstSector[kind]) return
    this.chosen[digit - 1] = this.firstSector[kind]!
    for (const cell of this.cells) {
      const sector = this.sectorOf[cell]!
      if (sector < 0 || sector % this.board.geometry.order !== digit - 1) continue
      this.cellOf[sector] = -1
      this.sectorOf[cell] = -1
    }
  }

  /** The smallest locked cells around each sector that other cells have candidates in. Nothing on a broken board. */
  lockedCells(): LockedCells[] {
    if (!this.complete() || this.markComponents() === 1) return []
    const { board, cells, cellOf, component } = this
    const sets = new Map<number, Candidate[]>()
    for (const cell of cells) {
      for (let rest = board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
        const d = 31 - Math.clz32(rest & -rest)
        const other = component[cellOf[this.sector(cell, d)]!]!
        if (component[cell] === other) continue
        const removals = sets.get(other)
        if (removals) removals.push({ cell, digit: d + 1 })
        else sets.set(other, [{ cell, digit: d + 1 }])
      }
    }
    return [...sets].map(([from, removals]) => this.lockedBy(from, removals))
  }

  private sector(cell: number, d: number): number {
    return this.chosen[d]![cell]! + d
  }

  /** Matches all cells; false when that is impossible. */
  private complete(): boolean {
    for (const cell of this.cells) {
      if (this.sectorOf[cell]! >= 0) continue
      this.runs++
      if (!this.augment(cell)) return false
    }
    return true
  }

  private augment(cell: number): boolean {
    for (let rest = this.board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
      const sector = this.sector(cell, 31 - Math.clz32(rest & -rest))
      if (this.tried[sector] === this.runs) continue
      this.tried[sector] = this.runs
      const holder = this.cellOf[sector]!
      if (holder >= 0 && !this.augment(holder)) continue
      this.cellOf[sector] = cell
      this.sectorOf[cell] = sector
      return true
    }
    return false
  }

  /** Parts the cells into those that can pass their sectors round among them; returns the number of parts. */
  private markComponents(): number {
    this.found.fill(0)
    this.discovered = 0
    this.components = 0
    for (const cell of this.cells) if (this.found[cell] === 0) this.discover(cell)
    return this.components
  }

  private discover(cell: number): void {
    const { board, found, lowest, component, stack, cellOf } = this
    found[cell] = lowest[cell] = ++this.discovered
    component[cell] = -1
    stack.push(cell)
    for (let rest = board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
      const holder = cellOf[this.sector(cell, 31 - Math.clz32(rest & -rest))]!
      if (found[holder] === 0) {
        this.discover(holder)
        lowest[cell] = Math.min(lowest[cell]!, lowest[holder]!)
      } else if (component[holder]! < 0) lowest[cell] = Math.min(lowest[cell]!, found[holder]!)
    }
    if (lowest[cell] !== found[cell]) return
    this.components++
    // a component is named by the first of its cells
    for (let member = -1; member !== cell; ) {
      member = stack.pop()!
      component[member] = cell
    }
  }

  /** The cells that a cell's sectors lead to, all of them matched, one after the other. */
  private lockedBy(from: number, removals: readonly Candidate[]): LockedCells {
    const { board, cellOf, sectorOf } = this
    const { order } = board.geometry
    const cells = new Set([from])
    for (const cell of cells)
      for (let rest = board.candidates[cell]!; rest !== 0; rest &= rest - 1)
        cells.add(cellOf[this.sector(cell, 31 - Math.clz32(rest & -rest))]!)
    return {
      cells: [...cells].sort((a, b) => a - b),
      sectors: [...cells].map((cell) => {
        const sector = sectorOf[cell]!
        return { house: Math.floor(sector / order), digit: (sector % order) + 1 }
      }),
      removals,
    }
  }
}
