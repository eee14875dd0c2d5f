import type { Candidate } from '../../grid/board.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { argueExchange, extrasSubset } from '../argument/argue-exchange.js'
import type { Reason, Why } from '../argument/reason.js'
import { ascending, rulesOut } from '../argument/sight.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { argueExchange as facts } from '../argument/argue-exchange.js'
export { huntExchange as clues } from '../hunt/hunt-exchange.js'

export function reason(
  step: FoundStep,
  pattern: PatternOf<'exchange'>,
  candidate: Candidate,
): Reason | undefined {
  const { extras } = pattern
  const { cell, digit } = candidate
  const nodes = extras.map((extra) => ({ digit: extra.digit, cells: [extra.cell] }))
  if (nodes.length > 0 && nodes.every((node) => rulesOut(step.before.geometry, candidate, node)))
    return { kind: 'excluded-by-each', nodes }
  const subset = extrasSubset(step, pattern)
  if (!subset?.digits.includes(digit)) return undefined
  const holders = ascending([...extras.map((extra) => extra.cell), ...subset.others])
  return holders.includes(cell) ? undefined : { kind: 'digits-used', cells: holders, digits: subset.digits }
}

export const placed = (_: FoundStep, { extras }: PatternOf<'exchange'>): Reason | undefined =>
  extras.length === 1 ? { kind: 'only-extra' } : undefined

/** The cells, what keeps them from being exchanged, and the houses that the conclusion comes from. */
export function plan(
  picture: PlanBuilder,
  step: FoundStep,
  pattern: PatternOf<'exchange'>,
  reasons: () => readonly Why[],
): void {
  const { cells, digits, extras, links } = pattern
  // extras that the words pass over stay out of the picture as well
  const facts = argueExchange(step, pattern, reasons())
  if (facts.some(({ kind }) => kind === 'extras'))
    for (const { cell, digit } of extras) picture.mark([cell], [digit], 'extra')
  picture.cell(cells, 'exchange')
  picture.mark(cells, digits, 'exchange')
  for (const premise of step.premises) {
    if (premise.kind !== 'house') continue
    picture.house([premise.house], 'house')
    picture.mark(premise.cells, [premise.digit], 'pattern')
    const [one, other, ...more] = premise.cells
    if (one !== undefined && other !== undefined && more.length === 0)
      picture.links.push({
        from: { digit: premise.digit, cells: [one] },
        to: { digit: premise.digit, cells: [other] },
        kind: 'strong',
      })
  }
  const subset = extrasSubset(step, pattern)
  if (subset) {
    picture.house([subset.house], 'house')
    picture.cell(subset.others, 'pattern')
    picture.mark(subset.others, subset.digits, 'pattern')
  }
  picture.links.push(...links.map(({ from, to, kind }) => ({ from, to, kind })))
}
