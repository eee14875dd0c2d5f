import { describe, expect, it } from 'vitest'
import { solutionsOf } from '../../src/count/count-solutions.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import type { Puzzle } from '../../src/grid/puzzle.js'
import { runNow } from '../../src/limits.js'
import { techniquesUpTo } from '../../src/logic/catalogue.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { Step } from '../../src/logic/steps/step.js'
import { TECHNIQUE_NAMES, type TechniqueName } from '../../src/logic/technique-names.js'
import { findRoute, findRouteAsync, type Route, type RouteOptions } from '../../src/route/find-route.js'
import { fills } from '../../src/route/replay.js'
import { isSingle, WORKADAY_TECHNIQUES } from '../../src/route/workaday.js'
import { PUZZLES } from '../support/puzzles.js'
import { randomPuzzle } from '../support/random-boards.js'

type Solved = Extract<Route, { status: 'solved' }>

const workaday: ReadonlySet<string> = new Set(WORKADAY_TECHNIQUES)

function solvedRoute(source: Puzzle | Board, options: RouteOptions = {}): Solved {
  const route = findRoute(source, options)
  if (route.status !== 'solved') throw new Error(`No route was found, ${route.tried} openings tried.`)
  return route
}

/** Random puzzles that the workaday techniques do not finish. */
const HARD = [3, 5, 8, 11, 14]
  .map((seed) => randomPuzzle(seed))
  .filter((puzzle) => solve(puzzle, { techniques: WORKADAY_TECHNIQUES }).status !== 'solved')

/** Routes by the default aim, of puzzles easy and hard. */
const ROUTES = [...Object.values(PUZZLES), ...HARD].map((puzzle) => ({ puzzle, route: solvedRoute(puzzle) }))
const HARD_ROUTES = ROUTES.slice(-HARD.length)

