import { type DigitSet, digitCount, firstDigit, lowestBit } from '../../grid/digits.js'
import type { House } from '../../grid/layout.js'
import { layoutOf } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Task, Watch } from '../../limits.js'
import { partCells } from '../chains/house-ties.js'
import type { Part } from '../facts/context.js'
import type { Facts } from '../facts/facts.js'
import { zeros } from '../facts/number-lists.js'
import { type KeptAnswers, keptAnswers, oncePerBoard } from '../facts/path-memory.js'

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
  /** What the links that it gives rest on. */
  readonly reason: { readonly kind: 'set'; readonly cells: readonly number[] }
}

/** Every almost locked set of the board that holds no locked set, smallest first; computed once for a board. */
export const almostLockedSets = oncePerBoard((facts): readonly AlmostLockedSet[] =>
  fromAllHouses(facts, keptAlmostLocked, almostLockedIn),
)

const keptAlmostLocked = keptAnswers<readonly AlmostLockedSet[]>()

/**
 * Works out the sets of one house after another, where a call may have to stop or pause: then `almostLockedSets` has
 * them at hand.
 */
export function* prepareAlmostLocked(facts: Facts, watch: Watch): Task<void> {
  yield* prepareHouses(facts, keptAlmostLocked, almostLockedIn, watch)
}

/** The same for `looseSets`. */
export function* prepareLoose(facts: Facts, watch: Watch): Task<void> {
  yield* prepareHouses(facts, keptLoose, looseIn, watch)
}

function* prepareHouses<Found>(
  facts: Facts,
  kept: Part<KeptAnswers<readonly Found[]>>,
  find: (facts: Facts, house: House) => readonly Found[],
  watch: Watch,
): Task<void> {
  const own = facts.context.of(kept)
  for (const house of layoutOf(facts.board.geometry).houses) {
    if (watch.isDue(watch.read())) yield
    own.of(house.index, facts.stamps.ofHouse[house.index]!, () => find(facts, house))
  }
}

/** The sets of all houses, smallest first; those of houses where nothing has changed are kept from earlier boards. */
function fromAllHouses<Found extends { readonly cells: readonly number[] }>(
  facts: Facts,
  kept: Part<KeptAnswers<readonly Found[]>>,
  find: (facts: Facts, house: House) => readonly Found[],
): readonly Found[] {
  const own = facts.context.of(kept)
  const { ofHouse } = facts.stamps
  const { houses } = layoutOf(facts.board.geometry)
  const byHouse: (readonly Found[])[] = []
  for (let house = 0; house < houses.length; house++)
    byHouse.push(own.of(house, ofHouse[house]!, () => find(facts, houses[house]!)))
  const all: Found[] = []
  for (let size = 1; size <= LARGEST_SET; size++)
    for (let house = 0; house < houses.length; house++) addOfSize(byHouse[house]!, size, all)
  return all
}

/** Adds the sets of so many cells, from a list that has small ones first or as they come. */
function addOfSize<Found extends { readonly cells: readonly number[] }>(
  sets: readonly Found[],
  size: number,
  all: Found[],
): void {
  for (let i = 0; i < sets.length; i++) if (sets[i]!.cells.length === size) all.push(sets[i]!)
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
  readonly reason: AlmostLockedSet['reason']
}

/** Most cells in a loose set: they are many, and what larger ones give is hard to follow. */
const LARGEST_LOOSE_SET = 4

/** The loose sets of two cells or more, smallest first; computed once for a board. */
export const looseSets = oncePerBoard((facts): readonly LooseSet[] =>
  fromAllHouses(facts, keptLoose, looseIn),
)

const keptLoose = keptAnswers<readonly LooseSet[]>()

function looseIn(facts: Facts, house: House): LooseSet[] {
  const { board } = facts
  const found: LooseSet[] = []
  addLoose(facts, house, crossingsBefore(board.geometry)[house.index]!, 0, 0, 0, 0, found)
  return found
}

/**
 * Adds the loose sets that hold so many cells of a house, at these positions, and more of its open ones, from a
 * position on.
 */
