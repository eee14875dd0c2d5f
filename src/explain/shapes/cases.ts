import type { CaseTree, FoundStep } from '../../logic/steps/step.js'
import { argueCases } from '../argument/argue-cases.js'
import type { Fact } from '../argument/facts.js'
import { netStory, storyFacts } from '../argument/net-story.js'
import type { Reason } from '../argument/reason.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import { planCases } from '../picture/plan-cases.js'
import type { PatternOf } from './story.js'

export { huntCases as clues } from '../hunt/hunt-others.js'

export function facts(step: FoundStep, { tree }: PatternOf<'cases'>): Fact[] {
  const story = netStory(step, tree)
  return story ? storyFacts(step, story) : argueCases(step, tree)
}

export function reason(_: FoundStep, { tree: { split, branches } }: PatternOf<'cases'>): Reason {
  if (split.kind === 'suppose') return { kind: 'supposition-fails' }
  const fails = ({ end }: CaseTree['branches'][number]): boolean =>
    end.kind === 'contradiction' || (end.kind === 'split' && end.tree.branches.some(fails))
  return { kind: 'in-every-case', cases: branches.length, someFail: branches.some(fails) }
}

export function plan(picture: PlanBuilder, step: FoundStep, { tree }: PatternOf<'cases'>): void {
  planCases(picture, step, tree)
}
