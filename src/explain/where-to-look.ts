import { openCount } from '../grid/board/ask.js'
import { layoutOf } from '../grid/layout.js'
import type { FoundStep } from '../logic/steps/step.js'
import { planPicture } from './picture/plan.js'
import { shapeHouses } from './shapes/shapes.js'

/** A listener keeps no more in mind. */
const MOST_PLACES = 3

/**
 * The cells and digits of the pattern, those of filled cells that are part of it as well; for a single only the cell,
 * since the digit is the answer.
 */
export function whatToSee(step: FoundStep): { readonly cells: number[]; readonly digits: number[] } {
  const { pattern } = step
  if (pattern.shape === 'single') return { cells: [pattern.cell], digits: [] }
  // where every open cell could be exchanged, those that keep it from happening
  if (pattern.shape === 'exchange' && pattern.cells.length === openCount(step.before))
    return { cells: ascending(pattern.extras.map(({ cell }) => cell)), digits: [] }
  const plan = planPicture(step)
  const marks = plan.candidates.filter(({ role }) => role !== 'removed' && role !== 'placed')
  return {
    cells: ascending([...plan.cells.keys(), ...marks.map(({ cell }) => cell)]),
    digits: ascending([
      ...marks.map(({ digit }) => digit),
      ...(pattern.shape === 'exchange' ? pattern.digits : []),
    ]),
  }
}

/**
 * At most three houses: those that the pattern is about, or the boxes (regions) of its cells; of a pattern that lies in
 * more, the houses that hold most of it.
 */
export function whereToLook(step: FoundStep): number[] {
  const own = shapeHouses(step.pattern)
  return own?.slice(0, MOST_PLACES) ?? housesHolding(step, whatToSee(step).cells)
}

function housesHolding({ before, pattern }: FoundStep, cells: readonly number[]): number[] {
  const { houses, housesOf } = layoutOf(before.geometry)
  const pieces = (of: readonly number[]) =>
    ascending(
      of.flatMap((cell) => housesOf[cell]!.filter((house) => /^(box|region)$/.test(houses[house]!.kind))),
    )
  const own = pieces(cells)
  if (own.length <= MOST_PLACES) return own
  // what keeps an exchange from happening is what one has to see of it
  if (pattern.shape === 'exchange') {
    const extras = pieces(pattern.extras.map(({ cell }) => cell))
    if (extras.length > 0 && extras.length <= MOST_PLACES) return extras
  }
  const chosen: number[] = []
  let left = cells
  while (left.length > 0 && chosen.length < MOST_PLACES) {
    const held = (house: number) => left.filter((cell) => houses[house]!.cells.includes(cell)).length
    // equal ones: boxes before lines, since they are easier to look at as a whole
    const [best] = [...own, ...houses.keys()].sort((a, b) => held(b) - held(a))
    chosen.push(best!)
    left = left.filter((cell) => !houses[best!]!.cells.includes(cell))
  }
  return ascending(chosen)
}

function ascending(numbers: readonly number[]): number[] {
  return [...new Set(numbers)].sort((a, b) => a - b)
}
