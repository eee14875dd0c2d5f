import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep } from '../../logic/steps/step.js'
import type { Fact } from '../argument/facts.js'
import { isPlainFish, sharedPlaces } from '../argument/fish.js'
import type { Reason } from '../argument/reason.js'
import { isIn } from '../argument/sight.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { PatternOf } from './story.js'

export { huntFish as clues } from '../hunt/hunt-lines.js'

export function facts(step: FoundStep, pattern: PatternOf<'fish'>): Fact[] {
  const { digit, base, cover, fins, cells } = pattern
  const plain = isPlainFish(step, pattern)
  const places = cells.filter((cell) => !fins.includes(cell) && hasCandidate(step.before, cell, digit))
  const shared = plain ? [] : sharedPlaces(step, pattern)
  return [{ kind: 'fish', digit, base, cover, fins, plain, places, shared }]
}

export function reason(
  step: FoundStep,
  pattern: PatternOf<'fish'>,
  { cell, digit }: Candidate,
): Reason | undefined {
  const { geometry } = step.before
  const { base, cover, fins } = pattern
  const covers = cover.filter((house) => isIn(geometry, house, cell))
  const inBase = base.some((house) => isIn(geometry, house, cell))
  const seesFins = fins.every((fin) => layoutOf(geometry).arePeers(fin, cell))
  if (digit !== pattern.digit || covers.length === 0 || inBase || !seesFins) return undefined
  const plain = isPlainFish(step, pattern)
  return { kind: 'covered', digit, covers: covers.slice(0, 1), base, fins, plain }
}

export function plan(picture: PlanBuilder, _: FoundStep, pattern: PatternOf<'fish'>): void {
  picture.house(pattern.base, 'base')
  picture.house(pattern.cover, 'cover')
  picture.cell(pattern.fins, 'fin')
  picture.mark(pattern.fins, [pattern.digit], 'fin')
  picture.cell(pattern.cells, 'pattern')
  picture.mark(pattern.cells, [pattern.digit], 'pattern')
}

export const houses = ({ base }: PatternOf<'fish'>) => base
