import type { Conclusion } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { PremiseSearch } from '../premise-search.js'
import type { Premise } from '../step.js'

/** Alternatives tried for one conclusion before a premise counts as needed; chains are decided by propagation alone. */
const BUDGET = 10_000

/** Do these premises leave no way to deny any part of the conclusion? */
export function isProvenBy(
  geometry: Geometry,
  premises: readonly Premise[],
  conclusion: Conclusion,
): boolean {
  const { placements, removals } = conclusion
  const search = new PremiseSearch(geometry, premises, [...placements, ...removals])
  return (
    placements.every((candidate) => search.find([{ candidate, value: false }], BUDGET) === 'none') &&
    removals.every((candidate) => search.find([{ candidate, value: true }], BUDGET) === 'none')
  )
}

/** The premises without those that the proof can do without: what is left is minimal. Order decides between choices. */
export function trimPremises(
  geometry: Geometry,
  premises: readonly Premise[],
  conclusion: Conclusion,
): Premise[] {
  let kept = [...premises]
  for (const premise of premises) {
    const fewer = kept.filter((other) => other !== premise)
    if (isProvenBy(geometry, fewer, conclusion)) kept = fewer
  }
  return kept
}
