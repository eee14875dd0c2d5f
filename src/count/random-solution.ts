import { StoppedError } from '../errors.js'
import type { Puzzle } from '../grid/puzzle.js'
import { assertSeed } from '../grid/random.js'
import { type CountBudget, Purse } from './budget.js'
import { withSearch } from './engine.js'

export interface RandomSolutionOptions extends CountBudget {
  /** A whole number; the same seed picks the same solution. */
  readonly seed: number
}

/**
 * One of the puzzle's solutions, every one with the same chance; `undefined` when it has none.
 *
 * All solutions are visited, and the k-th takes the place of the one in hand with chance 1/k: then each of n was kept
 * with chance 1/k · k/(k+1) · … · (n-1)/n = 1/n. Picking branches at random instead would be quick and not uniform.
 *
 * @throws RangeError for a seed that is no whole number
 * @throws StoppedError `budget-spent` when the solutions are too many to visit, `aborted` when the signal fired
 */
export function randomSolution(
  puzzle: Puzzle,
  options: RandomSolutionOptions,
): readonly number[] | undefined {
  assertSeed(options.seed)
  const random = randomNumbers(options.seed)
  const purse = new Purse(options)
  return withSearch(puzzle.geometry, (search) => {
    const solution = new Array<number>(puzzle.geometry.cellCount)
    search.start(puzzle.givens)
    let count = 0
    while (purse.next(search)) {
      count++
      if (random() * count < 1) search.readSolution(solution)
    }
    if (purse.stopped === 'aborted') {
      throw new StoppedError('aborted', 'Stopped by the caller before all solutions were visited.')
    }
    if (purse.stopped) {
      throw new StoppedError(
        'budget-spent',
        `A fair choice visits every solution, and ${count} were not all within the node budget; ` +
          'allow more nodes or add givens.',
      )
    }
    return count === 0 ? undefined : solution
  })
}

/** Numbers from 0 to below 1: Marsaglia's xorshift32 (2003), started through a mixing step so that near seeds part. */
function randomNumbers(seed: number): () => number {
  let state = Math.imul(seed ^ (seed >>> 16), 0x45d9f3b) ^ 0x9e3779b9
  state = Math.imul(state ^ (state >>> 16), 0x45d9f3b) || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
}
