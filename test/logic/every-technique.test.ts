import { describe, expect, it } from 'vitest'
import { solutionsOf } from '../../src/count/count-solutions.js'
import type { Board } from '../../src/grid/board.js'
import { digitsOf } from '../../src/grid/digits.js'
import { layoutOf } from '../../src/grid/layout.js'
import { seededRandom } from '../../src/grid/random.js'
import { CATALOGUE } from '../../src/logic/catalogue.js'
import { findPremiseFault } from '../../src/logic/proof/premise-holds.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import { identityOf } from '../../src/logic/steps/identity.js'
import type { FoundStep, Premise, Step } from '../../src/logic/steps/step.js'
import { formatStep, parseStep } from '../../src/logic/steps/step-json.js'
import { randomPuzzle } from '../support/random-boards.js'

/** Every board below comes from random puzzles of these seeds; a failure names the technique and the puzzle. */
const FIRST_SEED = 4100

/** Techniques whose search for every instance takes long: they are tried on fewer boards. */
const SLOW = /mutant|franken|forcing|nishio|finned-chain|with-sets|death-blossom|als-chain|multi-sector/

interface Sample {
  readonly board: Board
  readonly solution: readonly number[]
  readonly puzzle: string
}

/** Boards along the second half of the way through random puzzles, where more than singles is asked for. */
function boardsOf(puzzles: number, each: number, firstSeed: number): Sample[] {
  const samples: Sample[] = []
  for (let seed = firstSeed; seed < firstSeed + puzzles; seed++) {
    const puzzle = randomPuzzle(seed)
    const solution = solutionsOf(puzzle, { limit: 1 }).solutions[0]!
    const { steps } = solve(puzzle, { preset: 'pattern' })
    const late = steps.slice(Math.floor(steps.length / 2))
    const stride = Math.max(1, Math.floor(late.length / each))
    for (let i = 0; i < each && i * stride < late.length; i++)
      samples.push({ board: late[i * stride]!.before, solution, puzzle: puzzle.givens.join('') })
  }
  return samples
}

const agrees = (step: Step, solution: readonly number[]): boolean =>
  step.placements.every(({ cell, digit }) => solution[cell] === digit) &&
  step.removals.every(({ cell, digit }) => solution[cell] !== digit)

function dropsBreak(board: Board, step: FoundStep): boolean {
  return step.premises.every(
    (premise) =>
      !verifyStep(board, { ...step, premises: step.premises.filter((other) => other !== premise) }).proven,
  )
}

/** One premise moved to another cell or house, its list unchanged. */
function shifted(board: Board, premise: Premise, random: () => number): Premise {
  const { cellCount } = board.geometry
  const { houses } = layoutOf(board.geometry)
  return premise.kind === 'cell'
    ? { ...premise, cell: Math.floor(random() * cellCount) }
    : { ...premise, house: Math.floor(random() * houses.length) }
}

function check({ board, solution, puzzle }: Sample, step: FoundStep, random: () => number): void {
  const where = `${step.technique} on ${puzzle}`
  expect(verifyStep(board, step), where).toEqual({ proven: true })
  expect(agrees(step, solution), `${where}: agrees with the counted solution`).toBe(true)
  expect(dropsBreak(board, step), `${where}: every premise is needed`).toBe(true)
  expect(parseStep(formatStep(step)), where).toEqual(JSON.parse(formatStep(step)))
  // Forgeries: a removal that is false, and a premise moved elsewhere.
  const open = Array.from(solution.keys()).filter((cell) => board.candidates[cell])
  const victim = open[Math.floor(random() * open.length)]!
  const lie = { ...step, removals: [...step.removals, { cell: victim, digit: solution[victim]! }] }
  expect(verifyStep(board, lie).proven, `${where}: a false removal passes`).toBe(false)
  const index = Math.floor(random() * step.premises.length)
  const moved = shifted(board, step.premises[index]!, random)
  const premises = step.premises.map((premise, i) => (i === index ? moved : premise))
  // A moved premise may happen to hold; then it is a true one, and may even prove the step.
  if (findPremiseFault(board, [moved]))
    expect(verifyStep(board, { ...step, premises }).proven, `${where}: a moved premise passes`).toBe(false)
}

describe('every technique', () => {
  // confirmed.test.ts and `npm run bench:confirm` ask a SAT library; each board here has one solution, so that what
  // agrees with it is implied.
  it('is proven and agrees with the counted solution on 500 boards', () => {
    const random = seededRandom(1)
    const techniques = CATALOGUE.filter(({ name }) => !SLOW.test(name)).map(({ name }) => name)
    const samples = boardsOf(86, 6, FIRST_SEED)
    expect(samples.length).toBeGreaterThanOrEqual(500)
    const seen = new Map<string, number>()
    for (const sample of samples) {
      for (const technique of techniques) {
        for (const step of findSteps(sample.board, { techniques: [technique], limit: 1 })) {
          seen.set(technique, (seen.get(technique) ?? 0) + 1)
          expect(verifyStep(sample.board, step), technique).toEqual({ proven: true })
          expect(agrees(step, sample.solution), `${technique} on ${sample.puzzle}`).toBe(true)
        }
      }
      // A path that ended leaves a full board, on which there is nothing to find.
      for (const step of findSteps(sample.board, { limit: 1 })) check(sample, step, random)
    }
    // The boards are no use for what never occurs on them.
    const common = ['hidden-single', 'pointing', 'naked-pair', 'x-wing', 'skyscraper', 'xy-wing', 'w-wing']
    for (const technique of [...common, 'empty-rectangle', 'hidden-rectangle'])
      expect(seen.get(technique) ?? 0, technique).toBeGreaterThan(5)
  }, 240_000)

  it('finds each instance once, minimal, and no forgery passes', () => {
    const random = seededRandom(2)
    for (const sample of boardsOf(5, 2, FIRST_SEED + 300)) {
      for (const { name } of CATALOGUE) {
        const steps = findSteps(sample.board, { techniques: [name], limit: SLOW.test(name) ? 3 : 12 })
        expect(new Set(steps.map(identityOf)).size).toBe(steps.length)
        for (const step of steps) {
          expect(step.technique).toBe(name)
          check(sample, step, random)
        }
      }
    }
  }, 240_000)

  it('knows no order but the geometry: boards of order 4, 6 and 8', async () => {
    const { boxedGeometry } = await import('../../src/grid/geometry.js')
    for (const geometry of [boxedGeometry(2, 2), boxedGeometry(2, 3), boxedGeometry(2, 4)]) {
      for (let seed = 1; seed <= 4; seed++) {
        const puzzle = randomPuzzle(seed, geometry)
        const solution = solutionsOf(puzzle, { limit: 1 }).solutions[0]!
        const path = solve(puzzle)
        expect(path.status).toBe('solved')
        expect([...path.board.digits]).toEqual([...solution])
        for (const step of path.steps) expect(verifyStep(step.before, step)).toEqual({ proven: true })
        const first = path.steps[0]!.before
        for (const { name } of CATALOGUE.filter(({ name: other }) => !SLOW.test(other))) {
          for (const step of findSteps(first, { techniques: [name], limit: 3 }))
            expect(agrees(step, solution), name).toBe(true)
        }
        expect(digitsOf(path.board.candidates.reduce((all, set) => all | set, 0))).toEqual([])
      }
    }
  }, 120_000)
})
