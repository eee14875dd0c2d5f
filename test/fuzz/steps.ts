import { contradictionOf } from '../../src/grid/board/ask.js'
import type { Board } from '../../src/grid/board.js'
import { digitCount } from '../../src/grid/digits.js'
import { shuffled } from '../../src/grid/random.js'
import { CATALOGUE } from '../../src/logic/catalogue.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { Step } from '../../src/logic/steps/step.js'
import type { Technique } from '../../src/logic/technique.js'
import { factsFor } from '../support/facts.js'
import { below, type Random, someBoard } from './boards.js'
import { type Fuzzer, FuzzFault } from './fuzzer.js'

/** Looking for every instance of these takes long on some boards: each gets a small share of the boards. */
const SLOW =
  /mutant|franken|forcing|nishio|finned-chain|with-sets|blossom|als-chain|multi-sector|aligned-triple/
const SLOW_SHARE = 0.04
/** With more candidates than this on the board some of them take minutes. */
const MOST_CANDIDATES = 220
/** A technique may find hundreds of steps on one board; other boards have more to say than the rest of these. */
const MOST_STEPS = 400

/** Every step found on any board, sound or not, is proven, the steps of paths among them. */
export const stepsFuzzer: Fuzzer = {
  name: 'steps',
  runCase(random) {
    const board = someBoard(random)
    if (contradictionOf(board)) return { brokenBoards: 1 }
    return random() < 0.3 ? checkPath(random, board) : checkBoard(random, board)
  },
}

/** The techniques whose turn it is on this board, in the order of the catalogue. */
function someTechniques(random: Random, { candidates }: Board): Technique[] {
  const open = candidates.reduce((sum, set) => sum + digitCount(set), 0)
  const share = open > MOST_CANDIDATES ? 0 : SLOW_SHARE
  return CATALOGUE.filter(({ name }) => !SLOW.test(name) || random() < share)
}

function checkBoard(random: Random, board: Board): { boards: 1; steps: number } {
  let steps = 0
  for (const technique of someTechniques(random, board)) {
    for (const step of stepsOf(board, technique)) {
      assertProven(board, step)
      steps++
    }
  }
  return { boards: 1, steps }
}

/** Techniques that assume one solution are asked on other boards too: what they say is proven under that assumption. */
function stepsOf(board: Board, technique: Technique): readonly Step[] {
  if (!technique.assumes) return findSteps(board, { techniques: [technique.name], limit: MOST_STEPS })
  const steps: Step[] = []
  const report = (step: Step): boolean => steps.push(step) >= MOST_STEPS
  technique.find(factsFor(board), report, { oneSolution: true })
  return steps
}

/** With the catalogue in its order, or some of it in any order. */
function checkPath(random: Random, board: Board): { paths: 1; pathSteps: number } {
  const quick = someTechniques(random, board).map(({ name }) => name)
  const techniques =
    random() < 0.5 ? quick : shuffled(quick, random).slice(0, 1 + below(random, quick.length))
  const { steps } = solve(board, { techniques })
  for (const step of steps) assertProven(step.before, step)
  return { paths: 1, pathSteps: steps.length }
}

function assertProven(board: Board, step: Step): void {
  const verdict = verifyStep(board, step)
  if (verdict.proven) return
  const { geometry, digits, candidates } = board
  throw new FuzzFault(
    `${step.technique} is not proven: ${JSON.stringify(verdict.because)}\n` +
      `${geometry.name} ${digits.join(',')}\n${candidates.join(',')}\n${JSON.stringify(step)}`,
  )
}
