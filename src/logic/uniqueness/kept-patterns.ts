import type { Board } from '../../grid/board.js'
import type { DigitSet } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { filled } from '../facts/number-lists.js'
import { stampOfHouses } from '../facts/path-memory.js'
import type { Step } from '../steps/step.js'
import type { TechniqueName } from '../technique-names.js'
import { conclusionsFrom } from './conclusions.js'
import { type ExchangePattern, extrasOf } from './pattern.js'

/** Cells of a pattern that may have extras: with more, hardly anything sees them all. */
export const MOST_WITH_EXTRAS = 3

/** A pattern, the houses of its cells, and what follows from it for as long as nothing changes there. */
export interface KeptPattern {
  readonly pattern: ExchangePattern
  readonly around: readonly number[]
  /** The stamp of these houses for which this follows. */
  stamp: number
  steps: readonly Step[]
}

/** Adds the pattern of these cells with these digits, unless nothing keeps them from being exchanged. */
export function addPattern(
  board: Board,
  cells: readonly number[],
  digits: DigitSet,
  patterns: KeptPattern[],
): void {
  const allowed = filled(cells.length, digits)
  const extras = extrasOf(board, cells, allowed)
  if (extras.length === 0) return
  const around: number[] = []
  for (let i = 0; i < cells.length; i++) {
    const houses = layoutOf(board.geometry).housesOf[cells[i]!]!
    for (let j = 0; j < houses.length; j++) if (!around.includes(houses[j]!)) around.push(houses[j]!)
  }
  patterns.push({ pattern: { cells, allowed, extras }, around, stamp: 0, steps: [] })
}

/** Reports what follows from patterns, looked for anew only where something has changed around one. */
export function reportKept(
  facts: Facts,
  technique: TechniqueName,
  patterns: readonly KeptPattern[],
  report: (step: Step) => boolean,
): boolean {
  const { stamps } = facts
  for (let i = 0; i < patterns.length; i++) {
    const kept = patterns[i]!
    const stamp = stampOfHouses(stamps, kept.around)
    if (kept.stamp !== stamp) {
      kept.stamp = stamp
      kept.steps = conclusionsFrom(facts, technique, kept.pattern)
    }
    for (let j = 0; j < kept.steps.length; j++) if (report(kept.steps[j]!)) return true
  }
  return false
}
