import { GeneralSearch } from '../../src/count/general-search.js'
import { WasmKernel9 } from '../../src/count/kernel9/wasm.js'
import type { SolutionSearch } from '../../src/count/search.js'
import { layoutOf } from '../../src/grid/layout.js'
import { STANDARD } from '../../src/index.js'
import { PlainKernel9 } from './kernel9/plain-kernel9.js'

/** Every engine that can search the standard grid; one suite runs over all of them. */
export const STANDARD_ENGINES: readonly { readonly name: string; create(): SolutionSearch }[] = [
  { name: 'general search', create: () => new GeneralSearch(layoutOf(STANDARD)) },
  { name: '9×9 kernel in TypeScript', create: () => new PlainKernel9() },
  {
    name: '9×9 kernel in WebAssembly',
    create: () => {
      const kernel = WasmKernel9.create()
      if (!kernel) throw new Error('this Node runs no WebAssembly with 128-bit lanes')
      return kernel
    },
  },
]

/** All solutions (up to `limit`) as text, sorted: the same list whatever the order of the search. */
export function allSolutions(
  search: SolutionSearch,
  givens: ArrayLike<number>,
  limit = 10_000,
  marks?: ArrayLike<number>,
): string[] {
  search.start(givens, marks)
  const solutions: string[] = []
  while (solutions.length < limit && search.next(Number.MAX_SAFE_INTEGER) === 'solution') {
    const cells: number[] = []
    search.readSolution(cells)
    solutions.push(cells.map((digit) => digit.toString(36)).join(''))
  }
  return solutions.sort()
}
