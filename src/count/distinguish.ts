import { amount, checkOptions, type OptionChecks } from '../check-arguments.js'
import type { Candidate } from '../grid/board.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { COUNT_CHECKS, type CountBudget, NodeBudget, type StopReason } from './budget.js'
import { borrowSearch, giveBackSearch } from './engine.js'
import { BranchAllowance, hittingSet } from './hitting-set.js'
import type { SolutionSearch } from './search.js'

/** A cell that tells solutions apart. */
export interface OpenCell {
  readonly cell: number
  /** The digits it takes in the solutions looked at, ascending. */
  readonly digits: readonly number[]
}

/** Two solutions that differ in as few cells as can be: change these digits and one becomes the other. */
export interface DigitSwap {
  readonly cells: readonly { readonly cell: number; readonly from: number; readonly to: number }[]
}

/** Where the solutions of a puzzle differ, and what would tell them apart. */
export interface Distinction {
  /** Solutions looked at. */
  readonly solutions: number
  /** Were these all? If not, cells, digits and swaps may be missing below. */
  readonly complete: boolean
  /** What ended the work early. With it, and fewer than two solutions, it is not known whether there are more. */
  readonly stopped?: StopReason
  readonly cells: readonly OpenCell[]
  /**
   * The ways to turn one solution into another that cannot be done in part: no other pair of the solutions differs in
   * only some of these cells. Fewest cells first; each set of cells with its digits once. None when the time was over
   * first.
   */
  readonly swaps: readonly DigitSwap[]
  /** Givens to add so that exactly one solution is left; `undefined` when the budget or the time was spent first. */
  readonly extraGivens: readonly Candidate[] | undefined
  /** Proven: no fewer would do. */
  readonly fewest: boolean
}

export interface DistinguishOptions extends CountBudget {
  /** Most solutions to look at; 200 when left out. */
  readonly limit?: number
}

const DISTINGUISH_CHECKS: OptionChecks<DistinguishOptions> = { ...COUNT_CHECKS, limit: amount(2) }
const DEFAULT_LIMIT = 200
const BRANCHES = 200_000

/**
 * What a setter needs to mend a puzzle with several solutions: the cells that tell them apart, the swaps of digits
 * between them, and the fewest givens that would make it sound. `undefined` when the puzzle has one solution or none.
 *
 * @throws StoppedError `aborted` when the signal has fired
 *
 * @example
 * const open = makePuzzle(puzzle.givens.map((digit, cell) => (cell === 0 ? 0 : digit)))
 * distinguishingCells(open)?.extraGivens // givens that would leave one solution
 */
