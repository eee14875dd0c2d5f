import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import type { FoundStep } from '../../logic/steps/step.js'
import type { Fact } from '../argument/facts.js'
import type { Reason } from '../argument/reason.js'
import { sectorFish } from '../argument/sectors.js'
import { isIn } from '../argument/sight.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { huntSectors as clues } from '../hunt/hunt-others.js'

export function facts(_: FoundStep, { cells, houses }: PatternOf<'sectors'>): Fact[] {
  return [{ kind: 'sector-count', cells, houses }]
}

export function reason(
  step: FoundStep,
  pattern: PatternOf<'sectors'>,
  removed: Candidate,
): Reason | undefined {
  const { cell, digit } = removed
  const uses = ({ house, digits }: (typeof pattern.houses)[number]) =>
    digits.includes(digit) && isIn(step.before.geometry, house, cell)
  const house = pattern.cells.includes(cell) ? undefined : pattern.houses.find(uses)?.house
  return house === undefined ? sectorFish(step, removed) : { kind: 'used-in-houses', houses: [house] }
}

export function plan(picture: PlanBuilder, { before }: FoundStep, pattern: PatternOf<'sectors'>): void {
  picture.house(
    pattern.houses.map(({ house }) => house),
    'house',
  )
  picture.cell(pattern.cells, 'pattern')
  for (const cell of pattern.cells) picture.mark([cell], digitsOf(before.candidates[cell]!), 'pattern')
}
