import { solutionsOf } from '../../src/count/count-solutions.js'
import { createSearch } from '../../src/count/engine.js'
import { contradictionOf, puzzleOf } from '../../src/grid/board/ask.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board, Candidate } from '../../src/grid/board.js'
import { allDigits, digitBit, digitsOf } from '../../src/grid/digits.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { CATALOGUE } from '../../src/logic/catalogue.js'
import { type Claim, claimsOf } from '../../src/logic/claims/claim.js'
import { cellPremise, housePremise } from '../../src/logic/proof/premise-holds.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import type { Premise, Step } from '../../src/logic/steps/step.js'
import { JIGSAW_6 } from '../count/geometries.js'
import { allowedOn, fillings } from '../support/backtracking.js'
import { factsFor } from '../support/facts.js'
import { withKings, withKnights } from '../support/further-peers.js'
import { below, pick, type Random, someBoard } from './boards.js'
import { type Fuzzer, FuzzFault } from './fuzzer.js'

/** Small ones for the most part: there everything can be tried. */
const GEOMETRIES: readonly Geometry[] = [
  boxedGeometry(2, 2),
  boxedGeometry(2, 3),
  JIGSAW_6,
  withKnights(boxedGeometry(2, 3)),
  withKings(boxedGeometry(2, 3)),
  STANDARD,
]
const FORGERIES_A_BOARD = 150
/** Real steps that are forged: so many of each of a few techniques. */
const TECHNIQUES_A_BOARD = 12
const STEPS_A_TECHNIQUE = 6
const SLOW =
  /mutant|franken|forcing|nishio|finned-chain|with-sets|blossom|als-chain|multi-sector|aligned|exocet/
const QUICK = CATALOGUE.filter(({ name }) => !SLOW.test(name))

/**
 * Steps that nobody found: real ones with something changed, and others put together at random. What `verifyStep`
 * accepts must be true on every filling of the board or, where the step assumes one solution, of a puzzle that has just
 * one.
 */
export const forgeriesFuzzer: Fuzzer = {
  name: 'forgeries',
  runCase(random) {
    const board = someBoard(random, pick(random, GEOMETRIES))
    const open = board.candidates.flatMap((set, cell) => digitsOf(set).map((digit) => ({ cell, digit })))
    if (open.length === 0) return { fullBoards: 1 }
    const oracle = new Oracle(board)
    const real = realSteps(random, board)
    let accepted = 0
    let assuming = 0
    for (let i = 0; i < FORGERIES_A_BOARD; i++) {
      const step = forged(random, board, real, open, oracle)
      if (!verifyStep(board, step).proven) continue
      accepted++
      if (step.assumes) assuming++
      const refuted = claimsOf(step).find((claim) => !oracle.bearsOut(claim, step))
      if (refuted) throw new FuzzFault(messageOf(board, step, refuted))
    }
    return { forgeries: FORGERIES_A_BOARD, accepted, acceptedAssumingOneSolution: assuming }
  },
}

function realSteps(random: Random, board: Board): Step[] {
  const steps: Step[] = []
  if (contradictionOf(board)) return steps
  for (let i = 0; i < TECHNIQUES_A_BOARD; i++) {
    let left = STEPS_A_TECHNIQUE
    const report = (step: Step): boolean => {
      steps.push(step)
      return --left === 0
    }
    pick(random, QUICK).find(factsFor(board), report, { oneSolution: true })
  }
  return steps
}

function forged(
  random: Random,
  board: Board,
  real: readonly Step[],
  open: readonly Candidate[],
  oracle: Oracle,
): Step {
  let step = real.length > 0 && random() < 0.7 ? pick(random, real) : madeUp(random, board)
  for (let changes = 1 + below(random, 2); changes > 0; changes--)
    step = changed(random, board, step, open, oracle)
  return step
}

/** A step of true premises that hang together by a house, about anything. */
function madeUp(random: Random, board: Board): Step {
  const { geometry } = board
  const around = pick(random, layoutOf(geometry).houses).cells
  const premises = Array.from({ length: 1 + below(random, 8) }, (): Premise => {
    const cell = random() < 0.7 ? pick(random, around) : below(random, geometry.cellCount)
    return somePremise(random, board, cell)
  })
  return {
    technique: 'forged',
    level: 'pattern',
    placements: [],
    removals: [],
    premises,
    pattern: { shape: 'premises' },
  } as unknown as Step
}

function somePremise(random: Random, board: Board, cell: number): Premise {
  if (random() < 0.6) return cellPremise(board, cell)
  return housePremise(
    board,
    pick(random, layoutOf(board.geometry).housesOf[cell]!),
    1 + below(random, board.geometry.order),
  )
}

