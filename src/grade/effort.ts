import { openCount } from '../grid/board/ask.js'
import { layoutOf } from '../grid/layout.js'
import { checkFoundStep } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import { looksFor, piecesOf, type SinglesSeen } from './ease.js'
import { marksOn } from './rounds.js'

/**
 * How hard a step is to find on its board, in looks, were it the only one open there. A look is one open cell, or one
 * pencil mark, thought about once:
 *
 *     single:       open cells / ease^¾
 *     other steps:  marks × 3^level × (pieces / candidates removed or placed)^¼
 *
 * The ease of a single is 1 where it is the last open cell of a house or the only place in a box, 2/5 in a row, column
 * or diagonal, and 8/order² as the last candidate of a cell. The level counts from 0 (`scan`), and pieces are what has
 * to be seen together: the cells of a set, the houses of a fish and one more for its fins, the strong links of a chain.
 *
 * Worked out on a 9×9 grid with 48 open cells and 160 marks: the only place in a box takes 48 looks, in a row 95.4, a
 * last candidate 272.5; where each removes two candidates, a naked pair takes 480 looks, an X-wing 1440 and an XY-chain
 * of four cells 5137.4. The formula is this project's own; a grade adds it up over all that is open (`gradePuzzle`).
 *
 * @throws InputError `argument` for what is no step found on a board
 *
 * @example
 * stepEffort(nextStep(board)!) > 0 // → true
 */
export function stepEffort(step: FoundStep): number {
  checkFoundStep(step)
  return effortOf(step)
}

/** The same for a step that was found here. */
export function effortOf(step: FoundStep): number {
  const { before, level, placements, removals } = step
  if (level === 'scan') return looksFor(onlySingle(step))
  const removable = Math.max(1, placements.length + removals.length)
  return looksFor({ kind: 'steps', marks: marksOn(before), level, pieces: piecesOf(step), removable })
}

function onlySingle({ technique, pattern, before }: FoundStep): SinglesSeen {
  const { geometry } = before
  const none = {
    kind: 'singles',
    order: geometry.order,
    openCells: openCount(before),
    inBoxes: 0,
    inLines: 0,
    lastCandidates: 0,
  } as const
  if (technique === 'full-house') return { ...none, inBoxes: 1 }
  if (technique === 'naked-single' || pattern.shape !== 'single' || pattern.house === undefined)
    return { ...none, lastCandidates: 1 }
  const { kind } = layoutOf(geometry).houses[pattern.house]!
  return kind === 'box' || kind === 'region' ? { ...none, inBoxes: 1 } : { ...none, inLines: 1 }
}
