import { openCount } from '../../src/grid/board/ask.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { FoundStep } from '../../src/logic/steps/step.js'
import { randomPuzzle } from './random-boards.js'

const SEEDS = [3001, 3002, 3003, 3004, 3005, 3006]

/** So many steps of each technique that is met, from paths and from boards half way. */
export function stepsOfEachTechnique(most: number, seeds: readonly number[] = SEEDS): FoundStep[] {
  const steps: FoundStep[] = []
  for (const seed of seeds) {
    const puzzle = randomPuzzle(seed)
    steps.push(...solve(puzzle).steps)
    const { board } = solve(puzzle, { preset: 'mark' })
    if (openCount(board) > 0) steps.push(...findSteps(board, { preset: 'chain', limit: 60 }))
  }
  const seen = new Map<string, number>()
  return steps.filter(({ technique }) => {
    seen.set(technique, (seen.get(technique) ?? 0) + 1)
    return seen.get(technique)! <= most
  })
}
