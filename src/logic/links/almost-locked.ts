import type { Board } from '../../grid/board.js'
import { type DigitSet, digitCount } from '../../grid/digits.js'
import type { Geometry, House } from '../../grid/geometry.js'
import { factsOf } from '../facts.js'
import { zeros } from '../number-lists.js'
import { KeptAnswers, oncePerBoard } from '../path-memory.js'

/**
 * An almost locked set: k cells of one house with k + 1 candidates between them. Take one digit away and the others
 * are all in these cells: so of any two of its digits at least one is there (a strong link between their places).
 */
export interface AlmostLockedSet {
  readonly cells: readonly number[]
  readonly digits: DigitSet
  /**
   * digit - 1 -> digits tied to it by this set and by no smaller one inside it. Links that a smaller set gives are
   * left out: the smaller set sees more and needs fewer premises.
   */
  readonly ties: readonly DigitSet[]
  /** For each of its digits, ascending: the cells that have it. */
  readonly places: readonly (readonly number[])[]
}

/** Every almost locked set of the board that holds no locked set, smallest first; computed once for a board. */
export const almostLockedSets = oncePerBoard((board): readonly AlmostLockedSet[] =>
  fromAllHouses(board, keptAlmostLocked, almostLockedIn),
)

const keptAlmostLocked = new KeptAnswers<readonly AlmostLockedSet[]>()

/** The sets of all houses, smallest first; those of houses where nothing has changed are kept from earlier boards. */
function fromAllHouses<Found extends { readonly cells: readonly number[] }>(
  board: Board,
  kept: KeptAnswers<readonly Found[]>,
  find: (board: Board, house: House) => readonly Found[],
): readonly Found[] {
  const { ofHouse } = factsOf(board).stamps
  const bySize: Found[][] = []
  for (const house of board.geometry.houses) {
    const sets = kept.of(house.index, ofHouse[house.index]!, () => find(board, house))
    for (let i = 0; i < sets.length; i++) {
      bySize[sets[i]!.cells.length] ??= []
      bySize[sets[i]!.cells.length]!.push(sets[i]!)
    }
  }
  return bySize.flat()
}

/**
 * Most cells in a set. Larger ones leave almost a whole house, where the few cells and digits outside give the same
 * links; the subsets of a 16-cell house would also be too many.
 */
export const LARGEST_SET = 7

/** Cells of one house with two candidates more than cells: any one digit taken away leaves an almost locked set. */
export interface LooseSet {
  readonly cells: readonly number[]
  readonly digits: DigitSet
  /** For each of its digits, ascending: the cells that have it. */
  readonly places: readonly (readonly number[])[]
}

/** Most cells in a loose set: they are many, and what larger ones give is hard to follow. */
const LARGEST_LOOSE_SET = 4

/** The loose sets of two cells or more, smallest first; computed once for a board. */
export const looseSets = oncePerBoard((board): readonly LooseSet[] =>
  fromAllHouses(board, keptLoose, looseIn),
)

const keptLoose = new KeptAnswers<readonly LooseSet[]>()

function looseIn(board: Board, house: House): LooseSet[] {
  const found: LooseSet[] = []
  const open = house.cells.filter((cell) => board.candidates[cell] !== 0)
  addLoose(board, open, crossingsBefore(board.geometry, house.index, open), [], 0, 0, 0, found)
  return found
}

/** Adds the loose sets that hold these cells and more of the open ones, from the next on. */
function addLoose(
  board: Board,
  open: readonly number[],
  toldBefore: readonly number[],
  cells: number[],
  positions: number,
  digits: DigitSet,
  next: number,
  found: LooseSet[],
): void {
  const spare = digitCount(digits) - cells.length
  if (cells.length > 1 && spare === 2 && !isWithinOne(toldBefore, positions))
    found.push({ cells: [...cells], digits, places: placesOf(board, cells, digits) })
  if (cells.length === LARGEST_LOOSE_SET) return
  for (let i = next; i < open.length; i++) {
    const more = digits | board.candidates[open[i]!]!
    // each cell that is still to come makes up for one digit at most
    if (digitCount(more) > LARGEST_LOOSE_SET + 2) continue
    cells.push(open[i]!)
    addLoose(board, open, toldBefore, cells, positions | (1 << i), more, i + 1, found)
    cells.pop()
  }
}

