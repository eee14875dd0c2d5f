import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import type { ChainNode, FoundStep } from '../../logic/steps/step.js'
import { argueWing, wingEnds } from '../argument/argue-wings.js'
import type { Reason } from '../argument/reason.js'
import { rulesOut } from '../argument/sight.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { argueWing as facts } from '../argument/argue-wings.js'
export { huntWing as clues } from '../hunt/hunt-wings.js'

export function reason(step: FoundStep, pattern: PatternOf<'wing'>, removed: Candidate): Reason | undefined {
  const nodes = wingEnds(step, pattern)
  return nodes.every((node) => rulesOut(step.before.geometry, removed, node))
    ? { kind: 'excluded-by-each', nodes }
    : undefined
}

/** From the pivot's digits to the pincers that lose them, and within each pincer to the digit that they share. */
export function plan(picture: PlanBuilder, step: FoundStep, pattern: PatternOf<'wing'>): void {
  const { pivot, pincers, digit } = pattern
  picture.cell([pivot], 'pivot')
  picture.cell(pincers, 'pincer')
  picture.mark([pivot, ...pincers], [digit], 'shared')
  for (const cell of [pivot, ...pincers])
    picture.mark([cell], digitsOf(step.before.candidates[cell]!), 'pattern')
  for (const fact of argueWing(step, pattern)) {
    if (fact.kind !== 'pincer') continue
    const [lost] = fact.when
    const at: ChainNode = { digit: lost!, cells: [fact.cell] }
    picture.nextLink({ digit: lost!, cells: [pivot] }, at, 'weak')
    picture.nextLink(at, { digit, cells: [fact.cell] }, 'strong')
  }
}
