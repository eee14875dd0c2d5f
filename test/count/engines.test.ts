import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { GeneralSearch } from '../../src/count/general-search.js'
import { layoutOf } from '../../src/grid/layout.js'
import { STANDARD } from '../../src/index.js'
import { allSolutions, STANDARD_ENGINES } from './engines.js'
import { PlainKernel9 } from './kernel9/plain-kernel9.js'
import { fromLine, seededRandom, someFilledGrid, somePuzzle } from './puzzles.js'

const SEED = 20_261_125
const reference = new GeneralSearch(layoutOf(STANDARD))
/** Parts of filled grids from nearly empty of freedom to hundreds of solutions, some with a digit that is wrong. */
const puzzles = fc
  .tuple(fc.integer(), fc.double({ min: 0.3, max: 0.8, noNaN: true }), fc.integer({ min: 0, max: 2 }))
  .map(([seed, keep, wrong]) => somePuzzle(seededRandom(seed), keep, wrong))

describe.each(STANDARD_ENGINES)('$name', ({ create }) => {
  const search = create()

  it('finds the solution printed with the example puzzle of Project Euler 96 (both from memory)', () => {
    const puzzle = '..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..'
    expect(allSolutions(search, fromLine(puzzle))).toEqual([
      '483921657967345821251876493548132976729564138136798245372689514814253769695417382',
    ])
  })

  it('fills every house with each digit once, in every solution', () => {
    fc.assert(
      fc.property(puzzles, (givens) => {
        for (const solution of allSolutions(search, givens, 20)) {
          const digits = fromLine(solution)
          for (const house of layoutOf(STANDARD).houses) {
            expect(new Set(house.cells.map((cell) => digits[cell])).size).toBe(9)
          }
          givens.forEach((digit, cell) => {
            if (digit) expect(digits[cell]).toBe(digit)
          })
        }
      }),
      { seed: SEED, numRuns: 50 },
    )
  })

  it('finds the same solutions as the general search, each once', () => {
    fc.assert(
      fc.property(puzzles, (givens) => {
        const found = allSolutions(search, givens, 3000)
        const expected = allSolutions(reference, givens, 3000)
        expect(found).toHaveLength(expected.length)
        // past the limit the two may have come to different ones first
        if (expected.length < 3000) expect(found).toEqual(expected)
      }),
      { seed: SEED, numRuns: 80 },
    )
  })

  it('keeps to the marks it is given', () => {
    fc.assert(
      fc.property(puzzles, fc.integer(), (givens, seed) => {
        const random = seededRandom(seed)
        const marks = givens.map(() => (random() < 0.8 ? 511 : Math.floor(random() * 512)))
        const all = allSolutions(search, givens, 5000)
        const allowed = all.filter((solution) =>
          fromLine(solution).every((digit, cell) => (marks[cell]! >> (digit - 1)) & 1),
        )
        if (all.length < 5000) expect(allSolutions(search, givens, 5000, marks)).toEqual(allowed)
      }),
      { seed: SEED, numRuns: 50 },
    )
  })

  it('has no solution where givens clash, however they clash', () => {
    for (const [a, b] of [
      [0, 8],
      [0, 72],
      [0, 20],
      [40, 41],
      [80, 60],
    ] as const) {
      const givens = new Array<number>(81).fill(0)
      givens[a] = 5
      givens[b] = 5
      expect(allSolutions(search, givens, 1)).toEqual([])
    }
    const full = someFilledGrid(seededRandom(3))
    expect(allSolutions(search, full)).toHaveLength(1)
    full[0] = (full[0]! % 9) + 1
    expect(allSolutions(search, full)).toEqual([])
  })

  it('says when the nodes allowed are used up, and goes on from there to the same solutions', () => {
    fc.assert(
      fc.property(puzzles, fc.integer({ min: 1, max: 7 }), (givens, slice) => {
        const whole = allSolutions(search, givens, 500)
        const wholeNodes = search.nodes
        search.start(givens)
        const solutions: string[] = []
        while (solutions.length < 500) {
          const before = search.nodes
          const event = search.next(slice)
          expect(search.nodes - before).toBeLessThanOrEqual(slice)
          if (event === 'exhausted') break
          if (event === 'out-of-nodes') {
            expect(search.nodes - before).toBe(slice)
            continue
          }
          const cells: number[] = []
          search.readSolution(cells)
          solutions.push(cells.join(''))
        }
        expect(solutions.sort()).toEqual(whole)
        expect(search.nodes).toBe(wholeNodes)
      }),
      { seed: SEED, numRuns: 60 },
    )
  })

  it('starts afresh in the middle of another search', () => {
    search.start(new Array(81).fill(0))
    expect(search.next(1000)).toBe('solution')
    const puzzle = somePuzzle(seededRandom(11), 0.5)
    expect(allSolutions(search, puzzle)).toEqual(allSolutions(reference, puzzle))
  })
})

it('the two 9×9 kernels visit the same nodes', () => {
  const plain = new PlainKernel9()
  const wasm = STANDARD_ENGINES[2]!.create()
  fc.assert(
    fc.property(puzzles, (givens) => {
      const order: string[][] = [plain, wasm].map((search) => {
        search.start(givens)
        const solutions: string[] = []
        while (solutions.length < 200 && search.next(1e6) === 'solution') {
          const cells: number[] = []
          search.readSolution(cells)
          solutions.push(cells.join(''))
        }
        return solutions
      })
      expect(order[1]).toEqual(order[0])
      expect(wasm.nodes).toBe(plain.nodes)
    }),
    { seed: SEED, numRuns: 300 },
  )
})
