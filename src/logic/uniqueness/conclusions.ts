import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitBit, digitCount, digitsOf, firstDigit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { cellPremise, housePremise } from '../proof/premise-holds.js'
import type { Premise, Step } from '../steps/step.js'
import type { TechniqueName } from '../technique-names.js'
import { candidatesAgainstAll, type ExchangePattern, exchangeStep } from './pattern.js'

/** How a conclusion was drawn from a pattern; rectangles have names for each. */
export type Way =
  /** All extras stand in one cell, or one is left: that cell takes an extra. */
  | 'one-cell'
  /** All extras are of one digit: what sees them all loses it. */
  | 'one-digit'
  /** The extras together act as one cell of a naked subset. */
  | 'subset'
  /** A digit of the pattern is confined to the two cells with extras, so the other digit leaves them. */
  | 'locked-digit'

const WAYS: readonly Way[] = ['one-cell', 'one-digit', 'subset', 'locked-digit']

/** What follows from one of the extras being true, but for one way that may be left out. */
export function conclusionsFrom(
  facts: Facts,
  name: TechniqueName,
  pattern: ExchangePattern,
  leftOut?: Way,
): readonly Step[] {
  const { board } = facts
  let steps = NO_STEPS
  for (let i = 0; i < WAYS.length; i++) {
    if (WAYS[i] === leftOut) continue
    const drafts = draftsOf(board, pattern, WAYS[i]!)
    for (let j = 0; j < drafts.length; j++) {
      const step = stepOfDraft(facts, name, pattern, drafts[j]!)
      if (step) steps = [...steps, step]
    }
  }
  return steps
}

const NO_STEPS: readonly Step[] = []

/** What would follow in one way, before it is proven: mostly nothing. */
export function draftsOf(board: Board, pattern: ExchangePattern, way: Way): readonly Draft[] {
  return DRAWN[way](board, pattern)
}

/** The step of a draft, if it is proven. */
export function stepOfDraft(
  facts: Facts,
  name: TechniqueName,
  pattern: ExchangePattern,
  { placements, removals, more }: Draft,
): Step | undefined {
  const { board } = facts
  const premises = pattern.cells.map((cell) => cellPremise(board, cell))
  return exchangeStep(facts, name, pattern, placements ? { placements } : { removals }, [
    ...premises,
    ...(more ?? []),
  ])
}

export interface Draft {
  readonly placements?: readonly Candidate[]
  readonly removals: readonly Candidate[]
  /** Premises besides the cells of the pattern. */
  readonly more?: readonly Premise[]
}

const DRAWN: Readonly<Record<Way, (board: Board, pattern: ExchangePattern) => readonly Draft[]>> = {
  'one-cell': fromOneCell,
  'one-digit': fromOneDigit,
  subset: fromSubset,
  'locked-digit': fromLockedDigit,
}

const NONE: readonly Draft[] = []

function fromOneCell(board: Board, { extras }: ExchangePattern): readonly Draft[] {
  if (extras.length === 1) return [{ placements: extras, removals: [] }]
  return areInOneCell(extras) ? [{ removals: candidatesAgainstAll(board, extras) }] : NONE
}

function fromOneDigit(board: Board, { extras }: ExchangePattern): readonly Draft[] {
  if (areInOneCell(extras)) return NONE
  const removals = candidatesAgainstAll(board, extras)
  return removals.length > 0 ? [{ removals }] : NONE
}

function areInOneCell(extras: readonly Candidate[]): boolean {
  for (let i = 1; i < extras.length; i++) if (extras[i]!.cell !== extras[0]!.cell) return false
  return true
}

/** The cells that have extras. */
export function holdersOf(extras: readonly Candidate[]): number[] {
  const holders: number[] = []
  for (let i = 0; i < extras.length; i++)
    if (!holders.includes(extras[i]!.cell)) holders.push(extras[i]!.cell)
  return holders
}

