import type { SolutionSearch } from './search.js'

/** What every question of this room may cost. */
export interface CountBudget {
  /**
   * Most nodes to visit (a node: one position of the search tree). A printed 9×9 puzzle takes 1 to a few hundred; the
   * default, DEFAULT_NODE_BUDGET, is a matter of seconds and stops questions that would never end.
   */
  readonly nodeBudget?: number
  /**
   * Ends the search. A plain call keeps the program to itself, so there the signal must have fired before;
   * `countSolutionsAsync` lets it fire meanwhile.
   */
  readonly signal?: AbortSignal
}

export const DEFAULT_NODE_BUDGET = 1_000_000

/** Why an answer is not complete. */
export type StopReason = 'budget-spent' | 'aborted'

/** Nodes between two looks at the signal: some milliseconds. */
const SLICE = 4096

/** One purse for all the searches of a question. */
export class Purse {
  /** Why nothing more may be spent. */
  stopped: StopReason | undefined
  private left: number
  private untilPause = SLICE
  private signal: AbortSignal | undefined

  constructor(budget: CountBudget) {
    const nodeBudget = budget.nodeBudget ?? DEFAULT_NODE_BUDGET
    if (!(nodeBudget >= 0)) throw new RangeError(`nodeBudget must be a number from 0, not ${nodeBudget}`)
    this.left = nodeBudget
    this.signal = budget.signal
  }

  /**
   * `next` of a search, paid from the purse: true at a solution, false at the end; undefined when stopped, or when this
   * one step took more than `atMost` nodes.
   */
  next(search: SolutionSearch, atMost = Number.POSITIVE_INFINITY): boolean | undefined {
    const last = search.nodes + atMost
    for (;;) {
      const answer = this.spend(search, last - search.nodes)
      if (answer !== 'pause') return answer
      if (search.nodes >= last) return undefined
    }
  }

  /** A purse with part of what is left here, for a side question. */
  part(nodes: number): Purse {
    const part = new Purse({ nodeBudget: Math.min(nodes, this.left) })
    part.signal = this.signal
    return part
  }

  /** Nodes that may still be visited. */
  get nodesLeft(): number {
    return this.left
  }

  /** The same, letting other work of the program run every few milliseconds: so a signal can fire meanwhile. */
  async nextAsync(search: SolutionSearch): Promise<boolean | undefined> {
    for (;;) {
      const answer = this.spend(search, Number.POSITIVE_INFINITY)
      if (answer !== 'pause') return answer
      await new Promise((resolve) => setTimeout(resolve, 0))
    }
  }

  private spend(search: SolutionSearch, atMost: number): boolean | undefined | 'pause' {
    if (this.signal?.aborted) {
      this.stopped = 'aborted'
      return undefined
    }
    if (this.untilPause <= 0) {
      this.untilPause = SLICE
      return 'pause'
    }
    const before = search.nodes
    const event = search.next(Math.min(this.untilPause, this.left, atMost))
    const spent = search.nodes - before
    this.left -= spent
    this.untilPause -= spent
    if (event !== 'out-of-nodes') return event === 'solution'
    if (this.left > 0) return 'pause'
    this.stopped = 'budget-spent'
    return undefined
  }
}
