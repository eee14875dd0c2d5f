import { solutionsOf } from '../../src/count/count-solutions.js'
import { openCount } from '../../src/grid/board/ask.js'
import { boardFromMarks } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import type { Puzzle } from '../../src/grid/puzzle.js'
import { type Claim, claimsOf } from '../../src/logic/claims/claim.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { FoundStep } from '../../src/logic/steps/step.js'
import type { TechniqueName } from '../../src/logic/technique-names.js'
import { boardFormula } from './sat.js'

/** A board on the way of a puzzle that has one solution. */
export interface Sample {
  readonly board: Board
  readonly solution: readonly number[]
  /** The puzzle, and which board of its path this is. */
  readonly name: string
}

/**
 * Boards of a puzzle: one near the end, where only singles are left, and at most so many, spread over its path, on
 * which more was asked for. Each is a board of its own, so that nothing is known of it from the boards before.
 */
export function samplesOf(puzzle: Puzzle, name: string, most: number): Sample[] {
  const [solution] = solutionsOf(puzzle, { limit: 1 }).solutions
  const { steps, board: end } = solve(puzzle, { preset: 'pattern' })
  const last = steps.length - 1 - LEFT_AT_THE_END
  const asked = [...steps.keys()].filter((index) => steps[index]!.level !== 'scan')
  const chosen = Math.min(most, asked.length)
  // from the last one back: what is hard comes late
  const places = Array.from(
    { length: chosen },
    (_, i) => asked[asked.length - 1 - Math.floor((i * asked.length) / chosen)]!,
  )
  const boards = [last, ...places].flatMap((index) =>
    steps[index] ? [{ index, board: steps[index].before }] : [],
  )
  if (openCount(end) > 0) boards.push({ index: steps.length, board: end })
  return boards.map(({ index, board: { digits, candidates } }) => ({
    board: boardFromMarks(puzzle, digits, candidates),
    solution: solution!,
    name: `${name}, board ${index}`,
  }))
}

const LEFT_AT_THE_END = 6

/** What was asked about one technique on one board. */
export interface Confirmation {
  readonly steps: readonly FoundStep[]
  readonly conclusions: number
  /** Conclusions that the outside judge does not bear out. */
  readonly refuted: readonly Claim[]
}

/**
 * Has every conclusion of every instance confirmed from outside: a SAT library must find the denial of each impossible
 * on the board, or, where a step assumes one solution, the counted solution must agree with each. One judge serves all
 * techniques of a board.
 */
export class Confirmer {
  private readonly sample: Sample
  private readonly formula: ReturnType<typeof boardFormula>
  private readonly answers = new Map<string, boolean>()

  constructor(sample: Sample) {
    this.sample = sample
    this.formula = boardFormula(sample.board)
  }

  confirm(technique: TechniqueName, limit = Number.POSITIVE_INFINITY): Confirmation {
    const steps = findSteps(this.sample.board, { techniques: [technique], limit })
    const refuted: Claim[] = []
    let conclusions = 0
    for (const step of steps) {
      for (const claim of claimsOf(step)) {
        conclusions++
        const holds = step.assumes ? this.agrees(claim) : this.isImplied(claim)
        if (!holds) refuted.push(claim)
      }
    }
    return { steps, conclusions, refuted }
  }

  private agrees({ kind, candidate: { cell, digit } }: Claim): boolean {
    return (this.sample.solution[cell] === digit) === (kind === 'placement')
  }

  private isImplied({ kind, candidate }: Claim): boolean {
    const key = `${kind} ${candidate.cell} ${candidate.digit}`
    let answer = this.answers.get(key)
    if (answer === undefined) {
      answer = this.formula.implies({
        placements: kind === 'placement' ? [candidate] : [],
        removals: kind === 'removal' ? [candidate] : [],
      })
      this.answers.set(key, answer)
    }
    return answer
  }
}
