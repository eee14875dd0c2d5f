import { amount, checkOptions, type OptionChecks } from '../check-arguments.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget, type StopReason } from './budget.js'
import { borrowSearch, giveBackSearch } from './engine.js'

export interface CountOptions extends CountBudget {
  /** Stop once this many are found; no limit when left out (the node budget still holds). */
  readonly limit?: number
}

const LIMIT_COUNT_CHECKS: OptionChecks<CountOptions> = { ...COUNT_CHECKS, limit: amount(0) }

/** How many solutions were found, and whether these are all. */
export interface SolutionCount {
  /** Solutions found: exactly how many there are when `complete`, else at least so many. */
  readonly count: number
  /** Is `count` the number of all solutions? */
  readonly complete: boolean
  /** What ended the search early. */
  readonly stopped?: 'limit' | StopReason
}

/**
 * How many solutions a puzzle has. `countSolutions(puzzle, { limit: 2 }).count` is 0, 1 or 2.
 *
 * @throws StoppedError `aborted` when the signal has fired
 *
 * @example
 * countSolutions(puzzle) // → { count: 1, complete: true }
 * countSolutions(makePuzzle(new Array(81).fill(0)), { limit: 1000 }).count // → 1000
 */
export function countSolutions(puzzle: Puzzle, options: CountOptions = {}): SolutionCount {
  checkPuzzle(puzzle)
  checkOptions<CountOptions>(options, LIMIT_COUNT_CHECKS)
  return runNow(options, (watch) => countTask(puzzle, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` can stop the count at any time.
 *
 * @example
 * const { count, complete } = await countSolutionsAsync(puzzle, { limit: 100_000, signal })
 */
export async function countSolutionsAsync(
  puzzle: Puzzle,
  options: CountOptions = {},
): Promise<SolutionCount> {
  checkPuzzle(puzzle)
  checkOptions<CountOptions>(options, LIMIT_COUNT_CHECKS)
  return runInSlices(options, (watch) => countTask(puzzle, options, watch))
}

/** Solutions, each as its digits row by row, and whether these are all. */
export interface SolutionList extends SolutionCount {
  /** The solutions found, each cell -> digit, in no promised order. */
  readonly solutions: readonly (readonly number[])[]
}

/**
 * Up to `limit` solutions of a puzzle.
 *
 * @throws StoppedError `aborted` when the signal has fired
 *
 * @example
 * const { solutions, complete } = solutionsOf(puzzle, { limit: 10 })
 * solutions.length // → 1
 */
export function solutionsOf(
  puzzle: Puzzle,
  options: CountOptions & { readonly limit: number },
): SolutionList {
  checkPuzzle(puzzle)
  checkOptions<CountOptions>(options, LIMIT_COUNT_CHECKS)
  LIMIT_COUNT_CHECKS.limit(options?.limit, 'limit')
  return runNow(options, (watch) => solutionsTask(puzzle, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile.
 *
 * @example
 * const { solutions } = await solutionsOfAsync(puzzle, { limit: 10, signal })
 */
export async function solutionsOfAsync(
  puzzle: Puzzle,
  options: CountOptions & { readonly limit: number },
): Promise<SolutionList> {
  checkPuzzle(puzzle)
  checkOptions<CountOptions>(options, LIMIT_COUNT_CHECKS)
  LIMIT_COUNT_CHECKS.limit(options?.limit, 'limit')
  return runInSlices(options, (watch) => solutionsTask(puzzle, options, watch))
}

export function* solutionsTask(
  puzzle: Puzzle,
  options: Omit<CountOptions, keyof CountBudget> & Pick<CountBudget, 'nodeBudget'>,
  watch: Watch,
): Task<SolutionList> {
  const solutions: number[][] = []
  const counted = yield* countTask(puzzle, options, watch, solutions)
  return { ...counted, solutions }
}

/** @param solutions takes the solutions found, where they are wanted */
function* countTask(
  { geometry, givens }: Puzzle,
  options: CountOptions,
  watch: Watch,
  solutions?: number[][],
): Task<SolutionCount> {
  const limit = options.limit ?? Number.POSITIVE_INFINITY
  const budget = new NodeBudget(options, watch)
  const search = borrowSearch(geometry)
  try {
    search.start(givens)
    for (let count = 0; ; count++) {
      if (count >= limit) return { count, complete: false, stopped: 'limit' }
      let found = budget.advance(search)
      for (; found === 'pause'; found = budget.advance(search)) yield
      if (found === undefined) return { count, complete: false, stopped: budget.stopped! }
      if (!found) return { count, complete: true }
      if (!solutions) continue
      const solution = new Array<number>(geometry.cellCount)
      search.readSolution(solution)
      solutions.push(solution)
    }
  } finally {
    giveBackSearch(geometry, search)
  }
}