/** Most cells apart from the extras; with more, the rest of the house makes a smaller hidden subset. */
const MOST_OTHERS = 4

function fromSubset(board: Board, { cells, extras }: ExchangePattern): readonly Draft[] {
  if (areInOneCell(extras)) return NONE
  let wanted = 0
  for (let i = 0; i < extras.length; i++) wanted |= digitBit(extras[i]!.digit)
  if (digitCount(wanted) < 2) return NONE
  const { geometry, candidates } = board
  const layout = layoutOf(geometry)
  const holders = holdersOf(extras)
  const drafts: Draft[] = []
  const houses = layout.housesOf[holders[0]!]!
  for (let i = 0; i < houses.length; i++) {
    if (!areInHouse(geometry, houses[i]!, holders)) continue
    const all = layout.houses[houses[i]!]!.cells
    const open: number[] = []
    for (let j = 0; j < all.length; j++)
      if (candidates[all[j]!] !== 0 && !cells.includes(all[j]!)) open.push(all[j]!)
    addSubsets(board, houses[i]!, holders, open, 0, [], wanted, drafts)
  }
  return drafts
}

function areInHouse(geometry: Geometry, house: number, cells: readonly number[]): boolean {
  const layout = layoutOf(geometry)
  for (let i = 0; i < cells.length; i++) if (layout.positionIn(house, cells[i]!) < 0) return false
  return true
}

/**
 * Adds what follows where these cells and more of the open ones, from the next on, have one digit more than there are
 * of them.
 */
function addSubsets(
  board: Board,
  house: number,
  holders: readonly number[],
  open: readonly number[],
  next: number,
  others: number[],
  digits: DigitSet,
  drafts: Draft[],
): void {
  for (let i = next; i < open.length; i++) {
    const union = digits | board.candidates[open[i]!]!
    const count = digitCount(union)
    if (count > MOST_OTHERS + 1) continue
    others.push(open[i]!)
    if (count === others.length + 1) {
      const removals = subsetRemovals(board, house, holders, others, union)
      if (removals.length > 0) drafts.push({ removals, more: others.map((cell) => cellPremise(board, cell)) })
    }
    if (others.length < MOST_OTHERS) addSubsets(board, house, holders, open, i + 1, others, union, drafts)
    others.pop()
  }
}

function subsetRemovals(
  { geometry, candidates }: Board,
  house: number,
  holders: readonly number[],
  others: readonly number[],
  digits: DigitSet,
): Candidate[] {
  const removals: Candidate[] = []
  for (const cell of layoutOf(geometry).houses[house]!.cells) {
    if (holders.includes(cell) || others.includes(cell)) continue
    for (let rest = candidates[cell]! & digits; rest !== 0; rest &= rest - 1)
      removals.push({ cell, digit: firstDigit(rest) })
  }
  return removals
}

function fromLockedDigit(board: Board, { cells, allowed, extras }: ExchangePattern): readonly Draft[] {
  const holders = holdersOf(extras)
  if (holders.length !== 2) return NONE
  const { geometry, candidates } = board
  const layout = layoutOf(geometry)
  const [one, other] = holders as [number, number]
  const shared = allowed[cells.indexOf(one)]! & allowed[cells.indexOf(other)]!
  if (digitCount(shared) !== 2) return NONE
  const drafts: Draft[] = []
  for (const house of layout.housesOf[one]!) {
    if (layout.positionIn(house, other) < 0) continue
    for (const digit of digitsOf(shared)) {
      const places = housePremise(board, house, digit)
      if (places.kind !== 'house' || places.cells.length !== 2) continue
      const gone = shared & ~digitBit(digit)
      const removals = holders.flatMap((cell) =>
        digitsOf(candidates[cell]! & gone).map((left) => ({ cell, digit: left })),
      )
      if (removals.length > 0) drafts.push({ removals, more: [places] })
    }
  }
  return drafts
}
