import { checkOptions } from '../check-arguments.js'
import type { Candidate } from '../grid/board.js'
import { allDigits, digitBit } from '../grid/digits.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget, type StopReason } from './budget.js'
import { borrowSearch, giveBackSearch } from './engine.js'

/** Givens without which the puzzle still has its one solution. */
export interface RedundantGivens {
  /** Givens any one of which can go: without it the puzzle has just the same solutions. In reading order. */
  readonly each: readonly Candidate[]
  /** Of these, some that can all go at once, leaving no redundant given; there may be other such choices. */
  readonly together: readonly Candidate[]
  /** False when it was stopped: then what is listed is proven, and more may be redundant. */
  readonly complete: boolean
  readonly stopped?: StopReason
}

/**
 * Givens that say nothing the others do not say. A given is needed exactly if the others allow another digit in its
 * cell; that is what is searched for.
 *
 * @throws StoppedError `aborted` when the signal has fired
 *
 * @example
 * redundantGivens(puzzle).each // → []
 */
export function redundantGivens(puzzle: Puzzle, budget: CountBudget = {}): RedundantGivens {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runNow(budget, (watch) => redundantTask(puzzle, budget, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const { each, together } = await redundantGivensAsync(puzzle, { signal })
 */
export async function redundantGivensAsync(
  puzzle: Puzzle,
  budget: CountBudget = {},
): Promise<RedundantGivens> {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runInSlices(budget, (watch) => redundantTask(puzzle, budget, watch))
}

function* redundantTask(puzzle: Puzzle, options: CountBudget, watch: Watch): Task<RedundantGivens> {
  const budget = new NodeBudget(options, watch)
  const { geometry } = puzzle
  const { order, cellCount } = geometry
  const all = allDigits(order)
  const marks = new Array<number>(cellCount).fill(all)
  const search = borrowSearch(geometry)
  try {
    const isNeeded = function* (cell: number, givens: number[]): Task<boolean | undefined> {
      const digit = givens[cell]!
      givens[cell] = 0
      marks[cell] = all & ~digitBit(digit)
      search.start(givens, marks)
      const other = yield* budget.next(search)
      givens[cell] = digit
      marks[cell] = all
      return other
    }
    const givens = Array.from(puzzle.givens)
    const left = Array.from(puzzle.givens)
    const each: Candidate[] = []
    const together: Candidate[] = []
    for (let cell = 0; cell < cellCount && !budget.stopped; cell++) {
      const digit = givens[cell]!
      if (digit === 0 || (yield* isNeeded(cell, givens)) !== false) continue
      each.push({ cell, digit })
      // needed once others are gone, always needed: one pass leaves nothing redundant
      if ((yield* isNeeded(cell, left)) !== false) continue
      together.push({ cell, digit })
      left[cell] = 0
    }
    return { each, together, complete: !budget.stopped, ...(budget.stopped && { stopped: budget.stopped }) }
  } finally {
    giveBackSearch(geometry, search)
  }
}
