import { layoutOf } from '../grid/layout.js'
import { checkFoundStep } from '../logic/check-step.js'
import type { FoundStep, Premise } from '../logic/step.js'

/**
 * How much work a step is, from its own premises and the board it was found on:
 *
 *     effort = looks × (1 + held)
 *
 * `looks`: places that have to be looked at to see that all premises hold. A house premise takes one look at each open
 * cell of the house (can the digit go there?), a cell premise one look for each digit of the grid (can it be that?), and
 * a premise about a digit that stands already takes one.
 *
 * `held`: possibilities that have to be kept in mind at once besides the first: the alternatives of each premise less
 * one, summed.
 *
 * The unit is one look. The formula is this project's own. A step with more premises, or with more alternatives in one,
 * never has less effort; the name of the technique plays no part.
 *
 * Worked out on a 9×9 grid: the last cell of a row is 1; a hidden single in a box with six open cells 6; a naked single
 * 9; a naked pair (9 + 9) × 3 = 54; an XY-wing (9 + 9 + 9) × 4 = 108.
 *
 * @throws InputError `argument` for what is no step found on a board
 */
export function stepEffort(step: FoundStep): number {
  checkFoundStep(step)
  return effortOf(step)
}

/** The same for a step that was found here. */
export function effortOf(step: FoundStep): number {
  let looks = 0
  let held = 0
  for (const premise of step.premises) {
    looks += looksAt(step, premise)
    held += alternativesOf(premise) - 1
  }
  return looks * (1 + held)
}

function alternativesOf(premise: Premise): number {
  return premise.kind === 'cell' ? premise.digits.length : premise.cells.length
}

function looksAt(step: FoundStep, premise: Premise): number {
  const { geometry, digits } = step.before
  if (premise.kind === 'cell') return digits[premise.cell] !== 0 ? 1 : geometry.order
  if (premise.cells.length === 1 && digits[premise.cells[0]!] === premise.digit) return 1
  return layoutOf(geometry).houses[premise.house]!.cells.filter((cell) => digits[cell] === 0).length
}
