import { describe, expect, it } from 'vitest'
import {
  backbone,
  backboneAsync,
  boxedGeometry,
  checkUniqueness,
  checkUniquenessAsync,
  countSolutions,
  countSolutionsAsync,
  countUpToTwo,
  countUpToTwoAsync,
  distinguishingCells,
  distinguishingCellsAsync,
  makePuzzle,
  type Puzzle,
  randomSolution,
  randomSolutionAsync,
  redundantGivens,
  redundantGivensAsync,
  smallestConflict,
  smallestConflictAsync,
  solutionsOf,
  solutionsOfAsync,
} from '../../src/index.js'
import type { Limits } from '../../src/limits.js'
import { endOf, expectToKeepLimits } from '../support/limited.js'
import { seededRandom, somePuzzle } from './puzzles.js'

const LARGE = boxedGeometry(4, 4)
const empty = makePuzzle(new Array(256).fill(0), LARGE)
/** Few givens, one of them impossible in a way that only a search of ages shows. */
const hopeless = makePuzzle(somePuzzle(seededRandom(3), 0.25, 1, LARGE), LARGE)
const nodeBudget = Number.POSITIVE_INFINITY

type Question = (puzzle: Puzzle, limits: Limits) => unknown
interface Case {
  readonly now: Question
  readonly inSlices: (puzzle: Puzzle, limits: Limits) => Promise<unknown>
  readonly slow: Puzzle
  /** Does it answer in part, saying so? Otherwise it throws. */
  readonly inPart?: boolean
  /** Does it take a limit of solutions? */
  readonly counts?: boolean
}

const all = { nodeBudget, limit: Number.POSITIVE_INFINITY }
const CASES: Record<string, Case> = {
  countSolutions: {
    now: (puzzle, limits) => countSolutions(puzzle, { ...all, ...limits }),
    inSlices: (puzzle, limits) => countSolutionsAsync(puzzle, { ...all, ...limits }),
    slow: empty,
    counts: true,
    inPart: true,
  },
  solutionsOf: {
    now: (puzzle, limits) => solutionsOf(puzzle, { nodeBudget, limit: 1e9, ...limits }),
    inSlices: (puzzle, limits) => solutionsOfAsync(puzzle, { nodeBudget, limit: 1e9, ...limits }),
    slow: empty,
    counts: true,
    inPart: true,
  },
  checkUniqueness: {
    now: (puzzle, limits) => checkUniqueness(puzzle, { nodeBudget, ...limits }),
    inSlices: (puzzle, limits) => checkUniquenessAsync(puzzle, { nodeBudget, ...limits }),
    slow: hopeless,
    inPart: true,
  },
  backbone: {
    now: (puzzle, limits) => backbone(puzzle, { nodeBudget, ...limits }),
    inSlices: (puzzle, limits) => backboneAsync(puzzle, { nodeBudget, ...limits }),
    slow: hopeless,
    inPart: true,
  },
  redundantGivens: {
    now: (puzzle, limits) => redundantGivens(puzzle, { nodeBudget, ...limits }),
    inSlices: (puzzle, limits) => redundantGivensAsync(puzzle, { nodeBudget, ...limits }),
    slow: hopeless,
    inPart: true,
  },
  distinguishingCells: {
    now: (puzzle, limits) => distinguishingCells(puzzle, { nodeBudget, limit: 4000, ...limits }),
    inSlices: (puzzle, limits) => distinguishingCellsAsync(puzzle, { nodeBudget, limit: 4000, ...limits }),
    slow: empty,
    counts: true,
    inPart: true,
  },
  smallestConflict: {
    now: (puzzle, limits) => smallestConflict(puzzle, { nodeBudget, ...limits }),
    inSlices: (puzzle, limits) => smallestConflictAsync(puzzle, { nodeBudget, ...limits }),
    slow: hopeless,
  },
  countUpToTwo: {
    now: ({ givens, geometry }, limits) => countUpToTwo(givens, geometry, { nodeBudget, ...limits }),
    inSlices: ({ givens, geometry }, limits) =>
      countUpToTwoAsync(givens, geometry, { nodeBudget, ...limits }),
    slow: hopeless,
  },
  randomSolution: {
    now: (puzzle, limits) => randomSolution(puzzle, { seed: 1, fair: true, nodeBudget, ...limits }),
    inSlices: (puzzle, limits) => randomSolutionAsync(puzzle, { seed: 1, fair: true, nodeBudget, ...limits }),
    slow: empty,
  },
}

const saysSo = (answer: unknown): boolean =>
  (answer as { complete?: boolean }).complete !== true &&
  (answer as { stopped?: string }).stopped === 'time-limit'

describe.each(Object.entries(CASES))('%s', (_, { now, inSlices, slow, inPart, counts }) => {
  it('keeps its limits, and never answers when stopped', () =>
    expectToKeepLimits(
      (limits) => now(slow, limits),
      (limits) => inSlices(slow, limits),
      inPart ? saysSo : undefined,
    ))

  it('answers the same in slices, by turns with others', async () => {
    const puzzles = [31, 32, 33].map((seed) => {
      const random = seededRandom(seed)
      return makePuzzle(somePuzzle(random, 0.4, seed === 33 ? 1 : 0))
    })
    const small = { nodeBudget: 20_000, ...(counts && { limit: 300 }) }
    const ends = await Promise.all(puzzles.map((puzzle) => endOf(() => inSlices(puzzle, small as Limits))))
    for (const [i, puzzle] of puzzles.entries())
      expect(ends[i]).toEqual(await endOf(() => now(puzzle, small as Limits)))
  })
})

it('a spent budget is no answer either', async () => {
  const spent = { nodeBudget: 0 }
  expect(backbone(hopeless, spent)).toMatchObject({ open: [], complete: false, stopped: 'budget-spent' })
  expect(distinguishingCells(hopeless, spent)).toMatchObject({ complete: false, stopped: 'budget-spent' })
  expect(await endOf(() => smallestConflict(hopeless, spent))).toEqual({ stopped: 'budget-spent' })
})
