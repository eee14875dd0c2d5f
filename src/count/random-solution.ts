import { checkOptions, type OptionChecks, object } from '../check-arguments.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { assertSeed } from '../grid/random.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget } from './budget.js'
import { borrowSearch, giveBackSearch } from './engine.js'

export interface RandomSolutionOptions extends CountBudget {
  /** A whole number; the same seed picks the same solution. */
  readonly seed: number
}

const RANDOM_CHECKS: OptionChecks<RandomSolutionOptions> = { ...COUNT_CHECKS, seed: assertSeed }

/**
 * One of the puzzle's solutions, every one with the same chance; `undefined` when it has none.
 *
 * All solutions are visited, and the k-th takes the place of the one in hand with chance 1/k: then each of n was kept
 * with chance 1/k · k/(k+1) · … · (n-1)/n = 1/n. Picking branches at random instead would be quick and not uniform.
 *
 * @throws InputError `argument` for a seed that is no whole number
 * @throws StoppedError `budget-spent` or `time-limit` when the solutions are too many to visit, `aborted` when the signal
 *   has fired
 */
export function randomSolution(
  puzzle: Puzzle,
  options: RandomSolutionOptions,
): readonly number[] | undefined {
  checkPuzzle(puzzle)
  object(options, 'options')
  checkOptions<RandomSolutionOptions>(options, RANDOM_CHECKS)
  return runNow(options, (watch) => randomTask(puzzle, options, watch))
}

/** The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time. */
export async function randomSolutionAsync(
  puzzle: Puzzle,
  options: RandomSolutionOptions,
): Promise<readonly number[] | undefined> {
  checkPuzzle(puzzle)
  object(options, 'options')
  checkOptions<RandomSolutionOptions>(options, RANDOM_CHECKS)
  return runInSlices(options, (watch) => randomTask(puzzle, options, watch))
}

function* randomTask(
  { geometry, givens }: Puzzle,
  options: RandomSolutionOptions,
  watch: Watch,
): Task<readonly number[] | undefined> {
  // what cannot be left out is not among the options that may be
  assertSeed(options.seed)
  const random = randomNumbers(options.seed)
  const budget = new NodeBudget(options, watch)
  const search = borrowSearch(geometry)
  try {
    const solution = new Array<number>(geometry.cellCount)
    search.start(givens)
    for (let count = 0; ; ) {
      let found = budget.advance(search)
      for (; found === 'pause'; found = budget.advance(search)) yield
      if (found === undefined)
        throw budget.stoppedError(
          `which of its solutions to choose: a fair choice visits all, and ${count} were not`,
        )
      if (!found) return count === 0 ? undefined : solution
      count++
      if (random() * count < 1) search.readSolution(solution)
    }
  } finally {
    giveBackSearch(geometry, search)
  }
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
