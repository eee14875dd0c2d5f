import { layoutOf } from '../../grid/layout.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { argueSingle } from '../argument/argue-singles.js'
import type { Reason } from '../argument/reason.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { argueSingle as facts } from '../argument/argue-singles.js'
export { huntSingle as clues } from '../hunt/hunt-singles.js'

export const reason = (): Reason => ({ kind: 'only-choice' })

export const houses = ({ house }: PatternOf<'single'>) => (house === undefined ? undefined : [house])

export function plan(picture: PlanBuilder, step: FoundStep, pattern: PatternOf<'single'>): void {
  if (pattern.house !== undefined) picture.house([pattern.house], 'house')
  const { geometry, digits } = step.before
  const layout = layoutOf(geometry)
  for (const fact of argueSingle(step, pattern)) {
    if (fact.kind === 'only-place') picture.cell(fact.blockers, 'blocker')
    if (fact.kind === 'only-candidate') {
      for (const { house, digits: seen } of fact.seen) {
        picture.cell(
          layout.houses[house]!.cells.filter((cell) => seen.includes(digits[cell]!)),
          'blocker',
        )
      }
    }
  }
}
