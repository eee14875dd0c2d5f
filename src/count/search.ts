import type { DigitSet } from '../grid/digits.js'

/** Why `SolutionSearch.next` came back. */
export type SearchEvent = 'solution' | 'exhausted' | 'out-of-nodes'

/**
 * An exact search that walks through all solutions of one puzzle, each exactly once, and can be paused anywhere.
 * It never reasons about *how many* there are; callers count what comes out. One value serves one search at a time
 * and is used again for the next by `start`, so that a search in progress allocates nothing.
 */
export interface SolutionSearch {
  /**
   * Begins a new search; whatever was in progress is forgotten.
   *
   * @param givens cell -> digit, 0 for an open cell; the caller has checked length and range
   * @param marks cell -> digits allowed there, to search only part of the solutions; all digits when left out
   */
  start(givens: ArrayLike<number>, marks?: ArrayLike<DigitSet>): void
  /**
   * Goes on to the next solution, visiting at most `nodes` nodes on the way (a node: one position of the search tree,
   * from which what follows at once was drawn). After `out-of-nodes` the next call goes on where this one stopped.
   */
  next(nodes: number): SearchEvent
  /** Copies the solution that the last `next` came to into `out`, cell -> digit. */
  readSolution(out: { [cell: number]: number }): void
  /** Nodes visited since `start`. */
  readonly nodes: number
}
