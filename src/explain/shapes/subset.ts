import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import type { FoundStep } from '../../logic/steps/step.js'
import type { Fact } from '../argument/facts.js'
import type { Reason } from '../argument/reason.js'
import { rulesOut } from '../argument/sight.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { huntSubset as clues } from '../hunt/hunt-lines.js'

export function facts(_: FoundStep, { hidden, house, cells, digits }: PatternOf<'subset'>): Fact[] {
  return [{ kind: hidden ? 'hidden-subset' : 'naked-subset', house, cells, digits }]
}

export function reason(
  { before }: FoundStep,
  { hidden, cells, digits }: PatternOf<'subset'>,
  removed: Candidate,
): Reason | undefined {
  if (hidden && cells.includes(removed.cell)) return { kind: 'cell-reserved', cells, digits }
  const { digit } = removed
  const holders = cells.filter((cell) => hasCandidate(before, cell, digit))
  if (hidden || !digits.includes(digit) || !rulesOut(before.geometry, removed, { digit, cells: holders }))
    return undefined
  return { kind: 'digits-used', cells, digits }
}

export function plan(picture: PlanBuilder, _: FoundStep, pattern: PatternOf<'subset'>): void {
  picture.house([pattern.house], 'house')
  picture.cell(pattern.cells, 'pattern')
  picture.mark(pattern.cells, pattern.digits, 'pattern')
}

export const houses = ({ house }: PatternOf<'subset'>) => [house]
