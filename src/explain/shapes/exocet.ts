import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import type { FoundStep } from '../../logic/steps/step.js'
import type { Reason } from '../argument/reason.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { argueExocet as facts } from '../argument/argue-exocet.js'
export { huntExocet as clues } from '../hunt/hunt-others.js'

export function reason(
  { before }: FoundStep,
  { base, targets }: PatternOf<'exocet'>,
  { cell, digit }: Candidate,
): Reason | undefined {
  const others = base.includes(cell) ? targets : base
  const have = others.some((other) => hasCandidate(before, other, digit))
  return have ? undefined : { kind: 'not-in-pair', cells: others, digit }
}

export function plan(picture: PlanBuilder, _: FoundStep, pattern: PatternOf<'exocet'>): void {
  picture.house(pattern.lines, 'house')
  picture.cell(pattern.base, 'base-cell')
  picture.mark(pattern.base, pattern.digits, 'pattern')
  picture.cell(pattern.targets, 'target-cell')
  picture.mark(pattern.targets, pattern.digits, 'pattern')
}
