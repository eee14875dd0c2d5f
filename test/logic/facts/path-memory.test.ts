import { describe, expect, it } from 'vitest'
import { applyTo } from '../../../src/grid/board/edit.js'
import { boardFromMarks, newBoard } from '../../../src/grid/board/make.js'
import type { Board } from '../../../src/grid/board.js'
import { CATALOGUE } from '../../../src/logic/catalogue.js'
import { Context } from '../../../src/logic/facts/context.js'
import { type Facts, factsOf, moveFacts } from '../../../src/logic/facts/facts.js'
import { MissCache } from '../../../src/logic/facts/path-memory.js'
import { solve } from '../../../src/logic/solving/solve.js'
import { identityOf } from '../../../src/logic/steps/identity.js'
import { freshFacts } from '../../support/facts.js'
import { randomPuzzle, stepsOn } from '../../support/random-boards.js'
import { xyWingStep } from '../../support/steps.js'

/** Each takes long to find all instances; none of them keeps anything from one board to the next. */
const SLOW = /forcing|nishio|multi-sector/

describe('what is kept along a path', () => {
  const techniques = CATALOGUE.filter(({ name }) => !SLOW.test(name))
  const found = (facts: Facts): string[] =>
    techniques.flatMap((technique) =>
      stepsOn(facts, technique, { oneSolution: true }).map((step) => `${technique.name} ${identityOf(step)}`),
    )

  it.each([5101, 5102, 5103, 5104])(
    'hides nothing and makes nothing up: every board of a path has the steps of a fresh look (seed %i)',
    (seed) => {
      const puzzle = randomPuzzle(seed)
      const { steps } = solve(puzzle, { preset: 'chain' })
      let board = newBoard(puzzle)
      const context = new Context()
      const along: { board: Board; found: string[] }[] = []
      for (const [index, step] of steps.entries()) {
        // boards before a single differ from the next one by little: every third is enough
        if (step.level !== 'scan' || index % 3 === 0)
          along.push({ board, found: found(factsOf(context, board)) })
        const after = applyTo(board, step)
        moveFacts(context, board, after, step)
        expect(factsOf(context, after).board).toBe(after)
        board = after
      }
      expect(along.length).toBeGreaterThan(10)
      for (const { board: then, found: remembered } of along) {
        const fresh = boardFromMarks(puzzle, then.digits, then.candidates)
        expect(remembered.sort()).toEqual(found(freshFacts(fresh)).sort())
      }
    },
    60_000,
  )
})

describe('places where nothing was found', () => {
  const step = xyWingStep()

  it('are passed over until their stamp changes', () => {
    const misses = new MissCache()
    let looks = 0
    const look = () => {
      looks++
      return false
    }
    for (const stamp of [1, 1, 2, 2, 1]) expect(misses.look(7, stamp, () => false, look)).toBe(false)
    expect(looks).toBe(3)
  })

  it('are not those where something was found, reported or not', () => {
    const misses = new MissCache()
    const reported: unknown[] = []
    for (const stops of [true, false, false])
      misses.look(
        7,
        1,
        (one) => reported.push(one) > 0 && stops,
        (tell) => tell(step),
      )
    expect(reported).toEqual([step, step, step])
  })
})
