import type { Candidate } from '../grid/board.js'
import { firstDigit, holdsOne, lowestBit } from '../grid/digits.js'
import { layoutOf } from '../grid/layout.js'
import type { Facts } from '../logic/facts/facts.js'
import { zeros } from '../logic/facts/number-lists.js'
import type { TechniqueName } from '../logic/technique-names.js'
import type { SinglesSeen } from './ease.js'

export type SingleName = Extract<TechniqueName, 'full-house' | 'hidden-single' | 'naked-single'>

/** The singles open on a board. */
export interface OpenSingles {
  readonly seen: SinglesSeen
  /** Those that are easiest to see: equally easy ones, all of them. */
  readonly easiest: readonly Candidate[]
  /** What these are seen as, the easier first. */
  readonly seenAs: readonly SingleName[]
}

// How a digit is seen to belong into a cell, from the hardest.
const LAST_CANDIDATE = 1
const IN_LINE = 2
const IN_BOX = 3
const LAST_CELL = 4

/** Every placement that a single shows, counted as the easiest of the allowed singles that show it. */
export function openSingles(
  facts: Facts,
  allowed: ReadonlySet<TechniqueName>,
  openCells: number,
): OpenSingles | undefined {
  const { places, open } = facts
  const { geometry, candidates } = facts.board
  const { order, cellCount } = geometry
  const { houses } = layoutOf(geometry)
  // cell -> how its digit is seen at best, and the digit
  const seenAs = zeros(cellCount)
  const digits = zeros(cellCount)
  const hidden = allowed.has('hidden-single')
  const full = allowed.has('full-house')
  for (let house = 0, base = 0; house < houses.length; house++, base += order) {
    const isFull = full && holdsOne(open[house]!)
    if (open[house] === 0 || !(isFull || hidden)) continue
    const { cells, kind } = houses[house]!
    const as = isFull ? LAST_CELL : kind === 'box' || kind === 'region' ? IN_BOX : IN_LINE
    for (let digit = 1; digit <= order; digit++) {
      const set = places[base + digit - 1]!
      if (!holdsOne(set)) continue
      const cell = cells[lowestBit(set)]!
      if (seenAs[cell]! >= as) continue
      seenAs[cell] = as
      digits[cell] = digit
    }
  }
  const counts = [0, 0, 0, 0, 0]
  const naked = allowed.has('naked-single')
  for (let cell = 0; cell < cellCount; cell++) {
    const set = candidates[cell]!
    if (naked && seenAs[cell] === 0 && holdsOne(set)) {
      seenAs[cell] = LAST_CANDIDATE
      digits[cell] = firstDigit(set)
    }
    counts[seenAs[cell]!]!++
  }
  const [, lastCandidates = 0, inLines = 0, inBoxesOnly = 0, lastCells = 0] = counts
  const inBoxes = inBoxesOnly + lastCells
  const least = inBoxes > 0 ? IN_BOX : inLines > 0 ? IN_LINE : LAST_CANDIDATE
  const easiest: Candidate[] = []
  for (let cell = 0; cell < cellCount; cell++)
    if (seenAs[cell]! >= least) easiest.push({ cell, digit: digits[cell]! })
  if (easiest.length === 0) return undefined
  return {
    seen: { kind: 'singles', order, openCells, inBoxes, inLines, lastCandidates },
    easiest,
    seenAs: namesOf(least, lastCells > 0, inBoxesOnly > 0),
  }
}

function namesOf(least: number, someLastCells: boolean, someInBoxes: boolean): readonly SingleName[] {
  if (least === LAST_CANDIDATE) return ['naked-single']
  if (!someLastCells) return ['hidden-single']
  return someInBoxes ? ['full-house', 'hidden-single'] : ['full-house']
}
