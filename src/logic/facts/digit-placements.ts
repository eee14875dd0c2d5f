import type { Board } from '../../grid/board.js'
import { digitBit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { holderMask, maskWords, peerMasks } from '../chains/cell-masks.js'
import type { Facts } from './facts.js'
import { zeros } from './number-lists.js'
import { oncePerPlaces } from './path-memory.js'

/** A digit's cells, one in every house that lacked it, no two in a house. */
type Placement = readonly number[]

/** What a context keeps of each digit of a geometry, and what only matters during a search. */
class Placements {
  private geometry: Geometry | undefined
  /** digit -> placements found on the latest boards. */
  private found: (readonly Placement[])[] = []
  /** cell -> whether one of the placements found so far has it. */
  readonly isFilled: number[] = []

  constructor(before?: Placements) {
    this.geometry = before?.geometry
    if (before) this.found = before.found.slice()
  }

  foundOn(geometry: Geometry): (readonly Placement[])[] {
    if (this.geometry !== geometry) {
      this.geometry = geometry
      this.found = []
    }
    return this.found
  }
}

const placementsPart = (before?: Placements): Placements => new Placements(before)

/**
 * The candidates of a digit that no full placement of it has: one cell in every house that lacks it, no two in a house.
 * Whatever can be proven from one digit's places alone, it is about these: a candidate that some placement has cannot
 * be removed so, nor can it be placed while others of its houses stand in placements too. On most boards most digits
 * have none, so patterns of one digit need not be looked for. Ascending; those that the search could not decide are
 * among them.
 */
export const misplaced = oncePerPlaces((facts, digit): readonly number[] => {
  const { board } = facts
  const { geometry } = board
  const cells = facts.cellsWith(digit)
  const houses = housesWithPlaces(facts, digit)
  const placements: Placement[] = []
  const own = facts.context.of(placementsPart)
  const { isFilled } = own
  for (let cell = 0; cell < geometry.cellCount; cell++) isFilled[cell] = 0
  // along a path most placements stay what they were, and a look shows whether one did
  const earlier = own.foundOn(geometry)
  const before = earlier[digit] ?? NO_PLACEMENTS
  for (let i = 0; i < before.length; i++)
    if (isPlacement(board, digit, before[i]!, houses)) keep(before[i]!, placements, isFilled)
  let without: readonly number[] = NONE
  let search: PlacementSearch | undefined
  for (let i = 0; i < cells.length; i++) {
    const cell = cells[i]!
    if (isFilled[cell]) continue
    search ??= new PlacementSearch(facts, digit, houses)
    const placement = search.withCell(cell)
    if (placement) keep(placement, placements, isFilled)
    else without = [...without, cell]
  }
  earlier[digit] = placements
  return without
})

const NONE: readonly number[] = []
const NO_PLACEMENTS: readonly Placement[] = []

function keep(placement: Placement, placements: Placement[], isFilled: number[]): void {
  placements.push(placement)
  for (let i = 0; i < placement.length; i++) isFilled[placement[i]!] = 1
}

/** The digits with such candidates. */
export function doubtfulDigits(facts: Facts): number[] {
  const { board } = facts
  const digits: number[] = []
  for (let digit = 1; digit <= board.geometry.order; digit++)
    if (misplaced(facts, digit).length > 0) digits.push(digit)
  return digits
}

/** How many houses have a place for the digit. */
function housesWithPlaces(facts: Facts, digit: number): number {
  const { board, places } = facts
  const { order } = board.geometry
  let houses = 0
  for (let at = digit - 1; at < places.length; at += order) if (places[at] !== 0) houses++
  return houses
}

/**
 * Is this, but for cells that have the digit by now, a full placement? No two of its cells share a house, so together
 * they are in as many houses as each of them is.
 */
function isPlacement(board: Board, digit: number, placement: Placement, houses: number): boolean {
  const { candidates, digits, geometry } = board
  const layout = layoutOf(geometry)
  const bit = digitBit(digit)
  let met = 0
  for (let i = 0; i < placement.length; i++) {
    const cell = placement[i]!
    if (candidates[cell]! & bit) met += layout.housesOf[cell]!.length
    else if (digits[cell] !== digit) return false
  }
  return met === houses
}

/** Places tried for one digit before the rest count as undecided; a digit of a 9×9 board takes some dozens. */
const BUDGET = 2_000

class PlacementSearch {
  private readonly board: Board
  private readonly digit: number
  private readonly houses: number
  private readonly words: number
  private readonly peers: Uint32Array
  /** depth -> cells still free, `words` a set. */
  private readonly free: number[]
  /** The rows that lack the digit, as lists of its cells there: those with few cells first. */
  private readonly rows: readonly (readonly number[])[]
  private readonly placed: number[] = []
  private left = BUDGET

  constructor(facts: Facts, digit: number, houses: number) {
    const { board } = facts
    const { geometry } = board
    this.board = board
    this.digit = digit
    this.houses = houses
    this.words = maskWords(geometry)
    this.peers = peerMasks(geometry)
    const rows: number[][] = []
    const cells = facts.cellsWith(digit)
    let latest = -1
    for (let i = 0; i < cells.length; i++) {
      const row = (cells[i]! / geometry.order) | 0
      if (row === latest) rows[rows.length - 1]!.push(cells[i]!)
      else rows.push([cells[i]!])
      latest = row
    }
    this.rows = rows.sort((a, b) => a.length - b.length)
    this.free = zeros((this.rows.length + 1) * this.words)
    const holders = holderMask(facts, digit)
    // 32-bit integers with sign, like all entries of such lists
    for (let w = 0; w < this.words; w++) this.free[w] = holders[w]! | 0
  }

  /** A full placement that has this cell. */
  withCell(cell: number): Placement | undefined {
    this.place(cell, 0)
    const own = this.rows.findIndex((row) => row.includes(cell))
    return this.fill(own, 0, 1) ? [...this.placed] : undefined
  }

  /** Puts the digit into the rows from `next` on but for one that has it already; true when that is possible. */
  private fill(own: number, next: number, depth: number): boolean {
    if (next === own) return this.fill(own, next + 1, depth)
    if (next === this.rows.length) {
      this.placed.length = depth
      return isPlacement(this.board, this.digit, this.placed, this.houses)
    }
    const row = this.rows[next]!
    const at = depth * this.words
    for (let i = 0; i < row.length; i++) {
      const cell = row[i]!
      if (!((this.free[at + (cell >>> 5)]! >>> (cell & 31)) & 1)) continue
      if (this.left-- <= 0) return false
      this.place(cell, depth)
      if (this.fill(own, next + 1, depth + 1)) return true
    }
    return false
  }

  private place(cell: number, depth: number): void {
    const { words, free, peers } = this
    this.placed[depth] = cell
    for (let w = 0; w < words; w++)
      free[(depth + 1) * words + w] = free[depth * words + w]! & ~peers[cell * words + w]!
  }
}
