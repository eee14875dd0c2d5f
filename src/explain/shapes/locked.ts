import type { Candidate } from '../../grid/board.js'
import type { FoundStep } from '../../logic/steps/step.js'
import type { Fact } from '../argument/facts.js'
import type { Reason } from '../argument/reason.js'
import { isIn } from '../argument/sight.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { huntLocked as clues } from '../hunt/hunt-lines.js'

export function facts(_: FoundStep, { digit, from, to, cells }: PatternOf<'locked'>): Fact[] {
  return [{ kind: 'confined', digit, house: from, cells, into: to }]
}

export function reason(
  { before }: FoundStep,
  pattern: PatternOf<'locked'>,
  { cell, digit }: Candidate,
): Reason | undefined {
  const inside = isIn(before.geometry, pattern.to, cell) && !pattern.cells.includes(cell)
  if (digit !== pattern.digit || !inside) return undefined
  return { kind: 'taken-elsewhere', house: pattern.to, digit, cells: pattern.cells }
}

export function plan(picture: PlanBuilder, _: FoundStep, pattern: PatternOf<'locked'>): void {
  picture.house([pattern.from], 'house')
  picture.house([pattern.to], 'target')
  picture.cell(pattern.cells, 'pattern')
  picture.mark(pattern.cells, [pattern.digit], 'pattern')
}

export const houses = ({ from }: PatternOf<'locked'>) => [from]
