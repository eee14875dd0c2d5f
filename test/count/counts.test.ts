import { describe, expect, it } from 'vitest'
import {
  boxedGeometry,
  countSolutions,
  countSolutionsAsync,
  DEFAULT_NODE_BUDGET,
  makePuzzle,
  STANDARD,
  solutionsOf,
} from '../../src/index.js'
import { JIGSAW_6 } from './geometries.js'
import { fromLine, seededRandom, somePuzzle } from './puzzles.js'

const blank = (geometry = STANDARD) => makePuzzle(new Array(geometry.cellCount).fill(0), geometry)
const EXAMPLE = makePuzzle(
  fromLine('..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..'),
)

describe('all grids of small orders', () => {
  it('order 4 has 288 (common knowledge, small enough to list)', () => {
    expect(countSolutions(blank(boxedGeometry(2, 2)))).toEqual({ count: 288, complete: true })
  })

  it('order 6 with boxes 2×3 has 28,200,960 (published many times; from memory), with the first row fixed, times 6!', () => {
    const givens = Array.from({ length: 36 }, (_, cell) => (cell < 6 ? cell + 1 : 0))
    const { count, complete } = countSolutions(makePuzzle(givens, boxedGeometry(2, 3)))
    expect(complete).toBe(true)
    expect(count * 720).toBe(28_200_960)
  })
})

describe('countSolutions', () => {
  it('stops at the limit and says so', () => {
    expect(countSolutions(blank(), { limit: 1000 })).toEqual({
      count: 1000,
      complete: false,
      stopped: 'limit',
    })
    expect(countSolutions(EXAMPLE, { limit: 2 })).toEqual({ count: 1, complete: true })
    expect(countSolutions(EXAMPLE, { limit: 1 })).toEqual({ count: 1, complete: false, stopped: 'limit' })
    expect(countSolutions(EXAMPLE, { limit: 0 })).toEqual({ count: 0, complete: false, stopped: 'limit' })
  })

  it('stops when the nodes are spent and says so, on every geometry', () => {
    for (const geometry of [STANDARD, JIGSAW_6, boxedGeometry(4, 4)]) {
      const { count, complete, stopped } = countSolutions(blank(geometry), { nodeBudget: 500 })
      expect({ complete, stopped }).toEqual({ complete: false, stopped: 'budget-spent' })
      expect(count).toBeLessThanOrEqual(500)
    }
    expect(countSolutions(EXAMPLE, { nodeBudget: 0 })).toEqual({
      count: 0,
      complete: false,
      stopped: 'budget-spent',
    })
  })

  it('has a node budget of its own, so that no puzzle runs for ever', () => {
    const { complete, stopped, count } = countSolutions(blank())
    expect({ complete, stopped }).toEqual({ complete: false, stopped: 'budget-spent' })
    expect(count).toBeLessThanOrEqual(DEFAULT_NODE_BUDGET)
  })

  it('does nothing once the signal has fired', () => {
    const signal = AbortSignal.abort()
    expect(() => countSolutions(EXAMPLE, { signal })).toThrow(expect.objectContaining({ code: 'aborted' }))
  })

  it('takes no limit or budget that makes no sense', () => {
    expect(() => countSolutions(EXAMPLE, { limit: -1 })).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(() => countSolutions(EXAMPLE, { limit: Number.NaN })).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(() => countSolutions(EXAMPLE, { nodeBudget: -1 })).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
  })
})

describe('countSolutionsAsync', () => {
  it('counts the same', async () => {
    const puzzle = makePuzzle(somePuzzle(seededRandom(5), 0.3))
    expect(await countSolutionsAsync(puzzle, { limit: 5000 })).toEqual(
      countSolutions(puzzle, { limit: 5000 }),
    )
  })

  it('can be stopped in the middle', async () => {
    const controller = new AbortController()
    setTimeout(() => controller.abort(), 20)
    const counting = countSolutionsAsync(blank(), {
      signal: controller.signal,
      nodeBudget: Number.POSITIVE_INFINITY,
    })
    await expect(counting).rejects.toMatchObject({ code: 'aborted' })
  })

  it('two at a time do not disturb each other', async () => {
    const puzzles = [3, 4].map((seed) => makePuzzle(somePuzzle(seededRandom(seed), 0.3)))
    const both = await Promise.all(puzzles.map((puzzle) => countSolutionsAsync(puzzle, { limit: 20_000 })))
    expect(both).toEqual(puzzles.map((puzzle) => countSolutions(puzzle, { limit: 20_000 })))
  })
})

describe('solutionsOf', () => {
  it('lists different solutions', () => {
    const { solutions, count, stopped } = solutionsOf(blank(), { limit: 50 })
    expect({ count, stopped }).toEqual({ count: 50, stopped: 'limit' })
    expect(new Set(solutions.map((solution) => solution.join(''))).size).toBe(50)
  })

  it('lists all when there are few', () => {
    const list = solutionsOf(blank(boxedGeometry(2, 2)), { limit: 1000 })
    expect(list).toMatchObject({ count: 288, complete: true })
    expect(list.solutions).toHaveLength(288)
  })
})
