import { describe, expect, it } from 'vitest'
import { layoutOf } from '../../src/grid/layout.js'
import {
  type Board,
  boardFromMarks,
  boxedGeometry,
  checkClaim,
  checkClaimAsync,
  checkProgress,
  checkProgressAsync,
  type FoundStep,
  findSteps,
  findStepsAsync,
  gradePuzzle,
  gradePuzzleAsync,
  hint,
  hintAsync,
  makePuzzle,
  newBoard,
  nextStepAsync,
  parsePuzzle,
  rankSteps,
  rankStepsAsync,
  type Step,
  solve,
  solveAsync,
  verifyStep,
  verifyStepAsync,
  walkthrough,
  walkthroughAsync,
} from '../../src/index.js'
import type { Limits } from '../../src/limits.js'
import { cellPremise } from '../../src/logic/proof/premise-holds.js'
import { seededRandom, somePuzzle } from '../count/puzzles.js'
import { expectToKeepLimits } from '../support/limited.js'

const LARGE = boxedGeometry(4, 4)
/** Few givens, one of them impossible in a way that only a search of ages shows. */
const hopeless = makePuzzle(somePuzzle(seededRandom(3), 0.25, 1, LARGE), LARGE)
const board = newBoard(hopeless)
/** A candidate whose removal neither follows nor is refuted but by a search of ages. */
const removal = { cell: 66, digit: 1 }

/** Sixteen cells with fifteen digits to share: that they cannot is a count, which a search must try out way by way. */
const crowded = boardFromMarks(
  makePuzzle(new Array(LARGE.cellCount).fill(0), LARGE),
  new Array(LARGE.cellCount).fill(0),
  Array.from({ length: LARGE.cellCount }, (_, cell) => (cell < LARGE.order ? 0x7fff : 0xffff)),
)
const heavy: FoundStep = {
  technique: 'forcing-net',
  level: 'branch',
  placements: [],
  removals: [{ cell: 0, digit: 1 }],
  premises: layoutOf(LARGE).houses[0]!.cells.map((cell) => cellPremise(crowded, cell)),
  pattern: { shape: 'premises' },
  before: crowded,
}

/** A step after which the search for others goes on for ages. */
const slow: FoundStep = { ...heavy, removals: [removal], before: board }

const says = (part: object) => (answer: unknown) =>
  Object.entries(part).every(([key, value]) => (answer as Record<string, unknown>)[key] === value)

interface Case {
  readonly now: (limits: Limits) => unknown
  readonly inSlices: (limits: Limits) => Promise<unknown>
  readonly isUnfinished?: (answer: unknown) => boolean
}

const CASES: Record<string, Case> = {
  findSteps: {
    now: (limits) => findSteps(board, limits),
    inSlices: (limits) => findStepsAsync(board, limits),
  },
  solve: {
    now: (limits) => solve(board, limits),
    inSlices: (limits) => solveAsync(board, limits),
    isUnfinished: says({ status: 'stopped', stopped: 'time-limit' }),
  },
  hint: { now: (limits) => hint(board, limits), inSlices: (limits) => hintAsync(board, limits) },
  rankSteps: {
    now: (limits) => rankSteps([slow, slow], { ...limits, preset: 'branch' }),
    inSlices: (limits) => rankStepsAsync([slow, slow], { ...limits, preset: 'branch' }),
  },
  verifyStep: {
    now: (limits) => verifyStep(crowded, heavy, { ...limits, budget: 1e9 }),
    inSlices: (limits) => verifyStepAsync(crowded, heavy, { ...limits, budget: 1e9 }),
    isUnfinished: (answer) => (answer as { because?: { kind: string } }).because?.kind === 'time-limit',
  },
  checkProgress: {
    now: (limits) => checkProgress(hopeless, board, limits),
    inSlices: (limits) => checkProgressAsync(hopeless, board, limits),
    isUnfinished: says({ status: 'unsound-puzzle', solutions: 'undecided', stopped: 'time-limit' }),
  },
  checkClaim: {
    now: (limits) => checkClaim(board, { removed: [removal] }, limits),
    inSlices: (limits) => checkClaimAsync(board, { removed: [removal] }, limits),
    isUnfinished: says({ kind: 'undecided', stopped: 'time-limit' }),
  },
  gradePuzzle: {
    now: (limits) => gradePuzzle(hopeless, { ...limits, nodeBudget: 1e9 }),
    inSlices: (limits) => gradePuzzleAsync(hopeless, { ...limits, nodeBudget: 1e9 }),
  },
  walkthrough: {
    now: (limits) => walkthrough(hopeless, limits),
    inSlices: (limits) => walkthroughAsync(hopeless, limits),
  },
}

it.each(Object.entries(CASES))('%s keeps its limits, and never answers when stopped', (_, one) =>
  expectToKeepLimits(one.now, one.inSlices, one.isUnfinished),
)

const summaryOf = (steps: readonly Step[]) =>
  steps.map(({ technique, placements, removals, premises, pattern }) => ({
    technique,
    placements,
    removals,
    premises,
    pattern,
  }))

describe('calls in slices, by turns with others', () => {
  const puzzles = [
    '4.....8.5.3..........7......2.....6.....8.4......1.......6.3.7.5..2.....1.4......',
    '52...6.........7.13...........4..8..6......5...........418.........3..2...87.....',
    '..............3.85..1.2.......5.7.....4...1...9.......5......73..2.1........4...9',
  ].map((line) => parsePuzzle(line))
  const choice = { preset: 'chain' } as const

  it('solve by the same steps as alone, even where the others come in the middle of a technique', async () => {
    const alone = puzzles.map((puzzle) => summaryOf(solve(puzzle, choice).steps))
    const byTurns = await Promise.all(puzzles.map((puzzle) => solveAsync(puzzle, choice)))
    expect(byTurns.map(({ steps }) => summaryOf(steps))).toEqual(alone)
  }, 60_000)

  it('find the same steps while calls that run at once come between', async () => {
    const [mine, other] = puzzles.map((puzzle) => newBoard(puzzle)) as [Board, Board]
    const techniques = ['death-blossom', 'multi-sector-locked-set', 'aligned-pair-exclusion'] as const
    const alone = summaryOf(findSteps(mine, { techniques }))
    expect(alone.length).toBeGreaterThan(0)
    let between = 0
    const timer = setInterval(() => {
      findSteps(other, { techniques: ['aligned-pair-exclusion', 'x-chain'], limit: 3 })
      if (++between === 3) clearInterval(timer)
    }, 15)
    const steps = await findStepsAsync(mine, { techniques })
    clearInterval(timer)
    expect(summaryOf(steps)).toEqual(alone)
    expect(between).toBeGreaterThan(0)
  }, 60_000)

  it('give one step, and let those that wait for a turn be stopped', async () => {
    const [first, second] = puzzles.map((puzzle) => newBoard(puzzle)) as [Board, Board]
    const controller = new AbortController()
    const long = findStepsAsync(first, { techniques: ['forcing-net'], signal: controller.signal })
    const waiting = findStepsAsync(second, { techniques: ['death-blossom'], timeLimit: 30 })
    await expect(waiting).rejects.toMatchObject({ code: 'time-limit' })
    controller.abort()
    await expect(long).rejects.toMatchObject({ code: 'aborted' })
    const step = await nextStepAsync(first)
    expect(summaryOf([step!])).toEqual(summaryOf(solve(first, choice).steps.slice(0, 1)))
  }, 60_000)
})