describe('findRoute', () => {
  it('has hard puzzles to try', () => {
    expect(HARD.length).toBeGreaterThanOrEqual(3)
  })

  it('leads from the puzzle to its solution by proven steps', () => {
    for (const { puzzle, route } of ROUTES) {
      const { steps } = route
      let board = newBoard(puzzle)
      for (const step of steps) {
        expect(step.before.digits).toEqual(board.digits)
        expect(step.before.candidates).toEqual(board.candidates)
        expect(verifyStep(board, step)).toEqual({ proven: true })
        board = applyTo(board, step)
      }
      expect(board.digits).toEqual(solutionsOf(puzzle, { limit: 1 }).solutions[0])
    }
  })

  it('has no step beyond singles that can be left out', () => {
    for (const { puzzle, route } of ROUTES) {
      const start = newBoard(puzzle)
      const beyond = route.steps.filter((step) => !isSingle(step))
      const doFill = (steps: readonly Step[]) => runNow({}, (watch) => fills(start, steps, watch))
      expect(doFill(beyond)).toBe(true)
      for (const left of beyond) expect(doFill(beyond.filter((step) => step !== left))).toBe(false)
    }
  })

  it('shows a key only where its technique is there to be seen, and no easier one concludes the same', () => {
    const teachable: RouteOptions = { techniques: ['xy-wing', 'w-wing', 'x-chain', 'xy-chain'], maxLinks: 9 }
    const seeds = [19, 28, 49, 78, 81, 88, 91, 95, 110, 137, 262, 325, 355]
    const routes = seeds.flatMap((seed) => {
      const route = findRoute(randomPuzzle(seed), teachable)
      return route.status === 'solved' ? [route] : []
    })
    expect(routes.length).toBeGreaterThan(5)
    for (const { steps, keys } of [...routes, ...HARD_ROUTES.map(({ route }) => route)])
      for (const key of keys) {
        const { technique, before, removals, placements } = steps[key]!
        const concludesIt = (name: TechniqueName) =>
          findSteps(before, { techniques: [name] }).some(
            (step) =>
              placements.every(({ cell }) => step.placements.some((other) => other.cell === cell)) &&
              removals.every((gone) =>
                step.removals.some(({ cell, digit }) => cell === gone.cell && digit === gone.digit),
              ),
          )
        expect(concludesIt(technique)).toBe(true)
        for (const name of WORKADAY_TECHNIQUES) expect(concludesIt(name)).toBe(false)
      }
  })

  it('shows before a key only what the key rests on', () => {
    for (const { route } of HARD_ROUTES) {
      const { steps, chapters, keys } = route
      expect(chapters.flatMap(({ key }) => key ?? [])).toEqual(keys)
      expect(chapters.map(({ from }) => from)).toEqual([0, ...chapters.slice(0, -1).map(({ to }) => to)])
      expect(chapters.at(-1)!.to).toBe(steps.length)
      for (const { from, key } of chapters) {
        if (key === undefined) continue
        const needed = new Set<number>()
        const visit = (index: number) => {
          for (const earlier of steps[index]!.restsOn) {
            needed.add(earlier)
            visit(earlier)
          }
        }
        visit(key)
        for (let index = from; index < key; index++) expect(needed).toContain(index)
      }
    }
  })

  it('finds a single key wherever trying every instance of every technique finds one', () => {
    for (const { puzzle, route } of HARD_ROUTES) {
      const { board } = solve(puzzle, { techniques: WORKADAY_TECHNIQUES })
      const opens = techniquesUpTo('chain').some(({ name }) =>
        findSteps(board, { techniques: [name] }).some(
          (step) => solve(applyTo(board, step), { techniques: WORKADAY_TECHNIQUES }).status === 'solved',
        ),
      )
      const { keys, best } = route
      expect(keys.length === 1).toBe(opens)
      if (keys.length <= 2) expect(best).toBe('proven')
    }
  })

  it('uses no key where everyday work is enough', () => {
    for (const puzzle of [PUZZLES.singles, PUZZLES.pointing, PUZZLES.nakedPair]) {
      const route = solvedRoute(puzzle)
      expect(route).toMatchObject({ keys: [], best: 'proven', tried: 0 })
      expect(route.steps.every(({ technique }) => workaday.has(technique))).toBe(true)
    }
  })

  it('takes the easiest technique that opens the puzzle with one key', () => {
    for (const { puzzle, route } of HARD_ROUTES) {
      const { keys, steps } = route
      if (keys.length !== 1) continue
      const place = TECHNIQUE_NAMES.indexOf(steps[keys[0]!]!.technique)
      const easier = TECHNIQUE_NAMES.slice(0, place).filter((name) => !workaday.has(name))
      const without = findRoute(puzzle, { techniques: easier })
      if (without.status === 'solved') expect(without.keys.length).toBeGreaterThan(1)
    }
  })

  it('follows its aim', () => {
    for (const puzzle of HARD.slice(0, 3)) {
      const routes = {
        one: solvedRoute(puzzle),
        few: solvedRoute(puzzle, { aim: 'fewest-hard' }),
        easy: solvedRoute(puzzle, { aim: 'easiest' }),
        short: solvedRoute(puzzle, { aim: 'shortest' }),
      }
      const beyondSingles = ({ steps }: Solved) => steps.filter((step) => !isSingle(step)).length
      const hardest = ({ steps, keys }: Solved) =>
        Math.max(-1, ...keys.map((key) => TECHNIQUE_NAMES.indexOf(steps[key]!.technique)))
      expect(routes.few.keys.length).toBeLessThanOrEqual(routes.one.keys.length)
      expect(beyondSingles(routes.short)).toBeLessThanOrEqual(beyondSingles(routes.few))
      expect(hardest(routes.easy)).toBeLessThanOrEqual(hardest(routes.one))
      // no shorter list of techniques solves it
      const names = TECHNIQUE_NAMES.slice(0, hardest(routes.easy))
      expect(solve(puzzle, { techniques: names }).status).not.toBe('solved')
    }
  })

  it('shows what must be shown, avoids what must be avoided, and says so where it cannot', () => {
    let shown = 0
    for (const puzzle of HARD) {
      const route = findRoute(puzzle, { show: ['xy-chain'] })
      if (route.status === 'solved') {
        shown++
        expect(route.keys.some((key) => route.steps[key]!.technique === 'xy-chain')).toBe(true)
      }
      const { steps, keys } = solvedRoute(puzzle)
      const avoided = steps[keys[0]!]!.technique
      const other = findRoute(puzzle, { avoid: [avoided] })
      if (other.status === 'solved')
        expect(other.steps.map(({ technique }) => technique)).not.toContain(avoided)
    }
    expect(shown).toBeGreaterThan(0)
    expect(findRoute(HARD[0]!, { techniques: ['x-wing'], show: ['jellyfish'] }).status).toBe('stuck')
  })

  it('returns other routes with other keys', () => {
    const { keys, steps, alternatives } = solvedRoute(HARD[0]!, { alternatives: 2 })
    const conclusions = [{ keys, steps }, ...alternatives].map((line) =>
      JSON.stringify(line.keys.map((key) => [line.steps[key]!.placements, line.steps[key]!.removals])),
    )
    expect(conclusions.length).toBeGreaterThan(1)
    expect(new Set(conclusions).size).toBe(conclusions.length)
  })

  it('starts from a half-solved board and works on other grids', () => {
    const half = solve(HARD[0]!, { preset: 'mark' }).board
    expect(solvedRoute(half).steps[0]!.before.digits).toEqual(half.digits)
    const small = randomPuzzle(4, boxedGeometry(2, 3))
    expect(solvedRoute(small).status).toBe('solved')
  })

  it('is stuck where there is no solution, or too few techniques', () => {
    expect(findRoute(HARD[0]!, { techniques: [] }).status).toBe('stuck')
  })

  it('ends with what it has when the time is over', () => {
    const route = findRoute(HARD[0]!, { timeLimit: 0 })
    expect(route.stopped).toBe('time-limit')
  })

  it('gives the same as a promise, and stops on a signal', async () => {
    const [puzzle] = HARD
    expect(await findRouteAsync(puzzle!)).toEqual(findRoute(puzzle!))
    const controller = new AbortController()
    const promise = findRouteAsync(puzzle!, { aim: 'shortest', signal: controller.signal })
    setTimeout(() => controller.abort(), 1)
    await expect(promise).rejects.toMatchObject({ code: 'aborted' })
  })
})
