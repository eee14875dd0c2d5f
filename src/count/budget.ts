import type { SolutionSearch } from './search.js'

/** What every question of this room may cost. */
export interface CountBudget {
  /**
   * Most nodes to visit (a node: one position of the search tree). A printed 9×9 puzzle takes 1 to a few hundred; the
   * default, DEFAULT_NODE_BUDGET, is a matter of seconds and stops questions that would never end.
   */
  readonly nodeBudget?: number
  /** Looked at before the work and between its parts; the functions named `…Async` also let it fire in between. */
  readonly signal?: AbortSignal
}

export const DEFAULT_NODE_BUDGET = 1_000_000

/** Why an answer is not complete. */
export type StopReason = 'budget-spent' | 'aborted'

/** Nodes between two looks at the signal: some milliseconds. */
const SLICE = 4096

/** One purse for all the searches of a question. */
export class Purse {
  private left: number
  private readonly signal: AbortSignal | undefined
  /** Why nothing more may be spent. */
  stopped: StopReason | undefined

  constructor(budget: CountBudget) {
    const nodeBudget = budget.nodeBudget ?? DEFAULT_NODE_BUDGET
    if (!(nodeBudget >= 0)) throw new RangeError(`nodeBudget must be a number from 0, not ${nodeBudget}`)
    this.left = nodeBudget
    this.signal = budget.signal
  }

  /** `next` of a search, paid from the purse: true at a solution, false at the end; undefined when stopped. */
  next(search: SolutionSearch): boolean | undefined {
    for (;;) {
      if (this.signal?.aborted) {
        this.stopped = 'aborted'
        return undefined
      }
      const before = search.nodes
      const event = search.next(Math.min(SLICE, this.left))
      this.left -= search.nodes - before
      if (event !== 'out-of-nodes') return event === 'solution'
      if (this.left <= 0) {
        this.stopped = 'budget-spent'
        return undefined
      }
    }
  }
}
