import { describe, expect, it } from 'vitest'
import { countSolutions, solutionsOf } from '../../src/count/count-solutions.js'
import { createSearch } from '../../src/count/engine.js'
import { newBoard } from '../../src/grid/board/make.js'
import { boxedGeometry, STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { seededRandom } from '../../src/grid/random.js'
import { allowedOn, fillings } from '../support/backtracking.js'
import { withKings, withKnights } from '../support/further-peers.js'
import { JIGSAW_6 } from './geometries.js'

const SIXES = [withKnights(boxedGeometry(2, 3)), withKings(boxedGeometry(2, 3)), withKnights(JIGSAW_6)]

describe('counting where cells that share no house exclude each other', () => {
  it('counts no more than there are: every filled grid of order 4', () => {
    for (const extend of [withKnights, withKings]) {
      const geometry = extend(boxedGeometry(2, 2))
      const count = fillings(geometry, () => true).length
      expect(count).toBeLessThan(288)
      expect(countSolutions(makePuzzle(new Array(16).fill(0), geometry))).toEqual({ count, complete: true })
    }
  })

  it.each(SIXES)('finds the same solutions as trying everything, $name', (geometry) => {
    const random = seededRandom(31)
    const seen = new Set<number>()
    // the top row settles much, so they come from all over
    const filled = [0, 1, 2, 3, 4, 5].flatMap((digit) =>
      fillings(geometry, (cell, other) => cell > 0 || other === digit + 1, 20),
    )
    expect(filled.length).toBeGreaterThan(20)
    for (let tried = 0; tried < 40; tried++) {
      const some = filled[Math.floor(random() * filled.length)]!
      const givens = some.map((digit) => (random() < 0.25 ? digit : 0))
      const puzzle = makePuzzle(givens, geometry)
      const expected = fillings(geometry, allowedOn(newBoard(puzzle)))
      const { solutions, complete } = solutionsOf(puzzle, { limit: 10_000 })
      expect(complete).toBe(true)
      expect(solutions.map((one) => one.join('')).sort()).toEqual(expected.map((one) => one.join('')).sort())
      seen.add(Math.min(expected.length, 3))
    }
    expect(seen.size).toBeGreaterThan(1)
  })

  it('does not take the kernels for the standard grid', () => {
    const geometry = withKnights(STANDARD)
    const layout = layoutOf(geometry)
    const search = createSearch(geometry)
    search.start(new Array(81).fill(0))
    expect(search.next(10_000)).toBe('solution')
    const solution: number[] = []
    search.readSolution(solution)
    for (const [cell, digit] of solution.entries())
      for (const peer of layout.peersOf[cell]!) expect(solution[peer]).not.toBe(digit)
  })
})
