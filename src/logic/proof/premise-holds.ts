import type { Board, Candidate } from '../../grid/board.js'
import { digitBit, digitSet, digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Premise } from '../steps/step.js'

/** A premise that does not hold on the board as it stands. */
export interface PremiseFault {
  readonly kind: 'premise-fails'
  /** Position in the step's list. */
  readonly index: number
  readonly premise: Premise
  /** Alternatives that the board leaves open and the premise does not mention. */
  readonly unmentioned: readonly Candidate[]
  /** Alternatives of the premise that the board has ruled out. */
  readonly ruledOut: readonly Candidate[]
}

/** The premise that a cell gives on this board: one of its candidates, or the digit that stands in it. */
export function cellPremise(board: Board, cell: number): Premise {
  const placed = board.digits[cell]!
  return { kind: 'cell', cell, digits: placed ? [placed] : digitsOf(board.candidates[cell]!) }
}

/** The premise that a house gives for a digit on this board: one of its places, or the cell where it stands. */
export function housePremise(board: Board, house: number, digit: number): Premise {
  const bit = digitBit(digit)
  const cells: number[] = []
  for (const cell of layoutOf(board.geometry).houses[house]!.cells) {
    if (board.digits[cell] === digit || board.candidates[cell]! & bit) cells.push(cell)
  }
  return { kind: 'house', house, digit, cells }
}

/** The first premise that the board does not bear out exactly, if any. Expects well-formed premises. */
export function findPremiseFault(board: Board, premises: readonly Premise[]): PremiseFault | undefined {
  for (let index = 0; index < premises.length; index++) {
    const premise = premises[index]!
    const fault = premise.kind === 'cell' ? cellFault(board, premise) : houseFault(board, premise)
    if (fault) return { kind: 'premise-fails', index, premise, ...fault }
  }
  return undefined
}

type Difference = Pick<PremiseFault, 'unmentioned' | 'ruledOut'>

function cellFault(board: Board, premise: Premise & { kind: 'cell' }): Difference | undefined {
  const { cell } = premise
  const placed = board.digits[cell]!
  const actual = placed ? digitBit(placed) : board.candidates[cell]!
  const claimed = digitSet(premise.digits)
  if (actual === claimed) return undefined
  const inCell = (digit: number): Candidate => ({ cell, digit })
  return {
    unmentioned: digitsOf(actual & ~claimed).map(inCell),
    ruledOut: digitsOf(claimed & ~actual).map(inCell),
  }
}

function houseFault(board: Board, premise: Premise & { kind: 'house' }): Difference | undefined {
  const { house, digit } = premise
  const actual = housePremise(board, house, digit) as typeof premise
  const claimed = new Set(premise.cells)
  const unmentioned = actual.cells.filter((cell) => !claimed.has(cell))
  const ruledOut = premise.cells.filter((cell) => !actual.cells.includes(cell))
  if (unmentioned.length === 0 && ruledOut.length === 0) return undefined
  const withDigit = (cell: number): Candidate => ({ cell, digit })
  return { unmentioned: unmentioned.map(withDigit), ruledOut: ruledOut.map(withDigit) }
}
