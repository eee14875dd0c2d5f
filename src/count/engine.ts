import { type Geometry, STANDARD } from '../grid/geometry.js'
import { GeneralSearch } from './general-search.js'
import { PlainKernel9 } from './kernel9/plain.js'
import { WasmKernel9 } from './kernel9/wasm.js'
import type { SolutionSearch } from './search.js'

/** A search of its own for a geometry: the fastest that knows the geometry and runs here. */
export function createSearch(geometry: Geometry): SolutionSearch {
  if (geometry !== STANDARD) return new GeneralSearch(geometry)
  return WasmKernel9.create() ?? new PlainKernel9()
}

const idle = new WeakMap<Geometry, SolutionSearch[]>()

/**
 * Lends a search to `use` and keeps it for the next caller, so that thousands of small questions share one set of
 * tables. A question asked while another is still in progress gets a search of its own.
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
