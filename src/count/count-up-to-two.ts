import { StoppedError } from '../errors.js'
import { type Geometry, STANDARD } from '../grid/geometry.js'
import { DEFAULT_NODE_BUDGET } from './budget.js'
import { createSearch } from './engine.js'
import type { SolutionSearch } from './search.js'

const searches = new Map<Geometry, SolutionSearch>()

/**
 * No, one or several solutions, for callers that ask thousands of times: 0, 1, or 2 for "two or more". Takes plain
 * numbers and, from the second call for a geometry on, allocates nothing.
 *
 * @param givens cell -> digit, 0 for an open cell; clashing givens simply have no solution
 * @throws RangeError when `givens` has the wrong length or a number out of range
 * @throws StoppedError `budget-spent` when `nodeBudget` nodes did not settle it
 */
export function countUpToTwo(
  givens: ArrayLike<number>,
  geometry: Geometry = STANDARD,
  nodeBudget = DEFAULT_NODE_BUDGET,
): 0 | 1 | 2 {
  if (givens.length !== geometry.cellCount) {
    throw new RangeError(`a ${geometry.name} grid has ${geometry.cellCount} cells, not ${givens.length}`)
  }
  for (let cell = 0; cell < givens.length; cell++) {
    const digit = givens[cell]!
    if (!(digit >= 0 && digit <= geometry.order) || digit !== (digit | 0)) {
      throw new RangeError(`cell ${cell} holds ${digit}; 0 to ${geometry.order} is meant`)
    }
  }
  let search = searches.get(geometry)
  if (search === undefined) {
    search = createSearch(geometry)
    searches.set(geometry, search)
  }
  search.start(givens)
  const first = search.next(nodeBudget)
  if (first === 'exhausted') return 0
  if (first === 'solution') {
    const second = search.next(nodeBudget - search.nodes)
    if (second === 'exhausted') return 1
    if (second === 'solution') return 2
  }
  throw new StoppedError(
    'budget-spent',
    `${nodeBudget} nodes did not settle how many solutions there are; allow more or hand in more givens.`,
  )
}
