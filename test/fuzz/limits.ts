import { StoppedError } from '../../src/errors.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { randomTransform, transformPuzzle } from '../../src/grid/symmetry.js'
import * as library from '../../src/index.js'
import type { Limits } from '../../src/limits.js'
import { allPremises } from '../../src/logic/cases/propagation.js'
import type { Premise } from '../../src/logic/steps/step.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'
import { factsFor } from '../support/facts.js'
import { below, pick, type Random } from './boards.js'
import { type Counts, type Fuzzer, FuzzFault } from './fuzzer.js'

const GEOMETRIES = [STANDARD, boxedGeometry(3, 4), boxedGeometry(4, 4)]
/** Shares of cells that are given: none, hardly any, as many as make hard puzzles, and more. */
const SHARES = [0, 0.02, 0.15, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6]

interface Input {
  readonly puzzle: Puzzle
  readonly board: Board
  readonly random: Random
}

interface Subject {
  readonly name: string
  readonly now: (limits: Limits) => unknown
  readonly inSlices: (limits: Limits) => Promise<unknown>
}

function somePuzzle(random: Random, geometry: Geometry): Puzzle {
  const { order } = geometry
  const { rows, columns } = geometry.box!
  const filled = Array.from({ length: order * order }, (_, cell) => {
    const row = Math.floor(cell / order)
    return ((columns * (row % rows) + Math.floor(row / rows) + (cell % order)) % order) + 1
  })
  const seed = below(random, 2 ** 31)
  const solution = transformPuzzle(makePuzzle(filled, geometry), randomTransform(geometry, seed))
  const share = pick(random, SHARES)
  const givens = solution.givens.map((digit) => (random() < share ? digit : 0))
  const given = givens.findIndex((digit) => digit !== 0)
  if (given >= 0 && random() < 0.2) givens[given] = 1 + below(random, order)
  return makePuzzle(givens, solution.geometry)
}

function alternativesOf(premise: Premise): readonly number[] {
  return premise.kind === 'cell' ? premise.digits : premise.cells
}

/** Calls of everything that can take long, with options that make it take longer. */
function someSubject({ puzzle, board, random }: Input): Subject {
  const all = { nodeBudget: Number.POSITIVE_INFINITY }
  const limit = 2 + below(random, 5000)
  const techniques = random() < 0.7 ? [pick(random, TECHNIQUE_NAMES)] : TECHNIQUE_NAMES
  const choice = {
    techniques,
    ...(random() < 0.3 && { maxLinks: 1 + below(random, 40) }),
    ...(random() < 0.4 && { oneSolution: false }),
  }
  const finding = { ...choice, ...(random() < 0.3 && { allLengths: true }) }
  const cell = board.digits.indexOf(0)
  const removed = cell < 0 ? [] : [{ cell, digit: 32 - Math.clz32(board.candidates[cell]! || 1) }]
  const step: library.FoundStep = {
    technique: 'forcing-net',
    level: 'branch',
    placements: [],
    removals: removed,
    // a cell or house with nothing left makes no premise
    premises: allPremises(factsFor(board)).filter((premise) => alternativesOf(premise).length > 0),
    pattern: { shape: 'premises' },
    before: board,
  }
  const claim = { removed, ...(random() < 0.5 && { technique: techniques[0]! }) }
  const wish = { kind: 'removal' as const, candidate: removed[0] ?? { cell: 0, digit: 1 } }
  const seed = below(random, 1000)
  const { givens, geometry } = puzzle
  const many = Array.from({ length: 50 }, () => somePuzzle(random, puzzle.geometry))
  const subject = (
    name: string,
    now: (limits: Limits) => unknown,
    inSlices: (limits: Limits) => Promise<unknown>,
  ): Subject => ({ name, now, inSlices })
  // biome-ignore format: one call a line
  return pick(random, [
    subject('countSolutions', (l) => library.countSolutions(puzzle, { ...all, ...l }), (l) => library.countSolutionsAsync(puzzle, { ...all, ...l })),
    subject('solutionsOf', (l) => library.solutionsOf(puzzle, { ...all, limit, ...l }), (l) => library.solutionsOfAsync(puzzle, { ...all, limit, ...l })),
    subject('countUpToTwo', (l) => library.countUpToTwo(givens, geometry, { ...all, ...l }), (l) => library.countUpToTwoAsync(givens, geometry, { ...all, ...l })),
    subject('checkUniqueness', (l) => library.checkUniqueness(puzzle, { ...all, ...l }), (l) => library.checkUniquenessAsync(puzzle, { ...all, ...l })),
    subject('backbone', (l) => library.backbone(puzzle, { ...all, ...l }), (l) => library.backboneAsync(puzzle, { ...all, ...l })),
    subject('redundantGivens', (l) => library.redundantGivens(puzzle, { ...all, ...l }), (l) => library.redundantGivensAsync(puzzle, { ...all, ...l })),
    subject('smallestConflict', (l) => library.smallestConflict(puzzle, { ...all, ...l }), (l) => library.smallestConflictAsync(puzzle, { ...all, ...l })),
    subject('distinguishingCells', (l) => library.distinguishingCells(puzzle, { ...all, limit, ...l }), (l) => library.distinguishingCellsAsync(puzzle, { ...all, limit, ...l })),
    subject('randomSolution', (l) => library.randomSolution(puzzle, { ...all, seed, fair: true, ...l }), (l) => library.randomSolutionAsync(puzzle, { ...all, seed, fair: true, ...l })),
    subject('canonicalForm', (l) => library.canonicalForm(puzzle, l), (l) => library.canonicalFormAsync(puzzle, l)),
    subject('dedupePuzzles', (l) => library.dedupePuzzles(many, l), (l) => library.dedupePuzzlesAsync(many, l)),
    ...new Array<Subject>(6).fill(subject(`findSteps ${techniques.length === 1 ? techniques[0] : 'all'}`, (l) => library.findSteps(board, { ...finding, ...l }), (l) => library.findStepsAsync(board, { ...finding, ...l }))),
    ...new Array<Subject>(3).fill(subject('solve', (l) => library.solve(board, { ...choice, ...l }), (l) => library.solveAsync(board, { ...choice, ...l }))),
    subject('hint', (l) => library.hint(board, { ...choice, ...l }), (l) => library.hintAsync(board, { ...choice, ...l })),
    subject('rankSteps', (l) => library.rankSteps([step], { preset: 'branch', ...l }), (l) => library.rankStepsAsync([step], { preset: 'branch', ...l })),
    subject('verifyStep', (l) => library.verifyStep(board, step, { budget: 1e9, ...l }), (l) => library.verifyStepAsync(board, step, { budget: 1e9, ...l })),
    subject('checkProgress', (l) => library.checkProgress(puzzle, board, l), (l) => library.checkProgressAsync(puzzle, board, l)),
    subject('checkClaim', (l) => library.checkClaim(board, claim, l), (l) => library.checkClaimAsync(board, claim, l)),
    subject('gradePuzzle', (l) => library.gradePuzzle(puzzle, { ...all, ...choice, ...l }), (l) => library.gradePuzzleAsync(puzzle, { ...all, ...choice, ...l })),
    subject('findRoute', (l) => library.findRoute(board, { ...choice, ...l }), (l) => library.findRouteAsync(board, { ...choice, ...l })),
    subject('openers', (l) => library.openers(board, { ...choice, ...l }), (l) => library.openersAsync(board, { ...choice, ...l })),
    subject('proofsOf', (l) => library.proofsOf(board, wish, { ...choice, ...l }), (l) => library.proofsOfAsync(board, wish, { ...choice, ...l })),
    subject('walkthrough', (l) => library.walkthrough(puzzle, { ...all, ...choice, ...l }), (l) => library.walkthroughAsync(puzzle, { ...all, ...choice, ...l })),
  ])
}

