import type { Geometry } from '../../grid/geometry.js'
import { solutionCounter } from '../decide/counter.js'
import { decide } from '../decide/decide.js'
import { cellOptions } from '../decide/options.js'
import type { CellScores } from '../digits/digit-reader.js'

/** How sure a figure in a second ink is to have been filled in, once the page is sound without all of them. */
const FILLED_IN = 0.98
/** A single odd figure may owe its colour to a stain or the light. */
const LEAST_CELLS = 2

/**
 * Takes the figures of a second ink for filled in, not given, when the others make a sound puzzle by themselves. When they
 * do not, the page may have been printed in two inks: the figures stay, and only the suspicion is noted; so it is with a
 * single odd figure.
 *
 * @param cells the cells of the second ink
 */
export function setInkApart(
  geometry: Geometry,
  scores: readonly CellScores[],
  cells: readonly number[],
): readonly CellScores[] {
  if (cells.length === 0) return scores
  const apart = new Set(cells)
  const suspected = scores.map((score, cell) => (apart.has(cell) ? { ...score, handwritten: 1 } : score))
  if (cells.length < LEAST_CELLS) return suspected
  const without = suspected.map((score, cell) => (apart.has(cell) ? notPrinted(score) : score))
  const options = without.map(({ digits }) => cellOptions(digits, geometry.order))
  return decide(geometry, options, solutionCounter(geometry)).kind === 'sound' ? without : suspected
}

function notPrinted({ digits, handwritten }: CellScores): CellScores {
  const printed = 1 - digits[0]!
  const scale = printed > 0 ? (1 - FILLED_IN) / printed : 0
  return { digits: digits.map((share, digit) => (digit === 0 ? FILLED_IN : share * scale)), handwritten }
}
