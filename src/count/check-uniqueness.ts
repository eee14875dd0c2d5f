import type { Puzzle } from '../grid/puzzle.js'
import { backboneOf } from './backbone.js'
import { type CountBudget, Purse, type StopReason } from './budget.js'
import { type Conflict, conflictOf, IN_PASSING } from './conflict.js'
import { withSearch } from './engine.js'

/** What counting says about a puzzle. Grids are cell -> digit. */
export type Verdict =
  | { readonly kind: 'unique'; readonly solution: readonly number[] }
  | {
      readonly kind: 'many'
      /** Two different solutions. */
      readonly examples: readonly [readonly number[], readonly number[]]
      /** Cells that do not hold the same digit in all solutions, ascending. */
      readonly openCells: readonly number[]
      /** False when the budget was spent before every cell was settled: then cells may be missing from `openCells`. */
      readonly openCellsComplete: boolean
    }
  | { readonly kind: 'none'; readonly conflict: Conflict }
  | {
      /** The budget was spent, or the caller stopped the search, before the number of solutions was known. */
      readonly kind: 'undecided'
      readonly stopped: StopReason
      /** The solution found by then, if any; there may be others. */
      readonly found?: readonly number[]
    }

/**
 * Does the puzzle have exactly one solution? Decided by exact search, never by deduction.
 *
 * @param budget `nodeBudget` bounds the whole answer, examples and conflict included
 */
export function checkUniqueness(puzzle: Puzzle, budget: CountBudget = {}): Verdict {
  const purse = new Purse(budget)
  return withSearch(puzzle.geometry, (search): Verdict => {
    search.start(puzzle.givens)
    const first = purse.next(search)
    if (first === undefined) return { kind: 'undecided', stopped: purse.stopped! }
    if (!first) return { kind: 'none', conflict: conflictOf(puzzle, search, purse, IN_PASSING) }
    const solution = new Array<number>(puzzle.geometry.cellCount)
    search.readSolution(solution)
    const second = purse.next(search)
    if (second === undefined) return { kind: 'undecided', stopped: purse.stopped!, found: solution }
    if (!second) return { kind: 'unique', solution }
    const other = new Array<number>(puzzle.geometry.cellCount)
    search.readSolution(other)
    const { open, complete } = backboneOf(puzzle, [solution, other], search, purse)
    return { kind: 'many', examples: [solution, other], openCells: open, openCellsComplete: complete }
  })
}
