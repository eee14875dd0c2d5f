import type { Geometry } from '../../grid/geometry.js'
import { solutionCounter } from '../decide/counter.js'
import { decide, UNSOUND_PAGE_COST } from '../decide/decide.js'
import { cellOptions } from '../decide/options.js'
import type { CellScores } from '../digits/digit-reader.js'
import type { SecondInk } from './second-ink.js'
import { withPrinted } from './with-printed.js'

/** How sure a figure in a second ink is to have been filled in, once the page is sound without all of them. */
const FILLED_IN = 0.98

/**
 * Takes the figures of a second ink for filled in, not given, when the others make a sound puzzle by themselves. When
 * they do not, the page may have been printed in two inks: the figures stay, and only the suspicion is noted; so it is
 * with a faint difference.
 */
export function setInkApart(
  geometry: Geometry,
  scores: readonly CellScores[],
  { cells, faint }: SecondInk,
): readonly CellScores[] {
  const apart = new Set(cells)
  const suspected = scores.map((score, cell) => (apart.has(cell) ? { ...score, handwritten: 1 } : score))
  if (faint) return suspected
  const without = suspected.map((score, cell) =>
    apart.has(cell) ? { ...withPrinted(score, 1 - FILLED_IN), handwritten: 1 } : score,
  )
  const options = without.map(({ digits }) => cellOptions(digits, geometry.order))
  const { kind, cost } = decide(geometry, options, solutionCounter(geometry))
  return kind === 'sound' && cost <= UNSOUND_PAGE_COST ? without : suspected
}
