import { afterEach, describe, expect, it, vi } from 'vitest'
import { backbone, backboneAsync } from '../../src/count/backbone.js'
import { checkUniqueness, checkUniquenessAsync } from '../../src/count/check-uniqueness.js'
import { smallestConflict, smallestConflictAsync } from '../../src/count/conflict.js'
import {
  countSolutions,
  countSolutionsAsync,
  solutionsOf,
  solutionsOfAsync,
} from '../../src/count/count-solutions.js'
import { countUpToTwo, countUpToTwoAsync } from '../../src/count/count-up-to-two.js'
import { distinguishingCells, distinguishingCellsAsync } from '../../src/count/distinguish.js'
import { borrowSearch, giveBackSearch } from '../../src/count/engine.js'
import { randomSolution, randomSolutionAsync } from '../../src/count/random-solution.js'
import { redundantGivens, redundantGivensAsync } from '../../src/count/redundant-givens.js'
import type { SolutionSearch } from '../../src/count/search.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'

// What all questions of this room have in common, asked of grids of order 4.
const FOUR = boxedGeometry(2, 2)
const puzzleOf = (line: string) => makePuzzle([...line].map(Number), FOUR)
const BLANK = '0'.repeat(16)
const PUZZLES = [
  BLANK,
  '1234000000000000',
  '1000000000000004',
  '1234341200004321',
  '1200003000004001',
  '1000020000300004',
  '1200340012000000',
]

type Options = Readonly<Record<string, unknown>>
interface Entry {
  readonly now: (puzzle: Puzzle, options: never) => unknown
  readonly inSlices: (puzzle: Puzzle, options: never) => Promise<unknown>
  /** What it cannot do without. */
  readonly needed?: Options
  /** Options of its own, and values that they do not take. */
  readonly own?: Readonly<Record<string, readonly unknown[]>>
}
const asNumbers =
  <Answer>(ask: (givens: readonly number[], geometry: Puzzle['geometry'], options: never) => Answer) =>
  ({ givens, geometry }: Puzzle, options: never) =>
    ask(givens, geometry, options)

const ENTRIES: Readonly<Record<string, Entry>> = {
  countSolutions: {
    now: countSolutions,
    inSlices: countSolutionsAsync,
    own: { limit: [-1, Number.NaN, '9'] },
  },
  solutionsOf: {
    now: solutionsOf,
    inSlices: solutionsOfAsync,
    needed: { limit: 1000 },
    own: { limit: [-1, Number.NaN, undefined] },
  },
  checkUniqueness: { now: checkUniqueness, inSlices: checkUniquenessAsync },
  backbone: { now: backbone, inSlices: backboneAsync },
  redundantGivens: { now: redundantGivens, inSlices: redundantGivensAsync },
  distinguishingCells: {
    now: distinguishingCells,
    inSlices: distinguishingCellsAsync,
    own: { limit: [1, 0, Number.NaN] },
  },
  smallestConflict: { now: smallestConflict, inSlices: smallestConflictAsync },
  countUpToTwo: { now: asNumbers(countUpToTwo), inSlices: asNumbers(countUpToTwoAsync) },
  randomSolution: {
    now: randomSolution,
    inSlices: randomSolutionAsync,
    needed: { seed: 7 },
    own: { seed: [0.5, '1', undefined] },
  },
}
const COMMON = {
  nodeBudget: [-1, 0.5, Number.NaN, '9'],
  timeLimit: [-1, Number.NaN],
  signal: [{}],
  nodes: [9],
}

describe.each(Object.entries(ENTRIES))('%s', (name, { now, inSlices, needed = {}, own = {} }) => {
  const ask = (puzzle: unknown, options: Options = {}) =>
    now(puzzle as Puzzle, { ...needed, ...options } as never)
  const askInSlices = (puzzle: unknown, options: Options = {}) =>
    inSlices(puzzle as Puzzle, { ...needed, ...options } as never)

  afterEach(() => {
    vi.restoreAllMocks()
  })

  it('answers the same when it lets other work run after every few nodes', async () => {
    for (const line of PUZZLES) {
      const answer = ask(puzzleOf(line))
      expect(ask(puzzleOf(line), { timeLimit: 60_000 })).toEqual(answer)
      expect(await askInSlices(puzzleOf(line))).toEqual(answer)
      // a clock that is late at every look
      let time = 0
      vi.spyOn(performance, 'now').mockImplementation(() => (time += 10))
      expect(await askInSlices(puzzleOf(line))).toEqual(answer)
      vi.restoreAllMocks()
    }
  })

  it('refuses what is no puzzle, and options that are none', async () => {
    const isRefused = expect.objectContaining({ code: 'argument' })
    const refused: [unknown, Options][] = [
      [undefined, {}],
      [{ givens: [1], geometry: FOUR }, {}],
      ...Object.entries({ ...COMMON, ...own }).flatMap(([option, values]) =>
        values.map((value): [unknown, Options] => [puzzleOf(BLANK), { [option]: value }]),
      ),
    ]
    for (const [puzzle, options] of refused) {
      if (puzzle === undefined && name === 'countUpToTwo') continue
      expect(() => ask(puzzle, options)).toThrow(isRefused)
      await expect(askInSlices(puzzle, options)).rejects.toEqual(isRefused)
    }
  })

  it('gives back the search it has borrowed, however it ends', async () => {
    const taken: SolutionSearch[] = []
    const giveAllBack = () => {
      for (const search of taken.splice(0)) giveBackSearch(FOUR, search)
    }
    const isGivenBack = () => {
      const search = borrowSearch(FOUR)
      taken.push(search)
      return search.nodes > 0
    }
    while (isGivenBack());
    const unsound = '1100000000000000'
    for (const line of ['1234000000000000', '1234341200004321', unsound]) {
      await askInSlices(puzzleOf(line))
      expect(isGivenBack()).toBe(true)
      // some keep a search of their own
      if (name !== 'countUpToTwo') ask(puzzleOf(line))
      else await askInSlices(puzzleOf(line))
      expect(isGivenBack()).toBe(true)
    }
    await Promise.allSettled([askInSlices(puzzleOf('1234000000000000'), { nodeBudget: 1 })])
    expect(isGivenBack()).toBe(true)
    giveAllBack()
  })
})

it('a question asked during another gets a search of its own', () => {
  const first = borrowSearch(FOUR)
  const second = borrowSearch(FOUR)
  expect(second).not.toBe(first)
  giveBackSearch(FOUR, first)
  expect(borrowSearch(FOUR)).toBe(first)
})

describe('a time limit that is over at once', () => {
  it.each<[string, Options | string]>([
    ['countSolutions', { complete: false, stopped: 'time-limit' }],
    ['solutionsOf', { complete: false, stopped: 'time-limit' }],
    ['distinguishingCells', { complete: false, stopped: 'time-limit', swaps: [], fewest: false }],
    ['randomSolution', 'time-limit'],
  ])('stops %s', (name, says) => {
    const { now, needed } = ENTRIES[name]!
    const ask = () => now(puzzleOf(BLANK), { ...needed, timeLimit: 0 } as never)
    if (typeof says === 'string') expect(ask).toThrow(expect.objectContaining({ code: says }))
    else expect(ask()).toMatchObject(says)
  })
})
