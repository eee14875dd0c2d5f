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
  return isUndeniable(searchFor(geometry, premises, conclusion), conclusion)
}

/** The premises without those that the proof can do without: what is left is minimal. Order decides between choices. */
export function trimPremises(
  geometry: Geometry,
  premises: readonly Premise[],
  conclusion: Conclusion,
): Premise[] {
  const search = searchFor(geometry, premises, conclusion)
  const needed: Premise[] = []
  for (let i = 0; i < premises.length; i++) {
    search.leaveOut(i, true)
    if (isUndeniable(search, conclusion)) continue
    search.leaveOut(i, false)
    needed.push(premises[i]!)
  }
  return needed
}

function searchFor(
  geometry: Geometry,
  premises: readonly Premise[],
  { placements, removals }: Conclusion,
): PremiseSearch {
  return new PremiseSearch(geometry, premises, [...placements, ...removals])
}

/** Does the search find no way to deny any part of the conclusion? */
function isUndeniable(search: PremiseSearch, { placements, removals }: Conclusion): boolean {
  for (let i = 0; i < placements.length; i++)
    if (search.find([{ candidate: placements[i]!, value: false }], BUDGET) !== 'none') return false
  for (let i = 0; i < removals.length; i++)
    if (search.find([{ candidate: removals[i]!, value: true }], BUDGET) !== 'none') return false
  return true
}
