import { type Board, checkBoard } from '../board.js'
import { allDigits, type DigitSet, digitBit, firstDigit } from '../digits.js'
import { layoutOf } from '../layout.js'
import { type Puzzle, uncheckedPuzzle } from '../puzzle.js'
import { assertWithin } from './numbers.js'

/**
 * The printed puzzle this board began from.
 *
 * @example
 * puzzleOf(board).givens[0] // → 5
 */
export function puzzleOf(board: Board): Puzzle {
  checkBoard(board)
  const { given, digits, geometry } = board
  return uncheckedPuzzle(
    Array.from(digits, (digit, cell) => (given[cell] ? digit : 0)),
    geometry,
  )
}

/**
 * Is the digit still a candidate of the cell? Not where there is no such cell or digit either.
 *
 * @example
 * hasCandidate(board, 64, 4) // → true
 */
export function hasCandidate(board: Board, cell: number, digit: number): boolean {
  checkBoard(board)
  if (typeof cell !== 'number' || typeof digit !== 'number') return false
  return digit >= 1 && digit <= board.geometry.order && (board.candidates[cell]! & digitBit(digit)) !== 0
}

/**
 * Cells without a digit.
 *
 * @example
 * openCount(board) // → 57
 */
export function openCount(board: Board): number {
  checkBoard(board)
  let open = 0
  for (let cell = 0; cell < board.geometry.cellCount; cell++) if (board.digits[cell] === 0) open++
  return open
}

/**
 * Where a digit may still go in a house, as a set of positions (bit i: the i-th cell of the house).
 *
 * @throws InputError `argument` for a house or digit that there is not
 *
 * @example
 * digitsOf(placesIn(board, 24, 4)) // the 4 of box 7, by place in the box: → [5]
 */
export function placesIn(board: Board, house: number, digit: number): DigitSet {
  checkBoard(board)
  const { houses, order } = layoutOf(board.geometry)
  assertWithin('house', house, 0, houses.length - 1)
  assertWithin('digit', digit, 1, order)
  const bit = digitBit(digit)
  const { cells } = houses[house]!
  let places = 0
  for (let i = 0; i < cells.length; i++) if (board.candidates[cells[i]!]! & bit) places |= 1 << i
  return places
}

/**
 * Does this cell show marks of its owner? Not where nothing was noted and nothing removed.
 *
 * @throws InputError `argument` for a cell that there is not
 *
 * @example
 * isNoted(board, 64) // a new board has all its marks: → true
 */
export function isNoted(board: Board, cell: number): boolean {
  checkBoard(board)
  assertWithin('cell', cell, 0, board.geometry.cellCount - 1)
  return board.noted[cell] === 1 || board.removed[cell]! > 0
}

/**
 * Why a board cannot be finished: a cell without candidates, a house without room for a digit, or one that has a digit
 * twice.
 */
export type BoardContradiction =
  | { readonly kind: 'empty-cell'; readonly cell: number }
  | { readonly kind: 'digit-twice'; readonly house: number; readonly digit: number }
  | { readonly kind: 'no-place'; readonly house: number; readonly digit: number }

/**
 * Why this board cannot be finished as it stands: an open cell without candidates, a house with a digit twice, or a
 * house without a place for a digit. `undefined` while nothing of the kind shows.
 *
 * @example
 * contradictionOf(board) // → undefined
 */
export function contradictionOf(board: Board): BoardContradiction | undefined {
  checkBoard(board)
  const { geometry, digits, candidates } = board
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    if (digits[cell] === 0 && candidates[cell] === 0) return { kind: 'empty-cell', cell }
  }
  for (const house of layoutOf(geometry).houses) {
    let placed = 0
    let open = 0
    for (const cell of house.cells) {
      const digit = digits[cell]!
      if (digit === 0) open |= candidates[cell]!
      else if (placed & digitBit(digit)) return { kind: 'digit-twice', house: house.index, digit }
      else placed |= digitBit(digit)
    }
    const missing = allDigits(geometry.order) & ~placed & ~open
    if (missing) return { kind: 'no-place', house: house.index, digit: firstDigit(missing) }
  }
  return undefined
}
