import type { Candidate, Conclusion } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import type { Task, Watch } from '../../limits.js'
import type { Premise } from '../steps/step.js'
import { PremiseSearch } from './premise-search.js'

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

/** Those of the candidates that these premises rule out. */
export function ruledOutBy(
  geometry: Geometry,
  premises: readonly Premise[],
  candidates: readonly Candidate[],
): Candidate[] {
  const search = new PremiseSearch(geometry, premises, candidates)
  return candidates.filter((candidate) => search.excludes(candidate, true, BUDGET))
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

/** `trimPremises` as a task, for premises by the hundred. */
export function* trimWithin(
  watch: Watch,
  geometry: Geometry,
  premises: readonly Premise[],
  conclusion: Conclusion,
): Task<Premise[]> {
  const search = searchFor(geometry, premises, conclusion)
  const needed: Premise[] = []
  for (let i = 0; i < premises.length; i++) {
    search.leaveOut(i, true)
    if (yield* isUndeniableWithin(watch, search, conclusion)) continue
    search.leaveOut(i, false)
    needed.push(premises[i]!)
  }
  return needed
}

/** `isProvenBy` as a task. */
export function* isProvenWithin(
  watch: Watch,
  geometry: Geometry,
  premises: readonly Premise[],
  conclusion: Conclusion,
): Task<boolean> {
  return yield* isUndeniableWithin(watch, searchFor(geometry, premises, conclusion), conclusion)
}

function* isUndeniableWithin(
  watch: Watch,
  search: PremiseSearch,
  { placements, removals }: Conclusion,
): Task<boolean> {
  for (const [list, value] of [
    [placements, false],
    [removals, true],
  ] as const)
    for (const candidate of list)
      if ((yield* search.findWithin(watch, [{ candidate, value }], BUDGET)) !== 'none') return false
  return true
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
    if (!search.excludes(placements[i]!, false, BUDGET)) return false
  for (let i = 0; i < removals.length; i++) if (!search.excludes(removals[i]!, true, BUDGET)) return false
  return true
}
