import { describe, expect, it } from 'vitest'
import { boardFromMarks, newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { boxedGeometry, type Geometry } from '../../src/grid/geometry.js'
import type { Puzzle } from '../../src/grid/puzzle.js'
import { CATALOGUE } from '../../src/logic/catalogue.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { Step } from '../../src/logic/steps/step.js'
import { allowedOn, fillings } from '../support/backtracking.js'
import { withKings, withKnights } from '../support/further-peers.js'
import { allSteps, randomPuzzle } from '../support/random-boards.js'

// Cells a knight's or a king's move apart share no house and exclude each other all the same.

/** The first board of a puzzle and some on its path, each of its own. */
function boardsOf(puzzle: Puzzle): Board[] {
  const { steps } = solve(puzzle, { preset: 'pattern', oneSolution: false })
  const stride = Math.max(1, Math.floor(steps.length / 3))
  const befores = steps.filter((_, i) => i % stride === 0).map(({ before }) => before)
  return befores.map(({ digits, candidates }) => boardFromMarks(puzzle, digits, candidates))
}

const agrees = (step: Step, solution: readonly number[]): boolean =>
  step.placements.every(({ cell, digit }) => solution[cell] === digit) &&
  step.removals.every(({ cell, digit }) => solution[cell] !== digit)

/**
 * With the fewest steps that must rest on one solution: most patterns would have to know the cells a knight's move off.
 */
const GRIDS: readonly (readonly [Geometry, number])[] = [
  [withKnights(boxedGeometry(2, 3)), 0],
  [withKings(boxedGeometry(2, 3)), 10],
]
/** Puzzles of which every technique says all it can; of the others, those that assume one solution. */
const LOOKED_AT_IN_FULL = 3
const PUZZLES = 25

describe.each(GRIDS)('on $name', (geometry, fewest) => {
  it('every step found is proven, and agrees with the one solution there is', () => {
    let steps = 0
    let assuming = 0
    for (let seed = 1; seed <= PUZZLES; seed++) {
      const puzzle = randomPuzzle(seed, geometry)
      const solutions = fillings(geometry, allowedOn(newBoard(puzzle)), 2)
      expect(solutions).toHaveLength(1)
      for (const board of boardsOf(puzzle)) {
        for (const technique of CATALOGUE) {
          if (seed > LOOKED_AT_IN_FULL && !technique.assumes) continue
          for (const step of allSteps(board, technique, { oneSolution: true })) {
            const where = `${step.technique}, seed ${seed}: ${JSON.stringify(step)}`
            expect(verifyStep(board, step), where).toEqual({ proven: true })
            expect(agrees(step, solutions[0]!), where).toBe(true)
            steps++
            if (step.assumes) assuming++
          }
        }
      }
    }
    expect(steps).toBeGreaterThan(100)
    expect(assuming).toBeGreaterThanOrEqual(fewest)
  })
})
