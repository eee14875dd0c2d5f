import { checkOptions } from '../check-arguments.js'
import { type BoardContradiction, contradictionOf } from '../grid/board/ask.js'
import { newBoard } from '../grid/board/make.js'
import type { Candidate } from '../grid/board.js'
import { checkPuzzle, findClashes, type Puzzle, uncheckedPuzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget, type StopReason } from './budget.js'
import { borrowSearch, giveBackSearch } from './engine.js'
import { BranchAllowance, hittingSet } from './hitting-set.js'
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
  /** Proven: without any one of them a solution is left. False only when the budget did not suffice for all of them. */
  readonly minimal: boolean
  /** Proven: no fewer givens of this puzzle contradict each other. */
  readonly smallest: boolean
  /** What ended the search for fewer givens early. */
  readonly stopped?: StopReason
}

/** What a conflict may cost: all the budget and about a second of thought, or the few milliseconds of a verdict. */
interface Effort {
  readonly nodes: number
  /** Branches of the search for the next set to try. */
  readonly branches: number
}
const IN_FULL: Effort = { nodes: Number.POSITIVE_INFINITY, branches: 200_000 }
export const IN_PASSING: Effort = { nodes: 20_000, branches: 2_000 }

/**
 * A smallest set of givens that contradict each other, or `undefined` when there is a solution.
 *
 * Two equal givens in a house are the answer at once. Otherwise givens are left out one after another for as long as
 * the rest still contradicts; what remains is minimal. Then smaller sets are looked for until there can be none or
 * the budget is spent; `smallest` says which.
 *
 * @throws StoppedError `budget-spent` or `time-limit` when it was not known by then whether there is a solution,
 *   `aborted` when the signal has fired
 *
 * @example
 * const twoFives = makePuzzle([5, 5, ...new Array(79).fill(0)])
 * smallestConflict(twoFives)?.givens // → [{ cell: 0, digit: 5 }, { cell: 1, digit: 5 }]
 */
export function smallestConflict(puzzle: Puzzle, budget: CountBudget = {}): Conflict | undefined {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runNow(budget, (watch) => conflictTask(puzzle, budget, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * await smallestConflictAsync(puzzle, { signal }) // → undefined
 */
export async function smallestConflictAsync(
  puzzle: Puzzle,
  budget: CountBudget = {},
): Promise<Conflict | undefined> {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runInSlices(budget, (watch) => conflictTask(puzzle, budget, watch))
}

function* conflictTask(puzzle: Puzzle, options: CountBudget, watch: Watch): Task<Conflict | undefined> {
  const budget = new NodeBudget(options, watch)
  const search = borrowSearch(puzzle.geometry)
  try {
    search.start(puzzle.givens)
    const found = yield* budget.next(search)
    if (found === undefined) throw budget.stoppedError('whether the puzzle has a solution')
    return found ? undefined : yield* conflictOf(puzzle, search, budget, IN_FULL)
  } finally {
    giveBackSearch(puzzle.geometry, search)
  }
}

/** The same for a puzzle known to have no solution, with a search and a budget already in hand. */
export function* conflictOf(
  puzzle: Puzzle,
  search: SolutionSearch,
  budget: NodeBudget,
  effort: Effort,
): Task<Conflict> {
  const clash = findClashes(puzzle.geometry, puzzle.givens)[0]
  if (clash) return conflictIn(puzzle, clash.cells.slice(0, 2), true, true)
  const part = budget.part(effort.nodes)
  const reduced = yield* leaveOut(puzzle, search, part)
  if (!reduced.minimal) return conflictIn(puzzle, reduced.cells, false, false, part.stopped ?? 'budget-spent')
  const { cells, smallest } = yield* lookForSmaller(puzzle, reduced.cells, search, part, effort.branches)
  return conflictIn(puzzle, cells, true, smallest, part.stopped)
}

function conflictIn(
  puzzle: Puzzle,
  cells: readonly number[],
  minimal: boolean,
  smallest: boolean,
  stopped?: StopReason,
): Conflict {
  const part = uncheckedPuzzle(only(puzzle, cells), puzzle.geometry)
  return {
    givens: [...cells].sort((a, b) => a - b).map((cell) => ({ cell, digit: puzzle.givens[cell]! })),
    where: contradictionOf(newBoard(part)) ?? { kind: 'deep' },
    minimal,
    smallest,
    ...(stopped && { stopped }),
  }
}

/** The givens of a puzzle in these cells, and no others. */
function only(puzzle: Puzzle, cells: readonly number[]): number[] {
  const givens = new Array<number>(puzzle.geometry.cellCount).fill(0)
  for (const cell of cells) givens[cell] = puzzle.givens[cell]!
  return givens
}

/**
 * Leaves out givens that the rest contradicts without. Each gets its share of the budget, so that one hard question
 * does not keep the others from being asked.
 */
function* leaveOut(
  puzzle: Puzzle,
  search: SolutionSearch,
  budget: NodeBudget,
): Task<{ cells: number[]; minimal: boolean }> {
  const kept = Array.from(puzzle.givens)
  const given = [...kept.keys()].filter((cell) => kept[cell] !== 0)
  const share = Math.floor(budget.nodesLeft / given.length)
  let minimal = true
  for (const cell of given) {
    const digit = kept[cell]!
    kept[cell] = 0
    search.start(kept)
    const solvable = yield* budget.next(search, share)
    if (solvable !== false) kept[cell] = digit
    if (solvable === undefined) minimal = false
  }
  return { cells: given.filter((cell) => kept[cell] !== 0), minimal }
}

/**
 * The smallest conflict of all, given a minimal one. A grid that fits some of the givens shows that every conflict has
 * one of the others; so a conflict is a set that hits each of many such sets of others. The smallest set that does is
 * tried: if it contradicts, nothing smaller can; if not, the grid that fits it gives one more set to hit.
 */
function* lookForSmaller(
  puzzle: Puzzle,
  minimal: readonly number[],
  search: SolutionSearch,
  budget: NodeBudget,
  branches: number,
): Task<{ cells: readonly number[]; smallest: boolean }> {
  const allowance = new BranchAllowance(branches, budget)
  const grid = new Array<number>(puzzle.geometry.cellCount)
  const toHit: number[][] = []
  for (let size = 0; size < minimal.length; ) {
    const candidate = yield* hittingSet(toHit, grid.length, size, allowance)
    if (allowance.left <= 0) return { cells: minimal, smallest: false }
    if (!candidate) {
      size++
      continue
    }
    const fitting = only(puzzle, candidate)
    search.start(fitting)
    const solvable = yield* budget.next(search)
    if (solvable === undefined) return { cells: minimal, smallest: false }
    if (!solvable) return { cells: candidate, smallest: true }
    search.readSolution(grid)
    // let the grid fit as many more givens as it can, so that the set to hit is small
    for (let cell = 0; cell < grid.length; cell++) {
      const digit = puzzle.givens[cell]!
      if (digit === 0 || fitting[cell] !== 0) continue
      fitting[cell] = digit
      if (grid[cell] === digit) continue
      search.start(fitting)
      const fits = yield* budget.next(search)
      if (fits === undefined) return { cells: minimal, smallest: false }
      if (fits) search.readSolution(grid)
      else fitting[cell] = 0
    }
    toHit.push([...grid.keys()].filter((cell) => puzzle.givens[cell] !== 0 && fitting[cell] === 0))
  }
  return { cells: minimal, smallest: true }
}
