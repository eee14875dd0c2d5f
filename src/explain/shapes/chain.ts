import type { Candidate } from '../../grid/board.js'
import type { ChainNode, FoundStep } from '../../logic/steps/step.js'
import { chainEnds, isFinned, pairOfTurns } from '../argument/argue-chains.js'
import type { Reason } from '../argument/reason.js'
import { ascending, isThat, placesIn, rulesOut } from '../argument/sight.js'
import type { PatternOf } from './story.js'

export { argueChain as facts } from '../argument/argue-chains.js'
export { huntChain as clues } from '../hunt/hunt-chains.js'
export { planChain as plan } from '../picture/plan-chain.js'

export function placed(
  _: FoundStep,
  { links }: PatternOf<'chain'>,
  candidate: Candidate,
): Reason | undefined {
  const { first, last } = chainEnds(links) ?? {}
  return first && last && [first, last].every((end) => isThat(end, candidate))
    ? { kind: 'chain-returns' }
    : undefined
}

export function reason(step: FoundStep, pattern: PatternOf<'chain'>, removed: Candidate): Reason | undefined {
  const { digit } = removed
  const excludedBy = (node: ChainNode) => rulesOut(step.before.geometry, removed, node)
  const pairs: [ChainNode, ChainNode][] = []
  const ends = chainEnds(pattern.links)
  const endsProveOne =
    !isFinned(pattern.links) &&
    pattern.links[0]?.kind === 'strong' &&
    pattern.links[pattern.links.length - 1]?.kind === 'strong'
  if (ends && endsProveOne && !pattern.loop) {
    pairs.push([ends.first, ends.last])
    // a chain with several ends comes to one of them after every strong link
    for (const { kind, to } of pattern.links.slice(1, -1)) if (kind === 'strong') pairs.push([ends.first, to])
  }
  // Along cells that all have the same two digits the chain holds for either digit.
  const digits = pairOfTurns(pattern.links)
  if (ends && endsProveOne && !pattern.loop && digits?.includes(digit)) {
    const cells = ascending([...ends.first.cells, ...ends.last.cells])
    if (excludedBy({ digit, cells })) return { kind: 'ends-differ', cells, digits }
  }
  // Around a loop one end of every link is true, weak links included.
  if (pattern.loop) for (const { from, to } of pattern.links) pairs.push([from, to])
  const nodes = pairs.find((ends) => ends.every(excludedBy))
  if (nodes) return { kind: 'excluded-by-each', nodes }
  // and each of its sets is locked on the digits that are not linked
  for (const { by, from, to } of pattern.loop ? pattern.links : []) {
    if (by.kind !== 'set' || digit === from.digit || digit === to.digit) continue
    const kept = placesIn(step, by.cells, digit)
    if (kept.cells.length > 0 && excludedBy(kept)) return { kind: 'set-keeps', cells: kept.cells, digit }
  }
  const denied = ends && isFinned(pattern.links) && [ends.first, ends.last].every(excludedBy)
  return denied ? { kind: 'chain-denies', end: ends.last } : undefined
}
