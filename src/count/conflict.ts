import { Board, type BoardContradiction, type Candidate } from '../grid/board.js'
import { findClashes, type Puzzle } from '../grid/puzzle.js'
import { type CountBudget, Purse } from './budget.js'
import { withSearch } from './engine.js'
import type { SolutionSearch } from './search.js'

/** Givens that cannot all be right, and where that shows. */
export interface Conflict {
  /** Taken together they leave no solution; in reading order. Empty only if the geometry itself has no filled grid. */
  readonly givens: readonly Candidate[]
  /**
   * Where they clash, if it can be seen from their pencil marks: a digit twice in a house, a cell without candidates, a
   * house without a place for a digit. `deep` when only a search shows it.
   */
  readonly where: BoardContradiction | { readonly kind: 'deep' }
  /** Proven: without any one of them a solution is left. False only when the budget was spent. */
  readonly minimal: boolean
  /** Proven: no fewer givens of this puzzle contradict each other. */
  readonly smallest: boolean
}

/**
 * A smallest set of givens that contradict each other, or `undefined` when a solution exists or the budget did not
 * even allow to tell (ask `checkUniqueness` which).
 *
 * Two equal givens in a house are the answer at once. Otherwise givens are left out one after another for as long as
 * the rest still contradicts; what remains is minimal.
 */
export function smallestConflict(puzzle: Puzzle, budget: CountBudget = {}): Conflict | undefined {
  const purse = new Purse(budget)
  return withSearch(puzzle.geometry, (search) => {
    search.start(puzzle.givens)
    return purse.next(search) === false ? conflictOf(puzzle, search, purse) : undefined
  })
}

/** The same for a puzzle known to have no solution, with a search and a purse already in hand. */
export function conflictOf(puzzle: Puzzle, search: SolutionSearch, purse: Purse): Conflict {
  const clash = findClashes(puzzle.geometry, puzzle.givens)[0]
  const kept = Array.from(puzzle.givens)
  let minimal = true
  if (clash) {
    kept.fill(0)
    for (const cell of clash.cells.slice(0, 2)) kept[cell] = clash.digit
  } else {
    for (let cell = 0; cell < kept.length; cell++) {
      const digit = kept[cell]!
      if (digit === 0) continue
      kept[cell] = 0
      search.start(kept)
      const solvable = purse.next(search)
      if (solvable !== false) kept[cell] = digit
      if (solvable === undefined) {
        minimal = false
        break
      }
    }
  }
  const givens = kept.flatMap((digit, cell) => (digit ? [{ cell, digit }] : []))
  const where = Board.fromPuzzle({ geometry: puzzle.geometry, givens: kept }).contradiction ?? {
    kind: 'deep' as const,
  }
  return { givens, where, minimal, smallest: minimal && givens.length <= 2 }
}