function addLoose(
  facts: Facts,
  house: House,
  toldBefore: readonly number[],
  size: number,
  positions: number,
  digits: DigitSet,
  next: number,
  found: LooseSet[],
): void {
  const { board } = facts
  if (size > 1 && digitCount(digits) === size + 2 && !isWithinOne(toldBefore, positions)) {
    const cells = partCells(board.geometry, house.index, positions)
    const places = placesOf(facts, house.index, positions, digits)
    found.push({ cells, digits, places, reason: { kind: 'set', cells } })
  }
  if (size === LARGEST_LOOSE_SET) return
  for (let i = next; i < house.cells.length; i++) {
    const own = board.candidates[house.cells[i]!]!
    const more = digits | own
    // each cell that is still to come makes up for one digit at most
    if (own === 0 || digitCount(more) > LARGEST_LOOSE_SET + 2) continue
    addLoose(facts, house, toldBefore, size + 1, positions | (1 << i), more, i + 1, found)
  }
}

/** What serves set after set, and house after house. */
class SetLists {
  /** What is found of a set, before it is cut to length: a list that grows takes room for many more. */
  readonly places: (readonly number[])[] = []
  /** positions in a house, as a set -> the candidates of the cells there. */
  unions = new Int32Array(0)
}

const setLists = (): SetLists => new SetLists()

/** The cells at these positions of a house that have each of the digits. */
function placesOf(
  facts: Facts,
  house: number,
  positions: DigitSet,
  digits: DigitSet,
): readonly (readonly number[])[] {
  const { board, context, places } = facts
  const { geometry } = board
  const { places: some } = context.of(setLists)
  const first = house * geometry.order - 1
  let found = 0
  for (let rest = digits; rest !== 0; rest &= rest - 1)
    some[found++] = partCells(geometry, house, places[first + firstDigit(rest)]! & positions)
  return some.slice(0, found)
}

function almostLockedIn(facts: Facts, house: House): AlmostLockedSet[] {
  const { board } = facts
  const found: AlmostLockedSet[] = []
  const { candidates, geometry } = board
  const { cells: all } = house
  const toldBefore = crossingsBefore(geometry)[house.index]!
  const lists = facts.context.of(setLists)
  if (lists.unions.length < 1 << all.length) lists.unions = new Int32Array(1 << all.length)
  const union = lists.unions
  let open = 0
  for (let i = 0; i < all.length; i++) if (candidates[all[i]!] !== 0) open |= 1 << i
  // few sets are locked or almost so, and a set follows those within it
  const locked: number[] = []
  const almost: number[] = []
  // the subsets of the open positions, in ascending order
  for (let mask = open & -open; mask !== 0; mask = (mask - open) & open) {
    const rest = mask & (mask - 1)
    const digits = union[rest]! | candidates[all[lowestBit(mask)]!]!
    union[mask] = digits
    const size = digitCount(mask)
    if (size > LARGEST_SET) continue
    const spare = digitCount(digits) - size
    if (spare > 1) continue
    if (spare < 1) locked.push(mask)
    else if (!holdsOne(mask, locked)) {
      almost.push(mask)
      if (isWithinOne(toldBefore, mask)) continue
      const cells = partCells(geometry, house.index, mask)
      const ties = ownTies(union, almost, mask, geometry.order)
      found.push({
        cells,
        digits,
        ties,
        places: placesOf(facts, house.index, mask, digits),
        reason: { kind: 'set', cells },
      })
    }
  }
  return found
}

/**
 * house -> the cells that it shares with each of the houses before it, as sets of positions, without those within
 * another. Sets of cells within a crossing are met in both houses; the first one speaks for them.
 */
const crossingsBefore = perLayout(({ houses, positionIn }): readonly (readonly number[])[] =>
  houses.map(({ index, cells }) => {
    const shared = houses
      .slice(0, index)
      .map((other) =>
        cells.reduce((set, cell, i) => (positionIn(other.index, cell) < 0 ? set : set | (1 << i)), 0),
      )
    return [...new Set(shared)].filter(
      (set) => set !== 0 && !shared.some((other) => other !== set && (set & ~other) === 0),
    )
  }),
)

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
    ties[lowestBit(bit)] = digits ^ bit
  }
  for (let i = 0; i + 1 < almost.length; i++) {
    if ((almost[i]! & ~mask) !== 0) continue
    const known = union[almost[i]!]!
    for (let rest = known; rest !== 0; rest &= rest - 1) ties[lowestBit(rest)]! &= ~known
  }
  return ties
}
