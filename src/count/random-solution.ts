import { boolean, checkOptions, type OptionChecks, object } from '../check-arguments.js'
import type { Geometry } from '../grid/geometry.js'
import { layoutOf } from '../grid/layout.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { assertSeed } from '../grid/random.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget } from './budget.js'
import { borrowSearch, giveBackSearch } from './engine.js'
import { GeneralSearch } from './general-search.js'
import type { SolutionSearch } from './search.js'

export interface RandomSolutionOptions extends CountBudget {
  /** A whole number; the same seed picks the same solution. */
  readonly seed: number
  /**
   * Must every solution have exactly the same chance? Then all of them are visited, or a StoppedError says that they
   * are too many. When left out, that is done only where it takes hardly any time.
   */
  readonly fair?: boolean
}

const RANDOM_CHECKS: OptionChecks<RandomSolutionOptions> = {
  ...COUNT_CHECKS,
  seed: assertSeed,
  fair: boolean,
}

/**
 * Nodes in which all solutions must be visited where a fair choice is not asked for: some tenths of a second at most.
 */
const FAIR_NODES = 1000

/** Nodes of the first attempt to fill a grid at random. Each attempt may take half as many more as the one before. */
const FIRST_ATTEMPT = 200

/**
 * One of the puzzle's solutions, at random; `undefined` when it has none.
 *
 * Where they are few (a search of a thousand nodes visits them all), and always with `fair`, every solution has the
 * same chance: the k-th takes the place of the one in hand with chance 1/k, so each of n was kept with chance 1/k ·
 * k/(k+1) · … · (n-1)/n = 1/n.
 *
 * Where they are many, such as those of an empty grid, candidates are taken at random, in the cell with the fewest,
 * until the grid is full, beginning again where that leads nowhere. Every solution can come out, but not with the same
 * chance: those in parts of the search tree with few solutions have more of it. Nobody can visit all grids of order 9,
 * let alone 16.
 *
 * @throws InputError `argument` for a seed that is no whole number
 * @throws StoppedError `budget-spent` or `time-limit` when that was over first, `aborted` when the signal has fired
 *
 * @example
 * const empty = makePuzzle(new Array(81).fill(0))
 * randomSolution(empty, { seed: 7 })?.length // → 81
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

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const filled = await randomSolutionAsync(puzzle, { seed: 7, signal })
 */
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
    search.start(givens)
    const most = options.fair ? Number.POSITIVE_INFINITY : FAIR_NODES
    const solution = yield* fairChoice(search, geometry, random, budget, most)
    if (solution !== 'too-many') return solution
  } finally {
    giveBackSearch(geometry, search)
  }
  return yield* randomFilling(geometry, givens, random, budget)
}

/** @param most nodes to visit; `too-many` when these were not enough */
function* fairChoice(
  search: SolutionSearch,
  geometry: Geometry,
  random: () => number,
  budget: NodeBudget,
  most: number,
): Task<number[] | undefined | 'too-many'> {
  const solution = new Array<number>(layoutOf(geometry).cellCount)
  for (let count = 0; ; ) {
    const found = yield* budget.next(search, most - search.nodes)
    if (found === undefined) {
      if (!budget.stopped) return 'too-many'
      throw budget.stoppedError(
        `which of its solutions to choose: a fair choice visits all, and ${count} were not`,
      )
    }
    if (!found) return count === 0 ? undefined : solution
    count++
    if (random() * count < 1) search.readSolution(solution)
  }
}

/** Begins again and again: a bad start can take for ever, and most starts are good. */
function* randomFilling(
  geometry: Geometry,
  givens: readonly number[],
  random: () => number,
  budget: NodeBudget,
): Task<number[] | undefined> {
  const layout = layoutOf(geometry)
  const search = new GeneralSearch(layout, random)
  for (let attempt = FIRST_ATTEMPT; ; attempt *= 1.5) {
    search.start(givens)
    const found = yield* budget.next(search, Math.ceil(attempt))
    if (budget.stopped) throw budget.stoppedError('how to fill the grid')
    if (found === undefined) continue
    if (!found) return undefined
    const solution = new Array<number>(layout.cellCount)
    search.readSolution(solution)
    return solution
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
