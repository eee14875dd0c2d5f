import { describe, expect, it } from 'vitest'
import { whatToSee, whereToLook } from '../../src/explain/where-to-look.js'
import { layoutOf } from '../../src/grid/layout.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { FoundStep } from '../../src/logic/steps/step.js'
import { randomPuzzle } from '../support/random-boards.js'

const SEEDS = Array.from({ length: 30 }, (_, i) => 4100 + i)

/** What a path uses, and all patterns and chains where everyday techniques rest. */
const steps: readonly FoundStep[] = SEEDS.flatMap((seed) => {
  const puzzle = randomPuzzle(seed)
  const { board } = solve(puzzle, { preset: 'mark' })
  const path = solve(puzzle).steps
  const rectangles = path.flatMap(({ before }) => findSteps(before, { techniques: ['avoidable-rectangle'] }))
  return [...path, ...findSteps(board, { limit: 60 }), ...rectangles]
})

describe('where to look', () => {
  it('names at most three places, each with something of the pattern, and all of it where three hold it', () => {
    expect(new Set(steps.map(({ technique }) => technique)).size).toBeGreaterThan(20)
    for (const step of steps) {
      const { houses } = layoutOf(step.before.geometry)
      const places = whereToLook(step)
      const { cells } = whatToSee(step)
      expect(places.length).toBeGreaterThan(0)
      expect(places.length).toBeLessThanOrEqual(3)
      for (const place of places) expect(houses[place]!.cells.some((cell) => cells.includes(cell))).toBe(true)
      const boxes = new Set(cells.map((cell) => 3 * Math.floor(cell / 27) + Math.floor((cell % 9) / 3)))
      if (boxes.size <= 3 && step.pattern.shape !== 'fish')
        for (const cell of cells)
          expect(places.some((place) => houses[place]!.cells.includes(cell))).toBe(true)
    }
  })

  it('shows all four cells of an avoidable rectangle, the filled ones as well', () => {
    const rectangles = steps.filter(({ technique }) => technique === 'avoidable-rectangle')
    expect(rectangles.length).toBeGreaterThan(0)
    for (const step of rectangles) {
      if (step.pattern.shape !== 'exchange') throw new Error('a rectangle is an exchange')
      const { cells, digits } = whatToSee(step)
      expect(cells).toEqual(expect.arrayContaining([...step.pattern.cells]))
      expect(digits).toEqual(expect.arrayContaining([...step.pattern.digits]))
    }
  })
})
