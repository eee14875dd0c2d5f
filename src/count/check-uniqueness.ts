import { checkOptions } from '../check-arguments.js'
import type { Geometry } from '../grid/geometry.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { isUntimed, runInSlices, runNow, type Task, UNTIMED, type Watch } from '../limits.js'
import { backboneOf } from './backbone.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget, type StopReason } from './budget.js'
import { type Conflict, conflictOf, IN_PASSING } from './conflict.js'
import { borrowSearch, giveBackSearch } from './engine.js'
import type { SolutionSearch } from './search.js'

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
 *
 * @example
 * const verdict = checkUniqueness(puzzle)
 * if (verdict.kind === 'unique') formatPuzzle(makePuzzle(verdict.solution))
 * if (verdict.kind === 'many') verdict.openCells // where solutions differ
 * if (verdict.kind === 'none') verdict.conflict.givens // which givens clash
 */
export function checkUniqueness(puzzle: Puzzle, budget: CountBudget = {}): Verdict {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return isUntimed(budget)
    ? verdictNow(puzzle, budget)
    : runNow(budget, (watch) => verdictTask(puzzle, budget, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const verdict = await checkUniquenessAsync(puzzle, { timeLimit: 1000, signal })
 * verdict.kind // → 'unique'
 */
export async function checkUniquenessAsync(puzzle: Puzzle, budget: CountBudget = {}): Promise<Verdict> {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runInSlices(budget, (watch) => verdictTask(puzzle, budget, watch))
}

/** Small puzzles are asked about by the thousand, and a task costs a twentieth of what their answer does. */
function verdictNow(puzzle: Puzzle, options: Pick<CountBudget, 'nodeBudget'>): Verdict {
  const { geometry } = puzzle
  const budget = new NodeBudget(options, UNTIMED)
  const search = borrowSearch(geometry)
  try {
    search.start(puzzle.givens)
    // without a clock nothing says `pause`
    if (!budget.advance(search)) return runNow({}, () => withoutSolution(puzzle, search, budget))
    const solution = solutionOf(search, geometry)
    const second = budget.advance(search)
    if (second === false) return { kind: 'unique', solution }
    return runNow({}, () => withoutProof(puzzle, solution, search, budget))
  } finally {
    giveBackSearch(geometry, search)
  }
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
    if (!(yield* budget.next(search))) return yield* withoutSolution(puzzle, search, budget)
    const solution = solutionOf(search, geometry)
    const second = yield* budget.next(search)
    if (second === false) return { kind: 'unique', solution }
    return yield* withoutProof(puzzle, solution, search, budget)
  } finally {
    giveBackSearch(geometry, search)
  }
}

/** The verdict where the search came to no solution: there is none, unless it was stopped. */
function* withoutSolution(puzzle: Puzzle, search: SolutionSearch, budget: NodeBudget): Task<Verdict> {
  if (budget.stopped) return { kind: 'undecided', stopped: budget.stopped }
  return { kind: 'none', conflict: yield* conflictOf(puzzle, search, budget, IN_PASSING) }
}

/** The verdict where the search did not end after the first solution: it came to another, unless it was stopped. */
function* withoutProof(
  puzzle: Puzzle,
  found: readonly number[],
  search: SolutionSearch,
  budget: NodeBudget,
): Task<Verdict> {
  if (budget.stopped) return { kind: 'undecided', stopped: budget.stopped, found }
  const other = solutionOf(search, puzzle.geometry)
  const { open, complete, stopped } = yield* backboneOf(puzzle, [found, other], search, budget)
  return {
    kind: 'many',
    examples: [found, other],
    openCells: open,
    openCellsComplete: complete,
    ...(stopped && { stopped }),
  }
}

/** The solution that a search has come to. */
function solutionOf(search: SolutionSearch, { cellCount }: Geometry): number[] {
  const solution = new Array<number>(cellCount)
  search.readSolution(solution)
  return solution
}
