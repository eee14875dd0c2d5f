import { arrayLike, checkOptions, count, shown } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { checkGeometry, type Geometry, STANDARD } from '../grid/geometry.js'
import { perLayout } from '../grid/per-layout.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { budgetSpent, COUNT_CHECKS, type CountBudget, DEFAULT_NODE_BUDGET, NodeBudget } from './budget.js'
import { borrowSearch, createSearch, giveBackSearch } from './engine.js'

const searchFor = perLayout((_, geometry) => createSearch(geometry))

/**
 * No, one or several solutions, for callers that ask thousands of times: 0, 1, or 2 for "two or more". Takes plain
 * numbers and, from the second call for a geometry on, allocates nothing unless limits are given.
 *
 * @param givens cell -> digit, 0 for an open cell; clashing givens simply have no solution
 * @param limits a node budget, or a budget with a time limit
 * @throws InputError `argument` when `givens` has the wrong length or a number out of range
 * @throws StoppedError `budget-spent` or `time-limit` when that was spent before it was settled
 *
 * @example
 * countUpToTwo(puzzle.givens) // → 1
 */
export function countUpToTwo(
  givens: ArrayLike<number>,
  geometry: Geometry = STANDARD,
  limits: number | CountBudget = DEFAULT_NODE_BUDGET,
): 0 | 1 | 2 {
  if (typeof limits !== 'number') {
    checkOptions<CountBudget>(limits, COUNT_CHECKS)
    return runNow(limits, (watch) => upToTwoTask(givens, geometry, limits, watch))
  }
  checkNodes(limits, 'limits')
  assertGivens(givens, geometry)
  const search = searchFor(geometry)
  search.start(givens)
  const first = search.next(limits)
  if (first === 'exhausted') return 0
  if (first === 'solution') {
    const second = search.next(limits - search.nodes)
    if (second === 'exhausted') return 1
    if (second === 'solution') return 2
  }
  throw budgetSpent(UNSETTLED)
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * await countUpToTwoAsync(puzzle.givens, puzzle.geometry, { signal }) // → 1
 */
export async function countUpToTwoAsync(
  givens: ArrayLike<number>,
  geometry: Geometry = STANDARD,
  limits: CountBudget = {},
): Promise<0 | 1 | 2> {
  checkOptions<CountBudget>(limits, COUNT_CHECKS)
  return runInSlices(limits, (watch) => upToTwoTask(givens, geometry, limits, watch))
}

const checkNodes = count(0)

const UNSETTLED = 'how many solutions there are'

function* upToTwoTask(
  givens: ArrayLike<number>,
  geometry: Geometry,
  options: CountBudget,
  watch: Watch,
): Task<0 | 1 | 2> {
  assertGivens(givens, geometry)
  const budget = new NodeBudget(options, watch)
  const search = borrowSearch(geometry)
  try {
    search.start(givens)
    for (const count of [0, 1] as const) {
      const found = yield* budget.next(search)
      if (found === undefined) throw budget.stoppedError(UNSETTLED)
      if (!found) return count
    }
    return 2
  } finally {
    giveBackSearch(geometry, search)
  }
}

function assertGivens(givens: ArrayLike<number>, geometry: Geometry): void {
  checkGeometry(geometry)
  arrayLike(givens, 'givens')
  if (givens.length !== geometry.cellCount) {
    throw new InputError(
      'argument',
      `a ${geometry.name} grid has ${geometry.cellCount} cells, not ${givens.length}`,
    )
  }
  for (let cell = 0; cell < givens.length; cell++) {
    const digit = givens[cell]!
    if (typeof digit !== 'number' || !(digit >= 0 && digit <= geometry.order) || digit !== (digit | 0)) {
      throw new InputError('argument', `cell ${cell} holds ${shown(digit)}; 0 to ${geometry.order} is meant`)
    }
  }
}
