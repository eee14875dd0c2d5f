import type { Board } from '../../grid/board.js'
import { type DigitSet, digitBit, digitCount, firstDigit } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts, Stamps } from '../facts/facts.js'
import { keptAnswers, oncePerBoard, stampOfCells, stampOfHouses } from '../facts/path-memory.js'
import { cellPremise, housePremise } from '../proof/premise-holds.js'
import type { Premise, Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'
import { draftsOf, holdersOf, stepOfDraft, type Way } from '../uniqueness/conclusions.js'
import { type ExchangePattern, exchangeStep, extrasOf } from '../uniqueness/pattern.js'
import { type Corners, flatCorners, rectanglesOf } from '../uniqueness/rectangle.js'

/** A rectangle of open cells that share two digits; one value for as long as its corners stay the same. */
interface OpenRectangle {
  readonly corners: Corners
  readonly a: number
  readonly b: number
  readonly pattern: ExchangePattern
  /** Corners with extras. */
  readonly holders: readonly number[]
  /** The types that it cannot be by its corners, as bits. */
  readonly otherTypes: number
  /** The stamp of its houses for which the rest is said. */
  stamp: number
  /** The types that are not there, as bits. */
  vainTypes: number
  /** Steps of forced fillings, once they are worked out. */
  forced: readonly Step[] | undefined
}

const keptRectangles = keptAnswers<OpenRectangle[]>()

/** Rectangles whose four cells are open and share two digits. */
const openRectangles = oncePerBoard((facts): readonly OpenRectangle[] => {
  const { board, context, stamps } = facts
  const { candidates } = board
  const kept = context.of(keptRectangles)
  const open = context.of(stillOpenPart)
  const found: OpenRectangle[] = []
  const rectangles = rectanglesOf(board.geometry)
  const flat = flatCorners(board.geometry)
  if (open.path !== stamps) {
    open.path = stamps
    for (let i = 0; i < rectangles.length; i++) open.list[i] = i
    open.count = rectangles.length
  }
  let left = 0
  for (let k = 0; k < open.count; k++) {
    const i = open.list[k]!
    const at = 4 * i
    // most rectangles are out of it with their first two cells
    let shared = candidates[flat[at]!]! & candidates[flat[at + 3]!]!
    if ((shared & (shared - 1)) === 0) continue
    shared &= candidates[flat[at + 1]!]! & candidates[flat[at + 2]!]!
    if ((shared & (shared - 1)) === 0) continue
    open.list[left++] = i
    const { corners, houses } = rectangles[i]!
    const telling = tellingDigits(facts, corners, houses, shared)
    if ((telling & (telling - 1)) === 0) continue
    const stamp = stampOfHouses(stamps, houses)
    const known = kept.of(i, stampOfCells(stamps, corners), noRectangles)
    for (let rest = telling; rest !== 0; rest &= rest - 1) {
      for (let others = rest & (rest - 1); others !== 0; others &= others - 1) {
        const rectangle = rectangleWith(board, corners, rest & -rest, others & -others, known)
        if (rectangle.stamp !== stamp) {
          rectangle.stamp = stamp
          rectangle.vainTypes = rectangle.otherTypes
          rectangle.forced = undefined
        }
        found.push(rectangle)
      }
    }
  }
  open.count = left
  return found
})

/** The rectangles that were open on the latest board, and its path: along a path none opens again. */
class StillOpen {
  readonly list: number[] = []
  count = 0
  path: Stamps | undefined
}

const stillOpenPart = (): StillOpen => new StillOpen()

/**
 * Of the digits that the corners share, those with which something may follow. At least one corner has to hold a pair
 * and nothing else, or else a house of theirs has no other places for the one digit, and another none for the other:
 * where all corners have extras, only houses force them. On an empty board four corners share every digit, and no pair
 * of them says anything.
 */
function tellingDigits(
  facts: Facts,
  corners: Corners,
  houses: readonly number[],
  shared: DigitSet,
): DigitSet {
  const { board, twoPlaces } = facts
  let telling = 0
  for (let i = 0; i < houses.length; i++) telling |= twoPlaces[houses[i]!]!
  for (let i = 0; i < 4; i++) {
    const digits = board.candidates[corners[i]!]!
    const rest = digits & (digits - 1)
    if ((rest & (rest - 1)) === 0) telling |= digits
  }
  return telling & shared
}

const noRectangles = (): OpenRectangle[] => []

/** The rectangle with these two digits, as bits: the same value for as long as its corners stay the same. */
function rectangleWith(
  board: Board,
  corners: Corners,
  one: DigitSet,
  other: DigitSet,
  open: OpenRectangle[],
): OpenRectangle {
  const a = firstDigit(one)
  const b = firstDigit(other)
  for (let i = 0; i < open.length; i++) if (open[i]!.a === a && open[i]!.b === b) return open[i]!
  const pattern = patternOf(board, corners, a, b)
  const holders = holdersOf(pattern.extras)
  let otherTypes = 0
  for (const type of NUMBERED) if (!mayBe(type, corners, holders)) otherTypes |= 1 << type
  const rectangle: OpenRectangle = {
    corners,
    a,
    b,
    pattern,
    holders,
    otherTypes,
    stamp: 0,
    vainTypes: otherTypes,
    forced: undefined,
  }
  open.push(rectangle)
  return rectangle
}

/** Two fillings swap a and b: the extras are whatever else the corners may hold. */
function patternOf(board: Board, corners: Corners, a: number, b: number): ExchangePattern {
  const both = digitBit(a) | digitBit(b)
  const allowed = [both, both, both, both]
  return { cells: corners, allowed, extras: extrasOf(board, corners, allowed) }
}

const NUMBERED = [1, 2, 3, 4, 5] as const
type Numbered = (typeof NUMBERED)[number]

/** How many corners have extras, by type. */
const FEWEST = { 1: 1, 2: 2, 3: 2, 4: 2, 5: 2 } as const
const MOST = { 1: 1, 2: 2, 3: 2, 4: 2, 5: 3 } as const

/** Could the rectangle be of this type, by the corners that have extras? */
function mayBe(type: Numbered, corners: Corners, holders: readonly number[]): boolean {
  if (holders.length < FEWEST[type] || holders.length > MOST[type]) return false
  if (type !== 2 && type !== 5) return true
  const inLine = holders.length === 2 && corners.indexOf(holders[0]!) + corners.indexOf(holders[1]!) !== 3
  return inLine === (type === 2)
}

/**
 * The types that solvers number: 1, extras in one corner; 2, one extra digit in two corners of a line; 3, extras that
 * make a subset; 4, a digit confined to the two corners with extras; 5, one extra digit in diagonal or three corners.
 */
function numbered(type: Numbered): Technique {
  const name = `unique-rectangle-type-${type}` as const
  const way: Way = (
    { 1: 'one-cell', 2: 'one-digit', 3: 'subset', 4: 'locked-digit', 5: 'one-digit' } as const
  )[type]
  const find: Technique['find'] = (facts, report) => tellNumbered(name, 1 << type, way, facts, report)
  return { name, level: 'pattern', assumes: 'one-solution', find }
}

/** @param bit the type, as a bit */
function tellNumbered(
  name: TechniqueName,
  bit: number,
  way: Way,
  facts: Facts,
  report: (step: Step) => boolean,
): void {
  const { board } = facts
  const open = openRectangles(facts)
  for (let k = 0; k < open.length; k++) {
    const rectangle = open[k]!
    if (rectangle.vainTypes & bit) continue
    let found = false
    const drafts = draftsOf(board, rectangle.pattern, way)
    for (let i = 0; i < drafts.length; i++) {
      const step = stepOfDraft(facts, name, rectangle.pattern, drafts[i]!)
      if (!step) continue
      found = true
      if (report(step)) return
    }
    if (!found) rectangle.vainTypes |= bit
  }
}

/** One corner is supposed to hold one of the digits; what then fills the others with the swapped pair? */
function forcedFillings(facts: Facts, { corners, a, b, pattern, holders }: OpenRectangle): Step[] {
  const steps: Step[] = []
  // With three plain corners type 1 says it all.
  if (holders.length < 2) return steps
  for (let corner = 0; corner < 4; corner++) {
    for (let which = 0; which < 2; which++) {
      const digit = which === 0 ? a : b
      const premises = forcing(facts, corners, corner, digit, which === 0 ? b : a)
      if (!premises) continue
      const removals = [{ cell: corners[corner]!, digit }]
      const name = nameOfForced(premises, corners)
      if (!name) continue
      const step = exchangeStep(facts, name, pattern, { removals }, premises)
      if (step?.premises.some((premise) => premise.kind === 'house')) steps.push(step)
    }
  }
  return steps
}

/**
 * With `digit` in the corner, its neighbours must hold the other digit and the far corner `digit` again. Each is forced
 * by its two candidates, or by a house that has no other place for what it must hold. The premises, unless some corner
 * is not forced, or all are by their candidates: that is type 1.
 */
function forcing(
  facts: Facts,
  corners: Corners,
  corner: number,
  digit: number,
  other: number,
): Premise[] | undefined {
  const { board } = facts
  const own = corners[corner]!
  const far = corners[3 - corner]!
  // of the two neighbours, corners 1 and 2 of the corners 0 and 3, and the other way about
  const isEnd = corner === 0 || corner === 3
  const one = corners[isEnd ? 1 : 0]!
  const next = corners[isEnd ? 2 : 3]!
  const oneBy = forcedBy(facts, one, other, own)
  if (oneBy === NOT_FORCED) return undefined
  const nextBy = forcedBy(facts, next, other, own)
  if (nextBy === NOT_FORCED) return undefined
  let farBy = forcedBy(facts, far, digit, one)
  if (farBy === NOT_FORCED) farBy = forcedBy(facts, far, digit, next)
  if (farBy === NOT_FORCED || (oneBy === BY_ITSELF && nextBy === BY_ITSELF && farBy === BY_ITSELF))
    return undefined
  return [
    forcedPremise(board, one, oneBy, other),
    forcedPremise(board, next, nextBy, other),
    forcedPremise(board, far, farBy, digit),
  ]
}

function forcedPremise(board: Board, cell: number, by: number, wanted: number): Premise {
  return by === BY_ITSELF ? cellPremise(board, cell) : housePremise(board, by, wanted)
}

const BY_ITSELF = -1
const NOT_FORCED = -2

/** What makes a corner hold a digit once its neighbour does not: its own two candidates, or a house, as its number. */
function forcedBy(facts: Facts, cell: number, wanted: number, neighbour: number): number {
  const { board } = facts
  if (digitCount(board.candidates[cell]!) === 2) return BY_ITSELF
  const { geometry } = board
  const layout = layoutOf(geometry)
  const { places } = facts
  const houses = layout.housesOf[cell]!
  for (let i = 0; i < houses.length; i++) {
    const house = houses[i]!
    // Both cells have the digit, so two places are these two.
    if (
      digitCount(places[house * geometry.order + wanted - 1]!) === 2 &&
      layout.positionIn(house, neighbour) >= 0
    )
      return house
  }
  return NOT_FORCED
}

/**
 * Two diagonal corners without extras make type 6; one such corner or none, a hidden rectangle. Two in a line are type
 * 4, reported by its own finder, which removes from both other corners at once.
 */
function nameOfForced(premises: readonly Premise[], corners: Corners): TechniqueName | undefined {
  const plain = premises.flatMap((premise) =>
    premise.kind === 'cell' ? [corners.indexOf(premise.cell)] : [],
  )
  if (plain.length < 2) return 'hidden-rectangle'
  return plain[0]! + plain[1]! === 3 ? 'unique-rectangle-type-6' : undefined
}

function forced(name: TechniqueName): Technique {
  const find: Technique['find'] = (facts, report) => tellForced(name, facts, report)
  return { name, level: 'pattern', assumes: 'one-solution', find }
}

function tellForced(name: TechniqueName, facts: Facts, report: (step: Step) => boolean): void {
  const open = openRectangles(facts)
  for (let k = 0; k < open.length; k++) {
    const rectangle = open[k]!
    rectangle.forced ??= forcedFillings(facts, rectangle)
    for (let i = 0; i < rectangle.forced.length; i++) {
      const step = rectangle.forced[i]!
      if (step.technique === name && report(step)) return
    }
  }
}

export const uniqueRectangles: readonly Technique[] = [
  numbered(1),
  numbered(2),
  numbered(3),
  numbered(4),
  numbered(5),
  forced('unique-rectangle-type-6'),
]
export const hiddenRectangle = forced('hidden-rectangle')