export function distinguishingCells(
  puzzle: Puzzle,
  options: DistinguishOptions = {},
): Distinction | undefined {
  checkPuzzle(puzzle)
  checkOptions<DistinguishOptions>(options, DISTINGUISH_CHECKS)
  return runNow(options, (watch) => distinguishTask(puzzle, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * await distinguishingCellsAsync(puzzle, { signal }) // one solution has nothing to tell apart: → undefined
 */
export async function distinguishingCellsAsync(
  puzzle: Puzzle,
  options: DistinguishOptions = {},
): Promise<Distinction | undefined> {
  checkPuzzle(puzzle)
  checkOptions<DistinguishOptions>(options, DISTINGUISH_CHECKS)
  return runInSlices(options, (watch) => distinguishTask(puzzle, options, watch))
}

function* distinguishTask(
  puzzle: Puzzle,
  options: Omit<DistinguishOptions, keyof Limits>,
  watch: Watch,
): Task<Distinction | undefined> {
  const limit = options.limit ?? DEFAULT_LIMIT
  const budget = new NodeBudget(options, watch)
  const search = borrowSearch(puzzle.geometry)
  try {
    const solutions: number[][] = []
    search.start(puzzle.givens)
    let found: boolean | undefined
    while (solutions.length < limit) {
      found = yield* budget.next(search)
      if (!found) break
      const solution = new Array<number>(puzzle.geometry.cellCount)
      search.readSolution(solution)
      solutions.push(solution)
    }
    const complete = found === false
    if (solutions.length < 2 && complete) return undefined
    const extra =
      solutions.length < 2
        ? { givens: undefined, fewest: false }
        : yield* complete ? fewestGivens(solutions, budget) : someGivens(puzzle, solutions, search, budget)
    const swaps = yield* swapsBetween(solutions, budget)
    return {
      solutions: solutions.length,
      complete,
      ...(budget.stopped && { stopped: budget.stopped }),
      cells: openCells(solutions),
      swaps,
      extraGivens: extra.givens,
      fewest: extra.fewest,
    }
  } finally {
    giveBackSearch(puzzle.geometry, search)
  }
}

function openCells(solutions: readonly (readonly number[])[]): OpenCell[] {
  const [first = []] = solutions
  return first.flatMap((_, cell) => {
    const digits = [...new Set(solutions.map((solution) => solution[cell]!))].sort((a, b) => a - b)
    return digits.length > 1 ? [{ cell, digits }] : []
  })
}

function differences(a: readonly number[], b: readonly number[]): number[] {
  const cells: number[] = []
  for (let cell = 0; cell < a.length; cell++) if (a[cell] !== b[cell]) cells.push(cell)
  return cells
}

interface DifferingPair {
  readonly cells: readonly number[]
  readonly a: readonly number[]
  readonly b: readonly number[]
}

function* swapsBetween(solutions: readonly (readonly number[])[], budget: NodeBudget): Task<DigitSwap[]> {
  const pairs: DifferingPair[] = []
  const seen = new Set<string>()
  for (let i = 0; i < solutions.length; i++) {
    for (let j = i + 1; j < solutions.length; j++) {
      const look = budget.look()
      if (look === 'pause') yield
      else if (look === 'over') return []
      const [a, b] = [solutions[i]!, solutions[j]!]
      const cells = differences(a, b)
      // the same swap the other way round is the same swap
      const [low, high] = a[cells[0]!]! < b[cells[0]!]! ? [a, b] : [b, a]
      const key = cells.map((cell) => `${cell}:${low[cell]}>${high[cell]}`).join()
      if (seen.has(key)) continue
      seen.add(key)
      pairs.push({ cells, a: low, b: high })
    }
  }
  pairs.sort((p, q) => p.cells.length - q.cells.length)
  const minimal: { cells: Set<number>; swap: DigitSwap }[] = []
  for (const { cells, a, b } of pairs) {
    const look = budget.look()
    if (look === 'pause') yield
    else if (look === 'over') return []
    const holdsSmaller = minimal.some(
      (known) => known.cells.size < cells.length && [...known.cells].every((cell) => a[cell] !== b[cell]),
    )
    if (holdsSmaller) continue
    minimal.push({
      cells: new Set(cells),
      swap: { cells: cells.map((cell) => ({ cell, from: a[cell]!, to: b[cell]! })) },
    })
  }
  return minimal.map(({ swap }) => swap)
}

interface ExtraGivens {
  givens: Candidate[] | undefined
  fewest: boolean
}

/**
 * All solutions known: for a solution to be the only one left, the cells given must differ from every other solution
 * somewhere. The smallest such set over all solutions, smallest size first.
 */
function* fewestGivens(solutions: readonly (readonly number[])[], budget: NodeBudget): Task<ExtraGivens> {
  const allowance = new BranchAllowance(BRANCHES, budget)
  const cellCount = solutions[0]!.length
  for (let size = 1; size <= cellCount; size++) {
    for (const target of solutions) {
      // made anew each time: kept for all solutions, these lists would fill the memory
      const toHit = solutions.filter((other) => other !== target).map((other) => differences(target, other))
      const cells = yield* hittingSet(toHit, cellCount, size, allowance)
      if (cells) {
        return {
          givens: cells.sort((a, b) => a - b).map((cell) => ({ cell, digit: target[cell]! })),
          fewest: true,
        }
      }
      if (allowance.left <= 0) return { givens: pickGreedily(solutions), fewest: false }
    }
  }
  return { givens: undefined, fewest: false }
}

/** Givens that single out the first solution, each the one that rules out most of the others. */
function pickGreedily(solutions: readonly (readonly number[])[]): Candidate[] {
  const target = solutions[0]!
  const givens: Candidate[] = []
  for (let rest = solutions.slice(1); rest.length > 0; ) {
    const cell = cellAgainstMost(target, rest)
    givens.push({ cell, digit: target[cell]! })
    rest = rest.filter((other) => other[cell] === target[cell])
  }
  return givens.sort((a, b) => a.cell - b.cell)
}

function cellAgainstMost(target: readonly number[], others: readonly (readonly number[])[]): number {
  let best = 0
  let most = -1
  for (let cell = 0; cell < target.length; cell++) {
    let against = 0
    for (const other of others) if (other[cell] !== target[cell]) against++
    if (against > most) {
      most = against
      best = cell
    }
  }
  return best
}

/** More solutions than were looked at: single out the first one, asking after each given what else is left. */
function* someGivens(
  puzzle: Puzzle,
  solutions: readonly (readonly number[])[],
  search: SolutionSearch,
  budget: NodeBudget,
): Task<ExtraGivens> {
  const target = solutions[0]!
  const givens = Array.from(puzzle.givens)
  const extra: Candidate[] = []
  let rest = solutions.slice(1)
  for (;;) {
    const cell = cellAgainstMost(target, rest)
    givens[cell] = target[cell]!
    extra.push({ cell, digit: target[cell]! })
    rest = rest.filter((other) => other[cell] === target[cell])
    if (rest.length > 0) continue
    search.start(givens)
    for (let i = 0; i < 50; i++) {
      const found = yield* budget.next(search)
      if (found === undefined) return { givens: undefined, fewest: false }
      if (!found) break
      const other = new Array<number>(target.length)
      search.readSolution(other)
      if (differences(target, other).length > 0) rest.push(other)
    }
    if (rest.length === 0) return { givens: extra.sort((a, b) => a.cell - b.cell), fewest: false }
  }
}
