import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { GeneralSearch, type SearchSpace } from '../../src/count/general-search.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/index.js'
import { allSolutions } from './engines.js'
import { solutionsByCover } from './exact-cover.js'
import { MANY_GEOMETRIES } from './geometries.js'
import { seededRandom, somePuzzle } from './puzzles.js'

const SEED = 5_051

describe.each(MANY_GEOMETRIES.map((geometry) => ({ name: geometry.name, geometry })))(
  'against the exact-cover library dancing-links on $name',
  ({ geometry }) => {
    it('finds the same solutions: none, one and many', () => {
      const search = new GeneralSearch(layoutOf(geometry))
      const kinds = new Set<string>()
      // the larger the grid, the more of it stays, so that the library answers in time
      const least = geometry.order <= 6 ? 0.1 : geometry.order <= 9 ? 0.4 : 0.6
      const runs = geometry.order <= 9 ? 60 : 15
      fc.assert(
        fc.property(
          fc.integer(),
          fc.double({ min: least, max: 0.85, noNaN: true }),
          fc.integer({ min: 0, max: 1 }),
          (seed, keep, wrong) => {
            const puzzle = makePuzzle(somePuzzle(seededRandom(seed), keep, wrong, geometry), geometry)
            const expected = solutionsByCover(puzzle, 400)
            const found = allSolutions(search, puzzle.givens, 400)
            expect(found).toHaveLength(expected.length)
            if (expected.length < 400) expect(found).toEqual(expected)
            kinds.add(expected.length === 0 ? 'none' : expected.length === 1 ? 'one' : 'many')
          },
        ),
        { seed: SEED, numRuns: runs },
      )
      // the sample must hold all three kinds, or it says little
      expect([...kinds].sort()).toEqual(['many', 'none', 'one'])
    })
  },
)

it('a 9×9 top band has 2,612,736 completions once its first box is fixed (Felgenhauer and Jarvis, 2005)', () => {
  // 27 cells in three rows and three boxes are a space of their own; columns do not matter in one band.
  const row = (r: number) => Array.from({ length: 9 }, (_, c) => 9 * r + c)
  const box = (b: number) => [0, 1, 2].flatMap((r) => [0, 1, 2].map((c) => 9 * r + 3 * b + c))
  const houses = [row(0), row(1), row(2), box(0), box(1), box(2)].map((cells) => ({ cells }))
  const housesOf = Array.from({ length: 27 }, (_, cell) =>
    [...houses.keys()].filter((house) => houses[house]!.cells.includes(cell)),
  )
  const peersOf = housesOf.map((mine, cell) =>
    [...housesOf.keys()].filter(
      (other) => other !== cell && housesOf[other]!.some((house) => mine.includes(house)),
    ),
  )
  const space: SearchSpace = { order: 9, cellCount: 27, houses, housesOf, peersOf }
  const search = new GeneralSearch(space)
  // The three columns of the second and of the third box can be put in any order: 3! · 3! = 36 completions for each
  // with both top rows ascending. Those are gone through by the three digits on top of the second box.
  let count = 0
  const top = [4, 5, 6, 7, 8, 9]
  for (const a of top)
    for (const b of top)
      for (const c of top) {
        if (!(a < b && b < c)) continue
        const rest = top.filter((digit) => digit !== a && digit !== b && digit !== c)
        const givens = [1, 2, 3, a, b, c, ...rest, 4, 5, 6, 0, 0, 0, 0, 0, 0, 7, 8, 9, 0, 0, 0, 0, 0, 0]
        search.start(givens)
        while (search.next(Number.MAX_SAFE_INTEGER) === 'solution') count++
      }
  expect(count * 36).toBe(2_612_736)
})
