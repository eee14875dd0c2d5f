import { count, type OptionChecks } from '../check-arguments.js'
import { InputError, StoppedError } from '../errors.js'
import { LIMIT_CHECKS, type Limits, type Look, type StoppedBy, type Task, type Watch } from '../limits.js'
import type { SolutionSearch } from './search.js'

/** What every question of this room may cost. */
export interface CountBudget extends Limits {
  /**
   * Most nodes to visit (a node: one position of the search tree). A printed 9×9 puzzle takes 1 to a few hundred; the
   * default, DEFAULT_NODE_BUDGET, is a matter of seconds and stops questions that would never end.
   */
  readonly nodeBudget?: number
}

/** For the public entries that take a budget. */
export const COUNT_CHECKS: OptionChecks<CountBudget> = { ...LIMIT_CHECKS, nodeBudget: count(0) }

/** Search nodes that a question takes at most when its `nodeBudget` is left out. */
export const DEFAULT_NODE_BUDGET = 1_000_000

/** Why an answer is not complete. */
export type StopReason = 'budget-spent' | StoppedBy

/** Nodes between two readings of the clock: at most some milliseconds, on the largest grids. */
const STRETCH = 32

/** The budget of one question, shared by all the searches it takes, with the question's clock. */
export class NodeBudget {
  /** Why nothing more may be spent. */
  stopped: StopReason | undefined
  readonly watch: Watch
  private left: number
  private untilReading: number
  private readonly stretch: number

  constructor({ nodeBudget = DEFAULT_NODE_BUDGET }: Pick<CountBudget, 'nodeBudget'>, watch: Watch) {
    if (!(nodeBudget >= 0))
      throw new InputError('argument', `nodeBudget must be a number from 0, not ${nodeBudget}`)
    this.left = nodeBudget
    this.watch = watch
    this.stretch = watch.isTimed ? STRETCH : Number.POSITIVE_INFINITY
    this.untilReading = this.stretch
  }

  /**
   * `next` of a search, paid from the budget: true at a solution, false at the end; undefined when stopped, or when
   * this one step took more than `atMost` nodes.
   */
  *next(search: SolutionSearch, atMost = Number.POSITIVE_INFINITY): Task<boolean | undefined> {
    const last = search.nodes + atMost
    for (;;) {
      const answer = this.advance(search, last - search.nodes)
      if (answer !== 'pause') return answer
      yield
    }
  }

  /** A budget with part of what is left here, for a side question. */
  part(nodes: number): NodeBudget {
    return new NodeBudget({ nodeBudget: Math.min(nodes, this.left) }, this.watch)
  }

  /** For answers that cannot be had in part. */
  stoppedError(unknown: string): StoppedError {
    return this.stopped === 'time-limit' ? this.watch.timeIsOver() : budgetSpent(unknown)
  }

  /** Nodes that may still be visited. */
  get nodesLeft(): number {
    return this.left
  }

  /** Asks the clock in the middle of work that visits no nodes: is it to be given up, or to pause? */
  look(): Look {
    const look = this.watch.look()
    if (look === 'over') this.stopped = 'time-limit'
    return look
  }

  /** `next` for loops that ask many times over: `pause` means yield and ask again. */
  advance(search: SolutionSearch, atMost = Number.POSITIVE_INFINITY): boolean | undefined | 'pause' {
    for (;;) {
      if (this.untilReading <= 0) {
        this.untilReading = this.stretch
        const look = this.watch.read()
        if (look === 'pause') return 'pause'
        if (look === 'over') {
          this.stopped = 'time-limit'
          return undefined
        }
      }
      const before = search.nodes
      const event = search.next(Math.min(this.untilReading, this.left, atMost))
      const spent = search.nodes - before
      this.left -= spent
      this.untilReading -= spent
      atMost -= spent
      if (event !== 'out-of-nodes') return event === 'solution'
      if (this.left <= 0) {
        this.stopped = 'budget-spent'
        return undefined
      }
      if (atMost <= 0) return undefined
    }
  }
}

export function budgetSpent(unknown: string): StoppedError {
  return new StoppedError(
    'budget-spent',
    `The node budget was spent before it was known ${unknown}; allow more nodes or add givens.`,
  )
}
