import { describe, expect, it } from 'vitest'
import { DEFAULT_NODE_BUDGET, NodeBudget } from '../../src/count/budget.js'
import type { SearchEvent, SolutionSearch } from '../../src/count/search.js'
import type { Look, Watch } from '../../src/limits.js'

/** A search that meets a solution every so many nodes, and comes to its end after so many solutions. */
class SteadySearch implements SolutionSearch {
  nodes = 0
  private sinceSolution = 0
  private met = 0
  readonly asked: number[] = []

  constructor(
    private readonly apart: number,
    private readonly solutions = Number.POSITIVE_INFINITY,
  ) {}

  start(): void {}
  readSolution(): void {}
  next(nodes: number): SearchEvent {
    this.asked.push(nodes)
    const needed = this.apart - this.sinceSolution
    if (nodes < needed) {
      this.nodes += nodes
      this.sinceSolution += nodes
      return 'out-of-nodes'
    }
    this.nodes += needed
    this.sinceSolution = 0
    return this.met++ < this.solutions ? 'solution' : 'exhausted'
  }
}

/** A clock that says this in turn, and `go` from then on. */
function clock(...looks: readonly Look[]): Watch {
  const queue = [...looks]
  const say = () => queue.shift() ?? 'go'
  return { isTimed: true, read: say, look: say, timeIsOver: () => new Error('time') } as unknown as Watch
}
const UNTIMED = { isTimed: false } as Watch

/** What the task answers, with `pause` for each time it lets other work run. */
function run<T>(task: Generator<undefined, T, undefined>): (T | 'pause')[] {
  const events: (T | 'pause')[] = []
  for (;;) {
    const { done, value } = task.next()
    if (done) return [...events, value as T]
    events.push('pause')
  }
}

describe('a node budget', () => {
  it('pays for the nodes that a search visits', () => {
    const budget = new NodeBudget({ nodeBudget: 25 }, UNTIMED)
    const search = new SteadySearch(10)
    expect(run(budget.next(search))).toEqual([true])
    expect(budget.nodesLeft).toBe(15)
    expect(run(budget.next(search))).toEqual([true])
    expect(budget.stopped).toBeUndefined()
    expect(run(budget.next(search))).toEqual([undefined])
    expect({ left: budget.nodesLeft, stopped: budget.stopped }).toEqual({ left: 0, stopped: 'budget-spent' })
    expect(search.nodes).toBe(25)
    const error = budget.stoppedError('what')
    expect(error.code).toBe('budget-spent')
    expect(error.message).toMatch(/node budget.*what/)
  })

  it('says when the search is at its end', () => {
    const budget = new NodeBudget({}, UNTIMED)
    const search = new SteadySearch(3, 1)
    expect([run(budget.next(search)), run(budget.next(search))]).toEqual([[true], [false]])
    expect(budget.nodesLeft).toBe(DEFAULT_NODE_BUDGET - 6)
    expect(budget.stopped).toBeUndefined()
  })

  it('lets one step take at most so many nodes, which is no stop', () => {
    const budget = new NodeBudget({ nodeBudget: 100 }, UNTIMED)
    const search = new SteadySearch(10)
    expect(run(budget.next(search, 4))).toEqual([undefined])
    expect({ nodes: search.nodes, left: budget.nodesLeft, stopped: budget.stopped }).toEqual({
      nodes: 4,
      left: 96,
      stopped: undefined,
    })
    expect(run(budget.next(search, 5))).toEqual([undefined])
    expect(search.nodes).toBe(9)
    expect(run(budget.next(search, 6))).toEqual([true])
  })

  it('can be had in part', () => {
    const budget = new NodeBudget({ nodeBudget: 30 }, UNTIMED)
    expect(budget.part(20).nodesLeft).toBe(20)
    expect(budget.part(40).nodesLeft).toBe(30)
    expect(budget.part(20).watch).toBe(UNTIMED)
  })

  it('may be nothing or without end, but not less than nothing', () => {
    expect(run(new NodeBudget({ nodeBudget: 0 }, UNTIMED).next(new SteadySearch(1)))).toEqual([undefined])
    expect(new NodeBudget({ nodeBudget: Number.POSITIVE_INFINITY }, UNTIMED).nodesLeft).toBe(Infinity)
    for (const nodeBudget of [-1, Number.NaN])
      expect(() => new NodeBudget({ nodeBudget }, UNTIMED)).toThrow(
        expect.objectContaining({
          code: 'argument',
          message: expect.stringContaining('nodeBudget must be a number from 0'),
        }),
      )
  })
})

describe('its clock', () => {
  it('is read every 32 nodes, and only where there is a limit', () => {
    const timed = new SteadySearch(100)
    run(new NodeBudget({}, clock()).next(timed))
    expect(timed.asked).toEqual([32, 32, 32, 32])
    const untimed = new SteadySearch(100)
    run(new NodeBudget({}, UNTIMED).next(untimed))
    expect(untimed.asked).toEqual([DEFAULT_NODE_BUDGET])
  })

  it('lets other work run and goes on where it was', () => {
    const budget = new NodeBudget({}, clock('pause', 'go', 'pause'))
    const search = new SteadySearch(100)
    expect(run(budget.next(search))).toEqual(['pause', 'pause', true])
    expect(search.nodes).toBe(100)
  })

  it('ends the question when the time is over', () => {
    const budget = new NodeBudget({}, clock('go', 'over'))
    const search = new SteadySearch(100)
    expect(run(budget.next(search))).toEqual([undefined])
    expect({ nodes: search.nodes, stopped: budget.stopped }).toEqual({ nodes: 64, stopped: 'time-limit' })
    expect(budget.stoppedError('what').message).toBe('time')
  })

  it('ends work that visits no nodes, too', () => {
    const budget = new NodeBudget({}, clock('go', 'pause', 'over'))
    expect([budget.look(), budget.look()]).toEqual(['go', 'pause'])
    expect(budget.stopped).toBeUndefined()
    expect(budget.look()).toBe('over')
    expect(budget.stopped).toBe('time-limit')
  })
})
