import { describe, expect, it } from 'vitest'
import { WasmKernel9 } from '../../../src/count/kernel9/wasm.js'
import type { SolutionSearch } from '../../../src/count/search.js'
import { fromLine } from '../puzzles.js'
import { PlainKernel9 } from './plain-kernel9.js'

const BLANK = new Array<number>(81).fill(0)
const PUZZLES: readonly { readonly name: string; readonly givens: readonly number[] }[] = [
  // no cell with two candidates for a long time: the split on a digit's places, and on the cell with the fewest
  { name: 'blank', givens: BLANK },
  { name: 'one given', givens: BLANK.with(40, 7) },
  { name: 'a full first row', givens: BLANK.map((_, cell) => (cell < 9 ? cell + 1 : 0)) },
  { name: 'a full first column', givens: BLANK.map((_, cell) => (cell % 9 === 0 ? cell / 9 + 1 : 0)) },
  {
    name: 'Project Euler 96, grid 01',
    givens: fromLine('..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..'),
  },
  {
    name: '17 givens',
    givens: fromLine('.......1.4.........2...........5.4.7..8...3....1.9....3..4..2...5.1........8.6...'),
  },
  {
    name: '17 givens that need a search',
    givens: fromLine('..............3.85..1.2.......5.7.....4...1...9.......5......73..2.1........4...9'),
  },
  {
    name: 'the same with a given less',
    givens: fromLine('..............3.85..1.2.......5.7.....4...1...9.......5......73..2.1............9'),
  },
  { name: 'two equal givens in a row', givens: BLANK.with(0, 5).with(8, 5) },
  { name: 'two equal givens in a box', givens: BLANK.with(60, 5).with(80, 5) },
]

/** The first solutions in the order found, and the nodes visited by then. */
function trace(search: SolutionSearch, givens: readonly number[], solutions: number, marks?: number[]) {
  search.start(givens, marks)
  const found: string[] = []
  while (found.length < solutions) {
    const event = search.next(100_000)
    if (event !== 'solution') return { found, nodes: search.nodes, event }
    const cells: number[] = []
    search.readSolution(cells)
    found.push(cells.join(''))
  }
  return { found, nodes: search.nodes, event: 'solution' }
}

describe('the kernel in TypeScript takes the steps of the one in WebAssembly', () => {
  const both = (): SolutionSearch[] => [new PlainKernel9(), WasmKernel9.create()!]

  it.each(PUZZLES)('$name', ({ givens }) => {
    const [plain, wasm] = both().map((search) => trace(search, givens, 300))
    expect(plain).toEqual(wasm)
  })

  it('with marks that leave out candidates', () => {
    const marks = BLANK.map((_, cell) => 511 & ~(1 << ((cell * 7) % 9)) & ~(1 << ((cell * 4) % 9)))
    const [plain, wasm] = both().map((search) => trace(search, BLANK, 100, marks))
    expect(plain).toEqual(wasm)
    const none = marks.with(17, 0)
    for (const search of both())
      expect(trace(search, BLANK, 100, none)).toEqual({ found: [], nodes: 1, event: 'exhausted' })
  })

  it('and stops at the same nodes when it is given few at a time', () => {
    const steps = (search: SolutionSearch) => {
      search.start(PUZZLES[7]!.givens)
      return Array.from({ length: 400 }, (_, i) => [search.next(i % 3), search.nodes])
    }
    const [plain, wasm] = both().map(steps)
    expect(plain).toEqual(wasm)
  })
})
