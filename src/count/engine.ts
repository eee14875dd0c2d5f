import type { DigitSet } from '../grid/digits.js'
import type { Geometry } from '../grid/geometry.js'
import { GeneralSearch } from './general-search.js'
import type { SolutionSearch } from './search.js'

/** A search of its own for a geometry: the fastest that knows the geometry. */
export function createSearch(geometry: Geometry): SolutionSearch {
  return new GeneralSearch(geometry)
}

const idle = new WeakMap<Geometry, SolutionSearch[]>()

/**
 * Lends a search to `use` and keeps it for the next caller, so that thousands of small questions share one set of
 * tables. A search lent while another is still out (a caller's callback asks a question of its own) is another one.
 */
export function withSearch<T>(geometry: Geometry, use: (search: SolutionSearch) => T): T {
  let pool = idle.get(geometry)
  if (!pool) {
    pool = []
    idle.set(geometry, pool)
  }
  const search = pool.pop() ?? createSearch(geometry)
  try {
    return use(search)
  } finally {
    pool.push(search)
  }
}

/** Places and candidates a search starts from. */
export interface SearchStart {
  readonly givens: ArrayLike<number>
  readonly marks?: ArrayLike<DigitSet>
}
