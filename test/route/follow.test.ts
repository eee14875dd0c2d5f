import { describe, expect, it } from 'vitest'
import { hint, type StepHint } from '../../src/explain/hint.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { openCount } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { digitsOf } from '../../src/grid/digits.js'
import type { Puzzle } from '../../src/grid/puzzle.js'
import { seededRandom } from '../../src/grid/random.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { solve } from '../../src/logic/solving/solve.js'
import { findRoute, type RouteLine } from '../../src/route/find-route.js'
import { hear, strays } from '../support/heard.js'
import { PUZZLES } from '../support/puzzles.js'
import { randomPuzzle } from '../support/random-boards.js'
import { untruths } from '../support/untruths.js'

const SEEDS = Array.from({ length: 16 }, (_, i) => 5200 + i)

function routeThrough(puzzle: Puzzle): RouteLine {
  const route = findRoute(puzzle)
  if (route.status !== 'solved') throw new Error('the puzzle has a route')
  return route
}

function hinted(board: Board, route: RouteLine): StepHint<'argument'> {
  const answer = hint(board, { route, depth: 'argument' })
  if (answer.kind !== 'step') throw new Error(`no step but ${answer.kind}`)
  return answer
}

/** A correct entry that nobody asked for: a digit placed or a candidate struck out. */
function ownEntry(board: Board, solution: readonly number[], random: () => number): Board {
  const open = [...board.digits.keys()].filter((cell) => board.digits[cell] === 0)
  const cell = open[Math.floor(random() * open.length)]!
  const wrong = digitsOf(board.candidates[cell]!).filter((digit) => digit !== solution[cell])
  if (wrong.length === 0 || random() < 0.4)
    return applyTo(board, { placements: [{ cell, digit: solution[cell]! }], removals: [] })
  const digit = wrong[Math.floor(random() * wrong.length)]!
  return applyTo(board, { placements: [], removals: [{ cell, digit }] })
}

describe('hints along a route', () => {
  it('are its steps, one after another', () => {
    for (const puzzle of [PUZZLES.xyWing, PUZZLES.chain, PUZZLES.xWing]) {
      const route = routeThrough(puzzle)
      let board = newBoard(puzzle)
      for (const [index, step] of route.steps.entries()) {
        const { step: next, isKey } = hinted(board, route)
        const { technique, placements, removals, pattern } = step
        expect(next).toMatchObject({ technique, placements, removals, pattern })
        expect(isKey).toBe(route.keys.includes(index))
        board = applyTo(board, next)
      }
      expect(hint(board, { route }).kind).toBe('solved')
    }
  })

  it('stay the same, whatever else is entered in places that they do not need', () => {
    const random = seededRandom(3)
    let same = 0
    for (const seed of SEEDS) {
      const puzzle = randomPuzzle(seed)
      const solution = solve(puzzle, { preset: 'branch' }).board.digits
      const route = routeThrough(puzzle)
      let board = newBoard(puzzle)
      while (openCount(board) > 0) {
        const { step } = hinted(board, route)
        expect(verifyStep(board, step)).toEqual({ proven: true })
        expect(untruths(step, solution)).toEqual([])
        expect(strays(step, hear(step, ENGLISH))).toEqual({ strange: [], unnamed: [] })
        const after = ownEntry(board, solution, random)
        if (openCount(after) === 0) break
        const { step: next } = hinted(after, route)
        const isIntact =
          [...step.placements, ...step.removals].every(
            ({ cell, digit }) => (after.candidates[cell]! >> (digit - 1)) & 1,
          ) &&
          step.premises.every((premise) =>
            premise.kind === 'cell'
              ? after.candidates[premise.cell] === board.candidates[premise.cell]
              : premise.cells.every((cell) => (after.candidates[cell]! >> (premise.digit - 1)) & 1),
          )
        if (isIntact) {
          same++
          expect(next.placements).toEqual(step.placements)
          expect(next.removals).toEqual(step.removals)
        }
        board = applyTo(after, next)
      }
    }
    expect(same).toBeGreaterThan(100)
  })

  it('say which step is a key, from the method on', () => {
    const route = routeThrough(PUZZLES.xyWing)
    const board = route.steps[route.keys[0]!]!.before
    const { says } = hint(board, { route, depth: 'method' })
    expect(says).toContain('It is a key step: it opens what everyday techniques cannot.')
    expect(hint(board, { route }).says).toHaveLength(1)
  })

  it('are those of any board once nothing of the route is left to show', () => {
    expect(hint(PUZZLES.xyWing, { route: { steps: [], keys: [] } })).toEqual(hint(PUZZLES.xyWing))
  })

  it('are refused along a route of another puzzle', () => {
    const route = routeThrough(PUZZLES.chain)
    expect(() => hint(PUZZLES.xyWing, { route })).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(() => hint(PUZZLES.xyWing, { route: { status: 'stuck', tried: 0 } as never })).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
  })
})
