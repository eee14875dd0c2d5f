import type { Puzzle } from '../../src/grid/puzzle.js'
import { solve } from '../../src/logic/solving/solve.js'
import { randomPuzzle } from '../../test/support/random-boards.js'

/** Fewest steps of level `chain` that make a puzzle one of these; about one random puzzle in nine has as many. */
const CHAIN_STEPS = 3

/** So many random puzzles that take several chains, made from consecutive seeds: no file has any part in them. */
export function chainPuzzles(firstSeed: number, count: number): Puzzle[] {
  const found: Puzzle[] = []
  for (let seed = firstSeed; found.length < count; seed++) {
    const puzzle = randomPuzzle(seed)
    const { steps } = solve(puzzle, { preset: 'chain' })
    if (steps.filter(({ level }) => level === 'chain').length >= CHAIN_STEPS) found.push(puzzle)
  }
  return found
}