function changed(random: Random, board: Board, step: Step, open: readonly Candidate[], oracle: Oracle): Step {
  const { premises, placements, removals } = step
  const at = below(random, premises.length)
  switch (below(random, 8)) {
    case 0:
      return { ...step, premises: premises.filter((_, i) => i !== at) }
    case 1:
      return premises[at] ? { ...step, premises: premises.with(at, shortened(random, premises[at])) } : step
    case 2:
      return {
        ...step,
        premises: [...premises, somePremise(random, board, below(random, board.geometry.cellCount))],
      }
    case 3:
      return { ...step, removals: [...removals, pick(random, open)] }
    case 4:
      return { ...step, placements: [], removals: [oracle.lie(random) ?? pick(random, open)] }
    case 5:
      return { ...step, placements: [...placements, pick(random, open)] }
    case 6:
      return assumingOneSolution(random, board, step)
    default:
      return { ...step, placements: removals, removals: placements }
  }
}

function shortened(random: Random, premise: Premise): Premise {
  const without = (list: readonly number[]): number[] => list.toSpliced(below(random, list.length), 1)
  return premise.kind === 'cell'
    ? { ...premise, digits: without(premise.digits) }
    : { ...premise, cells: without(premise.cells) }
}

/** One solution assumed, with the crossings of some rows and columns for a pattern, or the cells of the premises. */
function assumingOneSolution(random: Random, board: Board, step: Step): Step {
  const { order } = board.geometry
  const some = (): number[] => Array.from({ length: 2 + below(random, 2) }, () => below(random, order))
  const columns = some()
  const crossings = some().flatMap((row) => columns.map((column) => row * order + column))
  const ofPremises = step.premises.flatMap((premise) => (premise.kind === 'cell' ? [premise.cell] : []))
  const cells = [...new Set(random() < 0.5 ? crossings : ofPremises)]
  const premises =
    random() < 0.7 ? [...step.premises, ...cells.map((cell) => cellPremise(board, cell))] : step.premises
  const pattern = { shape: 'exchange', cells, digits: [1, 2], extras: [], links: [] } as const
  return { ...step, premises, assumes: 'one-solution', pattern }
}

/** Says what is true of a board without any deduction. */
class Oracle {
  private readonly board: Board
  private readonly isSmall: boolean
  private one: readonly number[] | null | undefined

  constructor(board: Board) {
    this.board = board
    this.isSmall = board.geometry.order <= 6
  }

  /** The digit of the one solution for some open cell: to say that it goes is false. */
  lie(random: Random): Candidate | undefined {
    const solution = this.onlySolution()
    const open = this.board.candidates.flatMap((set, cell) => (set ? [cell] : []))
    const cell = pick(random, open)
    return solution ? { cell, digit: solution[cell]! } : undefined
  }

  bearsOut(claim: Claim, step: Step): boolean {
    if (!step.assumes) return this.isDeniedNowhere(claim)
    const solution = this.onlySolution()
    // with several solutions, or none on this board, nothing is claimed
    if (!solution?.every((digit, cell) => allowedOn(this.board)(cell, digit))) return true
    const { cell, digit } = claim.candidate
    return (solution[cell] === digit) === (claim.kind === 'placement')
  }

  /** The solution of the printed puzzle, if it has just one. */
  private onlySolution(): readonly number[] | null {
    if (this.one === undefined) {
      const { geometry } = this.board
      const puzzle = puzzleOf(this.board)
      const found = this.isSmall
        ? fillings(geometry, allowedOn(newBoard(puzzle)), 2)
        : solutionsOf(puzzle, { limit: 2 }).solutions
      this.one = found.length === 1 ? found[0]! : null
    }
    return this.one
  }

  /** Is there no filling of the board in which the claim is false? */
  private isDeniedNowhere({ kind, candidate: { cell, digit } }: Claim): boolean {
    const { geometry, digits, candidates } = this.board
    const bit = digitBit(digit)
    const denied = (set: number, at: number): number =>
      at !== cell ? set : kind === 'placement' ? set & ~bit : set & bit
    const allowed = candidates.map((set, at) => denied(digits[at] ? digitBit(digits[at]!) : set, at))
    if (this.isSmall)
      return fillings(geometry, (at, other) => (allowed[at]! & digitBit(other)) !== 0, 1).length === 0
    const search = createSearch(geometry)
    search.start(
      digits,
      allowed.map((set) => set & allDigits(geometry.order)),
    )
    return search.next(Number.POSITIVE_INFINITY) === 'exhausted'
  }
}

function messageOf(
  { geometry, given, digits, candidates }: Board,
  step: Step,
  { kind, candidate }: Claim,
): string {
  return (
    `a false ${kind} of ${JSON.stringify(candidate)} is proven: ${JSON.stringify(step)}\n` +
    `${geometry.name} ${digits.join(',')}\n${candidates.join(',')}\ngiven ${given.join('')}`
  )
}
