import type { Puzzle } from '../grid/puzzle.js'
import { type CountBudget, Purse, type StopReason } from './budget.js'
import { createSearch, withSearch } from './engine.js'

export interface CountOptions extends CountBudget {
  /** Stop once this many are found; no limit when left out (the node budget still holds). */
  readonly limit?: number
}

export interface SolutionCount {
  /** Solutions found: exactly how many there are when `complete`, else at least so many. */
  readonly count: number
  /** Is `count` the number of all solutions? */
  readonly complete: boolean
  /** What ended the search early. */
  readonly stopped?: 'limit' | StopReason
}

/** How many solutions a puzzle has. `countSolutions(puzzle, { limit: 2 }).count` is 0, 1 or 2. */
export function countSolutions(puzzle: Puzzle, options: CountOptions = {}): SolutionCount {
  const limit = checkedLimit(options.limit)
  const purse = new Purse(options)
  return withSearch(puzzle.geometry, (search) => {
    search.start(puzzle.givens)
    for (let count = 0; ; count++) {
      if (count >= limit) return { count, complete: false, stopped: 'limit' }
      const found = purse.next(search)
      if (found === undefined) return { count, complete: false, stopped: purse.stopped! }
      if (!found) return { count, complete: true }
    }
  })
}

/** The same as a promise: other work of the program goes on meanwhile, and `signal` can stop the count at any time. */
export async function countSolutionsAsync(
  puzzle: Puzzle,
  options: CountOptions = {},
): Promise<SolutionCount> {
  const limit = checkedLimit(options.limit)
  const purse = new Purse(options)
  const search = createSearch(puzzle.geometry)
  search.start(puzzle.givens)
  for (let count = 0; ; count++) {
    if (count >= limit) return { count, complete: false, stopped: 'limit' }
    const found = await purse.nextAsync(search)
    if (found === undefined) return { count, complete: false, stopped: purse.stopped! }
    if (!found) return { count, complete: true }
  }
}

export interface SolutionList extends SolutionCount {
  /** The solutions found, each cell -> digit, in no promised order. */
  readonly solutions: readonly (readonly number[])[]
}

/** Up to `limit` solutions of a puzzle. */
export function solutionsOf(
  puzzle: Puzzle,
  options: CountOptions & { readonly limit: number },
): SolutionList {
  const limit = checkedLimit(options.limit)
  const purse = new Purse(options)
  return withSearch(puzzle.geometry, (search) => {
    const solutions: number[][] = []
    const result = (complete: boolean, stopped?: SolutionCount['stopped']): SolutionList => ({
      count: solutions.length,
      complete,
      ...(stopped && { stopped }),
      solutions,
    })
    search.start(puzzle.givens)
    for (;;) {
      if (solutions.length >= limit) return result(false, 'limit')
      const found = purse.next(search)
      if (found === undefined) return result(false, purse.stopped)
      if (!found) return result(true)
      const solution = new Array<number>(puzzle.geometry.cellCount)
      search.readSolution(solution)
      solutions.push(solution)
    }
  })
}

function checkedLimit(limit: number | undefined): number {
  if (limit === undefined) return Number.POSITIVE_INFINITY
  if (!(limit >= 0)) throw new RangeError(`limit must be a number from 0, not ${limit}`)
  return limit
}
