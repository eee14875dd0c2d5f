import { checkOptions } from '../check-arguments.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { backboneOf } from './backbone.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget, type StopReason } from './budget.js'
import { type Conflict, conflictOf, IN_PASSING } from './conflict.js'
import { borrowSearch, giveBackSearch } from './engine.js'

/** What counting says about a puzzle. Grids are cell -> digit. */
export type Verdict =
  | { readonly kind: 'unique'; readonly solution: readonly number[] }
  | {
      readonly kind: 'many'
      /** Two different solutions. */
      readonly examples: readonly [readonly number[], readonly number[]]
      /** Cells that do not hold the same digit in all solutions, ascending. */
      readonly openCells: readonly number[]
      /** False when it was stopped before every cell was settled: then cells may be missing from `openCells`. */
      readonly openCellsComplete: boolean
      /** What stopped it. */
      readonly stopped?: StopReason
    }
  | {
      readonly kind: 'none'
      /** What it says is proven, but where it is not `smallest` there may be a smaller one. */
      readonly conflict: Conflict
    }
  | {
      /** The budget was spent, or the time, before the number of solutions was known. */
      readonly kind: 'undecided'
      readonly stopped: StopReason
      /** The solution found by then, if any; there may be others. */
      readonly found?: readonly number[]
    }

/**
 * Does the puzzle have exactly one solution? Decided by exact search, never by deduction.
 *
 * @param budget `nodeBudget` and `timeLimit` bound the whole answer, examples and conflict included
 * @throws StoppedError `aborted` when the signal has fired
 */
export function checkUniqueness(puzzle: Puzzle, budget: CountBudget = {}): Verdict {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runNow(budget, (watch) => verdictTask(puzzle, budget, watch))
}

/** The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time. */
export async function checkUniquenessAsync(puzzle: Puzzle, budget: CountBudget = {}): Promise<Verdict> {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runInSlices(budget, (watch) => verdictTask(puzzle, budget, watch))
}

export function* verdictTask(
  puzzle: Puzzle,
  options: Pick<CountBudget, 'nodeBudget'>,
  watch: Watch,
): Task<Verdict> {
  const { geometry } = puzzle
  const budget = new NodeBudget(options, watch)
  const search = borrowSearch(geometry)
  try {
    search.start(puzzle.givens)
    let first = budget.advance(search)
    for (; first === 'pause'; first = budget.advance(search)) yield
    if (first === undefined) return { kind: 'undecided', stopped: budget.stopped! }
    if (!first) return { kind: 'none', conflict: yield* conflictOf(puzzle, search, budget, IN_PASSING) }
    const solution = new Array<number>(geometry.cellCount)
    search.readSolution(solution)
    let second = budget.advance(search)
    for (; second === 'pause'; second = budget.advance(search)) yield
    if (second === undefined) return { kind: 'undecided', stopped: budget.stopped!, found: solution }
    if (!second) return { kind: 'unique', solution }
    const other = new Array<number>(geometry.cellCount)
    search.readSolution(other)
    const { open, complete, stopped } = yield* backboneOf(puzzle, [solution, other], search, budget)
    return {
      kind: 'many',
      examples: [solution, other],
      openCells: open,
      openCellsComplete: complete,
      ...(stopped && { stopped }),
    }
  } finally {
    giveBackSearch(geometry, search)
  }
}
