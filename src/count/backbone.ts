import { checkOptions } from '../check-arguments.js'
import type { Candidate } from '../grid/board.js'
import { allDigits, digitBit } from '../grid/digits.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget, type StopReason } from './budget.js'
import { borrowSearch, giveBackSearch } from './engine.js'
import type { SolutionSearch } from './search.js'

/** What all solutions of a puzzle share. */
export interface Backbone {
  /** Cells (givens among them) that hold the same digit in every solution. */
  readonly fixed: readonly Candidate[]
  /** Cells that do not, ascending. */
  readonly open: readonly number[]
  /** False when it was stopped first: then `fixed` is what is proven, and cells may be missing from `open`. */
  readonly complete: boolean
  readonly stopped?: StopReason
}

/**
 * What all solutions share; `undefined` when there is no solution. Stopped before a solution was found, only the givens
 * are fixed, and nothing is known to be open.
 *
 * @throws StoppedError `aborted` when the signal has fired
 *
 * @example
 * backbone(puzzle)?.open.length // → 0
 */
export function backbone(puzzle: Puzzle, budget: CountBudget = {}): Backbone | undefined {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runNow(budget, (watch) => backboneTask(puzzle, budget, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const shared = await backboneAsync(puzzle, { signal })
 */
export async function backboneAsync(puzzle: Puzzle, budget: CountBudget = {}): Promise<Backbone | undefined> {
  checkPuzzle(puzzle)
  checkOptions<CountBudget>(budget, COUNT_CHECKS)
  return runInSlices(budget, (watch) => backboneTask(puzzle, budget, watch))
}

function* backboneTask(puzzle: Puzzle, options: CountBudget, watch: Watch): Task<Backbone | undefined> {
  const { geometry, givens } = puzzle
  const budget = new NodeBudget(options, watch)
  const search = borrowSearch(geometry)
  try {
    search.start(givens)
    const found = yield* budget.next(search)
    if (found === undefined) {
      const fixed = givens.flatMap((digit, cell) => (digit === 0 ? [] : [{ cell, digit }]))
      return { fixed, open: [], complete: false, stopped: budget.stopped! }
    }
    if (!found) return undefined
    const solution = new Array<number>(geometry.cellCount)
    search.readSolution(solution)
    return yield* backboneOf(puzzle, [solution], search, budget)
  } finally {
    giveBackSearch(geometry, search)
  }
}

/**
 * The same from solutions already in hand. Cells on which they agree are asked one by one: is there a solution with
 * another digit here? Each one found may open further cells, so there are seldom many questions.
 */
export function* backboneOf(
  puzzle: Puzzle,
  known: readonly (readonly number[])[],
  search: SolutionSearch,
  budget: NodeBudget,
): Task<Backbone> {
  const { order, cellCount } = puzzle.geometry
  const first = known[0]!
  const isOpen = first.map((digit, cell) => known.some((solution) => solution[cell] !== digit))
  const proven = puzzle.givens.map((digit) => digit !== 0)
  const marks = new Array<number>(cellCount).fill(allDigits(order))
  const other = new Array<number>(cellCount)
  for (let cell = 0; cell < cellCount; cell++) {
    if (isOpen[cell] || proven[cell]) continue
    marks[cell] = allDigits(order) & ~digitBit(first[cell]!)
    search.start(puzzle.givens, marks)
    const found = yield* budget.next(search)
    if (found === undefined) break
    marks[cell] = allDigits(order)
    if (found) {
      search.readSolution(other)
      for (let i = 0; i < cellCount; i++) if (other[i] !== first[i]) isOpen[i] = true
    } else {
      proven[cell] = true
    }
  }
  const fixed: Candidate[] = []
  const open: number[] = []
  for (let cell = 0; cell < cellCount; cell++) {
    if (isOpen[cell]) open.push(cell)
    else if (proven[cell]) fixed.push({ cell, digit: first[cell]! })
  }
  const complete = fixed.length + open.length === cellCount
  return { fixed, open, complete, ...(budget.stopped && { stopped: budget.stopped }) }
}