/**
 * Milliseconds that a call may go on after its time, and how often it is tried again where other programs may be to
 * blame.
 */
const PROMISED = 100
const TRIES = 3

const WAYS = ['time limit, at once', 'time limit, in slices', 'signal'] as const

async function overshoot(
  subject: Subject,
  way: (typeof WAYS)[number],
  milliseconds: number,
): Promise<number> {
  const controller = new AbortController()
  let due = performance.now() + milliseconds
  const timer =
    way === 'signal'
      ? setTimeout(() => {
          due = performance.now()
          controller.abort()
        }, milliseconds)
      : undefined
  try {
    if (way === 'time limit, at once') subject.now({ timeLimit: milliseconds })
    else if (way === 'signal') {
      await subject.inSlices({ signal: controller.signal })
      if (controller.signal.aborted) throw new FuzzFault(`${subject.name} answered after it was aborted`)
    } else await subject.inSlices({ timeLimit: milliseconds })
  } catch (error) {
    if (!(error instanceof StoppedError)) throw error
    const expected = way === 'signal' ? 'aborted' : 'time-limit'
    if (error.code !== expected && error.code !== 'budget-spent')
      throw new FuzzFault(`${subject.name} with a ${way} threw ${error.code}`)
  } finally {
    clearTimeout(timer)
  }
  return Math.max(0, performance.now() - due)
}

/** Every time limit and signal is obeyed within 100 ms, whatever is called on whatever board. */
export const limitsFuzzer: Fuzzer = {
  name: 'limits',
  async runCase(random): Promise<Counts> {
    const puzzle = somePuzzle(random, pick(random, GEOMETRIES))
    const board = newBoard(puzzle)
    const subject = someSubject({ puzzle, board, random })
    const way = pick(random, WAYS)
    const milliseconds = 1 + below(random, 150)
    let worst = Number.POSITIVE_INFINITY
    for (let i = 0; i < TRIES && worst > PROMISED; i++)
      worst = Math.min(worst, await overshoot(subject, way, milliseconds))
    if (worst > PROMISED)
      throw new FuzzFault(
        `${subject.name} with a ${way} of ${milliseconds} ms went on for ${Math.round(worst)} ms after it, on ` +
          `${puzzle.geometry.name} ${JSON.stringify(puzzle.givens)}`,
      )
    return { calls: 1, worstOvershootMs: Math.round(worst) }
  },
}
