import { describe, expect, it } from 'vitest'
import { applyTo } from '../../../src/grid/board/edit.js'
import { newBoard } from '../../../src/grid/board/make.js'
import type { Board } from '../../../src/grid/board.js'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { seededRandom } from '../../../src/grid/random.js'
import { runNow, Watch } from '../../../src/limits.js'
import { CATALOGUE, techniquesUpTo } from '../../../src/logic/catalogue.js'
import { Context } from '../../../src/logic/facts/context.js'
import { type Facts, factsOf, forkWith, moveFacts } from '../../../src/logic/facts/facts.js'
import { findSteps, findStepsAsync, findTask } from '../../../src/logic/solving/find.js'
import { runToRestTask, solve } from '../../../src/logic/solving/solve.js'
import { identityOf } from '../../../src/logic/steps/identity.js'
import { freshFacts } from '../../support/facts.js'
import { randomPuzzle, stepsOn, stuckBoards } from '../../support/random-boards.js'

/** Each takes long to find all instances. */
const SLOW = /forcing|nishio|multi-sector|jellyfish/
const QUICK = CATALOGUE.filter(({ name }) => !SLOW.test(name))

const seenOn = (facts: Facts): string[] =>
  QUICK.flatMap((technique) =>
    stepsOn(facts, technique, { oneSolution: true }).map(
      (step) => `${technique.name} ${JSON.stringify(step)}`,
    ),
  )

/** A walk along the path of a puzzle in a context of its own, one board at a time. */
class Walk {
  private readonly context = new Context()
  private readonly steps
  private board: Board
  private next = 0
  readonly seen: string[][] = []

  constructor(seed: number, order: 6 | 9) {
    const puzzle = randomPuzzle(seed, order === 9 ? STANDARD : boxedGeometry(2, 3))
    this.steps = solve(puzzle, { preset: 'chain' }).steps.filter(
      ({ level }, i) => level !== 'scan' || i % 6 === 0,
    )
    this.board = newBoard(puzzle)
  }

  get isOver(): boolean {
    return this.next > this.steps.length
  }

  go(): void {
    this.seen.push(seenOn(factsOf(this.context, this.board)))
    const step = this.steps[this.next++]
    if (!step) return
    const after = applyTo(this.board, step)
    moveFacts(this.context, this.board, after, step)
    this.board = after
  }
}

describe('contexts', () => {
  it.each([1, 2, 3])(
    'used by turns see what each sees alone (seed %i)',
    (seed) => {
      const walks = () => [new Walk(5500 + seed, 9), new Walk(5600 + seed, 9), new Walk(5700 + seed, 6)]
      const alone = walks().map((walk) => {
        while (!walk.isOver) walk.go()
        return walk.seen
      })
      const random = seededRandom(seed)
      const together = walks()
      for (let left = together; left.length > 0; left = left.filter((walk) => !walk.isOver))
        left[Math.floor(random() * left.length)]!.go()
      expect(together.map(({ seen }) => seen)).toEqual(alone)
      expect(alone.flat(2).length).toBeGreaterThan(100)
    },
    120_000,
  )

  it('give way to each other in the middle of a technique', () => {
    const boards = stuckBoards(3, techniquesUpTo('mark'), { seed: 5800 }).map(({ board }) => board)
    const expected = boards.map((board) => findSteps(board).map(identityOf))
    const tasks = boards.map((board) => findTask(board, { preset: 'chain' }, new Watch({}, 0)))
    const found: string[][] = []
    let pauses = 0
    for (let left = [...tasks.keys()]; left.length > 0; ) {
      for (const i of left) {
        const { done, value } = tasks[i]!.next()
        if (!done) pauses++
        else {
          found[i] = value.map(identityOf)
          left = left.filter((other) => other !== i)
        }
      }
    }
    expect(found).toEqual(expected)
    expect(pauses).toBeGreaterThan(100)
  }, 60_000)

  it('serve calls that run at the same time', async () => {
    const boards = stuckBoards(3, techniquesUpTo('mark'), { seed: 5900 }).map(({ board }) => board)
    const together = await Promise.all(boards.map((board) => findStepsAsync(board)))
    expect(together).toEqual(boards.map((board) => findSteps(board)))
  }, 60_000)
})

describe('a fork', () => {
  it('goes on as a fresh context would, and leaves what it comes from as it was', () => {
    let forks = 0
    const everyday = techniquesUpTo('pattern').map(({ name }) => name)
    for (const { board } of stuckBoards(4, techniquesUpTo('mark'), { seed: 6000 })) {
      const context = new Context()
      const before = seenOn(factsOf(context, board))
      for (const step of findSteps(board).slice(0, 12)) {
        const fork = forkWith(context, board, applyTo(board, step), step)
        expect(seenOn(factsOf(fork.context, fork.board))).toEqual(seenOn(freshFacts(fork.board)))
        // and from there along the path, in forks of the fork as well
        const second = findSteps(fork.board, { limit: 1 })[0]
        if (second) {
          const further = forkWith(fork.context, fork.board, applyTo(fork.board, second), second)
          expect(seenOn(factsOf(further.context, further.board))).toEqual(seenOn(freshFacts(further.board)))
        }
        const choice = { techniques: everyday, oneSolution: false }
        const rest = runNow({}, (watch) => runToRestTask(fork.board, choice, watch, fork.context))
        expect(rest).toEqual(runNow({}, (watch) => runToRestTask(fork.board, choice, watch)))
        forks++
      }
      expect(seenOn(factsOf(context, board))).toEqual(before)
    }
    expect(forks).toBeGreaterThan(20)
  }, 120_000)
})
