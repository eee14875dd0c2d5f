import type { Puzzle } from '../grid/puzzle.js'
import type { Task, Watch } from '../limits.js'
import type { CountBudget, StopReason } from './budget.js'
import { solutionsTask } from './count-solutions.js'

/** Has a puzzle one solution, as a sound one has? */
export type Soundness =
  | { readonly verdict: 'unique'; readonly solution: readonly number[] }
  | { readonly verdict: 'many' }
  | { readonly verdict: 'none' }
  /** Counting was given up before that was known. */
  | { readonly verdict: 'undecided'; readonly stopped: StopReason }

/** Counts up to two solutions, within the usual budget unless it has another. */
export function* soundnessTask(
  puzzle: Puzzle,
  watch: Watch,
  { nodeBudget }: Pick<CountBudget, 'nodeBudget'> = {},
): Task<Soundness> {
  const options = nodeBudget === undefined ? { limit: 2 } : { limit: 2, nodeBudget }
  const { solutions, stopped } = yield* solutionsTask(puzzle, options, watch)
  if (solutions.length > 1) return { verdict: 'many' }
  if (stopped && stopped !== 'limit') return { verdict: 'undecided', stopped }
  const [solution] = solutions
  return solution ? { verdict: 'unique', solution } : { verdict: 'none' }
}

/** The same for callers that have nothing to say when time is over: it throws then. */
export function* soundnessInTime(
  puzzle: Puzzle,
  watch: Watch,
  budget?: Pick<CountBudget, 'nodeBudget'>,
): Task<Soundness> {
  const answer = yield* soundnessTask(puzzle, watch, budget)
  if (answer.verdict === 'undecided' && answer.stopped === 'time-limit') throw watch.timeIsOver()
  return answer
}