/** A list that grows takes room for many more; these are cut to length. */
const someCells: number[] = []
const somePlaces: (readonly number[])[] = []

function placesOf(
  { candidates }: Board,
  cells: readonly number[],
  digits: DigitSet,
): readonly (readonly number[])[] {
  let found = 0
  for (let rest = digits; rest !== 0; rest &= rest - 1) {
    let count = 0
    for (let i = 0; i < cells.length; i++)
      if (candidates[cells[i]!]! & rest & -rest) someCells[count++] = cells[i]!
    somePlaces[found++] = someCells.slice(0, count)
  }
  return somePlaces.slice(0, found)
}

/** positions of a house's open cells, as a set -> the candidates of these cells. Serves house after house. */
let unions = new Int32Array(0)

function almostLockedIn(board: Board, house: House): AlmostLockedSet[] {
  const found: AlmostLockedSet[] = []
  const { candidates, geometry } = board
  const open = house.cells.filter((cell) => candidates[cell] !== 0)
  const toldBefore = crossingsBefore(geometry, house.index, open)
  const total = 1 << open.length
  if (unions.length < total) unions = new Int32Array(total)
  const union = unions
  // few sets are locked or almost so, and a set follows those within it
  const locked: number[] = []
  const almost: number[] = []
  for (let mask = 1; mask < total; mask++) {
    const rest = mask & (mask - 1)
    const digits = union[rest]! | candidates[open[31 - Math.clz32(mask ^ rest)]!]!
    union[mask] = digits
    const size = digitCount(mask)
    if (size > LARGEST_SET) continue
    const spare = digitCount(digits) - size
    if (spare > 1) continue
    if (spare < 1) locked.push(mask)
    else if (!holdsOne(mask, locked)) {
      almost.push(mask)
      if (isWithinOne(toldBefore, mask)) continue
      let count = 0
      for (let bits = mask; bits !== 0; bits &= bits - 1)
        someCells[count++] = open[31 - Math.clz32(bits & -bits)]!
      const cells = someCells.slice(0, count)
      const ties = ownTies(union, almost, mask, geometry.order)
      found.push({ cells, digits, ties, places: placesOf(board, cells, digits) })
    }
  }
  return found
}

/**
 * The cells that a house shares with earlier ones, as sets of positions in a list of its cells. Sets of cells within a crossing are
 * met in both houses; the first one speaks for them.
 */
function crossingsBefore(geometry: Geometry, house: number, cells: readonly number[]): readonly number[] {
  const shared: number[] = []
  for (let i = 0; i < cells.length; i++)
    for (const other of geometry.housesOf[cells[i]!]!)
      if (other < house) shared[other] = (shared[other] ?? 0) | (1 << i)
  return shared.filter((positions) => positions !== undefined)
}

function isWithinOne(sets: readonly number[], part: number): boolean {
  for (let i = 0; i < sets.length; i++) if ((part & ~sets[i]!) === 0) return true
  return false
}

function holdsOne(whole: number, sets: readonly number[]): boolean {
  for (let i = 0; i < sets.length; i++) if ((sets[i]! & ~whole) === 0) return true
  return false
}

/** @param almost the almost locked sets up to this one, the last */
function ownTies(union: Int32Array, almost: readonly number[], mask: number, order: number): DigitSet[] {
  const digits = union[mask]!
  const ties: DigitSet[] = zeros(order)
  for (let rest = digits; rest !== 0; rest &= rest - 1) {
    const bit = rest & -rest
    ties[31 - Math.clz32(bit)] = digits ^ bit
  }
  for (let i = 0; i + 1 < almost.length; i++) {
    if ((almost[i]! & ~mask) !== 0) continue
    const known = union[almost[i]!]!
    for (let rest = known; rest !== 0; rest &= rest - 1) ties[31 - Math.clz32(rest & -rest)]! &= ~known
  }
  return ties
}
