import { alternativesOf } from '../../logic/proof/premise-search.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { reasonsFor } from '../argument/reasons.js'
import { planShape } from '../shapes/shapes.js'
import { type PicturePlan, PlanBuilder } from './plan-builder.js'

/** The parts of a step. Placements come first and removals are kept apart from all pattern roles. */
export function planPicture(step: FoundStep): PicturePlan {
  const plan = new PlanBuilder(step)
  for (const { cell, digit } of step.placements) plan.candidates.push({ cell, digit, role: 'placed' })
  for (const { cell, digit } of step.removals) plan.candidates.push({ cell, digit, role: 'removed' })
  planShape(plan, step, () => reasonsFor(step))
  if (plan.cells.size === 0 && plan.candidates.every(({ role }) => role === 'placed' || role === 'removed')) {
    for (const premise of step.premises)
      for (const { cell, digit } of alternativesOf(premise)) plan.mark([cell], [digit], 'pattern')
  }
  return plan.finish()
}
