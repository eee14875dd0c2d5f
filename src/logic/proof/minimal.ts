import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import type { Premise } from '../steps/step.js'
import { PremiseSearch } from './premise-search.js'

/** Patterns are small: where so many alternatives do not settle it, the premise is kept. */
const BUDGET = 20_000

/**
 * Do these premises rule the candidate out only all together? A pattern whose removal needs fewer is a smaller pattern
 * in disguise, and that one is reported instead.
 */
export function removalNeedsEach(
  geometry: Geometry,
  premises: readonly Premise[],
  removal: Candidate,
): boolean {
  const search = new PremiseSearch(geometry, premises, [removal])
  for (let dropped = 0; dropped < premises.length; dropped++) {
    search.leaveOut(dropped, true)
    if (search.excludes(removal, true, BUDGET)) return false
    search.leaveOut(dropped, false)
  }
  return true
}
