import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { excludeBy } from '../argument/exclusion.js'
import type { Fact } from '../argument/facts.js'
import type { Reason } from '../argument/reason.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import { setRole } from '../picture/roles.js'
import type { PatternOf } from './story.js'

export { huntExclusion as clues } from '../hunt/hunt-others.js'

/** It is explained by what follows from denying each conclusion. */
export const facts = (): Fact[] => []

export function reason(step: FoundStep, _: PatternOf<'exclusion'>, removed: Candidate): Reason | undefined {
  const starved = excludeBy(step, removed)?.starved
  return starved && { kind: 'starves', cells: starved }
}

export function plan(picture: PlanBuilder, { before }: FoundStep, pattern: PatternOf<'exclusion'>): void {
  const digitsIn = (cell: number) => digitsOf(before.candidates[cell]!)
  picture.cell(pattern.cells, 'to-fill')
  for (const cell of pattern.cells) picture.mark([cell], digitsIn(cell), 'pattern')
  const sets = new Map(pattern.excluded.map(({ by }) => [by.join(), by]))
  for (const [index, cells] of [...sets.values()].filter(({ length }) => length > 0).entries()) {
    const role = setRole(index)
    picture.area(cells, role, index)
    for (const cell of cells) picture.mark([cell], digitsIn(cell), role)
  }
}
