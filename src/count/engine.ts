import { type Geometry, STANDARD } from '../grid/geometry.js'
import { layoutOf } from '../grid/layout.js'
import { perLayout } from '../grid/per-layout.js'
import { GeneralSearch } from './general-search.js'
import { WasmKernel9 } from './kernel9/wasm.js'
import type { SolutionSearch } from './search.js'

/** A search of its own for a geometry: the fastest that knows the geometry and runs here. */
export function createSearch(geometry: Geometry): SolutionSearch {
  const kernel = geometry.key === STANDARD.key ? WasmKernel9.create() : undefined
  return kernel ?? new GeneralSearch(layoutOf(geometry))
}

const idle = perLayout((): SolutionSearch[] => [])

/**
 * Lends a search until it is given back, so that thousands of small questions share one set of tables. A question asked
 * while another is still in progress gets a search of its own.
 */
export function borrowSearch(geometry: Geometry): SolutionSearch {
  return idle(geometry).pop() ?? createSearch(geometry)
}

export function giveBackSearch(geometry: Geometry, search: SolutionSearch): void {
  idle(geometry).push(search)
}
