import { arrayLike, object } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import { type Board, boardOf, checkBoard } from '../board.js'
import { allDigits, type DigitSet } from '../digits.js'
import { type Geometry, geometryFrom } from '../geometry.js'
import { checkPuzzle, type Puzzle } from '../puzzle.js'
import { leftByDigits, marksLeft } from './marks.js'
import { assertWithin } from './numbers.js'

/** What the owner of a board has done to it: all that a board is made of, besides its puzzle. */
export interface BoardParts {
  /** cell -> digit that stands there (givens included), 0 while open. */
  readonly digits: ArrayLike<number>
  /** cell -> candidates removed by hand. */
  readonly removed: ArrayLike<DigitSet>
  /** cell -> 1 where marks were noted, 0 where nothing was. */
  readonly noted: ArrayLike<number>
}

/**
 * The board that a puzzle begins with: all pencil marks that the givens leave.
 *
 * @throws InputError `argument` for what is no puzzle
 *
 * @example
 * const board = newBoard(puzzle)
 * board.digits[0] // → 5
 * digitsOf(board.candidates[64]!) // → [1, 2, 4, 5]
 */
export function newBoard(puzzle: Puzzle): Board {
  checkPuzzle(puzzle)
  const { cellCount, order } = puzzle.geometry
  return boardFromMarks(puzzle, puzzle.givens, new Array(cellCount).fill(allDigits(order)))
}

/**
 * A half-solved board: what is written in each cell, and which candidates its owner has noted in the open ones.
 *
 * `undefined` is a cell in which nothing is noted: every digit stays open there that the placed digits leave. 0 is a
 * cell in which all candidates are struck out. Of what the placed digits leave, a candidate that is not noted counts as
 * removed by hand; noted ones that a placed digit rules out do not show until that digit is erased.
 *
 * ```ts
 * boardFromMarks(puzzle, board.digits, new Array(81).fill(undefined)) // digits only: no pencil marks so far
 * ```
 *
 * @param digits cell -> placed digit (givens included) or 0
 * @param candidates cell -> candidates noted, or undefined; a set is ignored where a digit is placed
 * @throws InputError `argument` when a list has another length than the board, a number makes no sense there, or a
 *   digit is not the given
 */
export function boardFromMarks(
  puzzle: Puzzle,
  digits: ArrayLike<number>,
  candidates: ArrayLike<DigitSet | undefined>,
): Board {
  checkPuzzle(puzzle)
  arrayLike(digits, 'digits')
  arrayLike(candidates, 'candidates')
  const { givens } = puzzle
  const geometry = geometryFrom(puzzle.geometry)
  assertLengths(geometry, digits, candidates)
  assertDigits(puzzle, digits)
  const all = allDigits(geometry.order)
  for (let cell = 0; cell < geometry.cellCount; cell++)
    if ((givens[cell] || digits[cell]) === 0 && candidates[cell] !== undefined)
      assertWithin('set of candidates', candidates[cell], 0, all, cell)
  const placed = standing(puzzle, digits)
  const left = leftByDigits(geometry, placed)
  // Entry by entry: lists that come out of `map` are of two kinds, as it is compiled or not, and code that reads both
  // is slower.
  const removed: DigitSet[] = []
  const noted: number[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    const marks = placed[cell] ? all : (candidates[cell] ?? all)
    removed.push(left[cell]! & ~marks)
    noted.push(candidates[cell] === undefined && !givens[cell] ? 0 : 1)
    left[cell] = left[cell]! & marks
  }
  return boardOf(geometry, givenCells(puzzle), placed, left, removed, noted)
}

/**
 * A board from all that its owner has done, removals under placed digits included: `boardFromParts(puzzle, board)`
 * gives an equal board.
 *
 * @throws InputError `argument` when a list has another length than the board, a number makes no sense there, or a
 *   digit is not the given
 *
 * @example
 * boardFromParts(puzzle, board) // an equal board
 */
export function boardFromParts(puzzle: Puzzle, parts: BoardParts): Board {
  checkPuzzle(puzzle)
  object(parts, 'parts')
  arrayLike(parts.digits, 'parts.digits')
  arrayLike(parts.removed, 'parts.removed')
  arrayLike(parts.noted, 'parts.noted')
  const { givens } = puzzle
  const geometry = geometryFrom(puzzle.geometry)
  assertLengths(geometry, parts.digits, parts.removed)
  assertLengths(geometry, parts.digits, parts.noted)
  assertDigits(puzzle, parts.digits)
  const placed = standing(puzzle, parts.digits)
  const removed: DigitSet[] = []
  const noted: number[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    assertWithin('set of candidates', parts.removed[cell], 0, allDigits(geometry.order), cell)
    assertWithin('number of notes', parts.noted[cell], 0, 1, cell)
    removed.push(givens[cell] ? 0 : parts.removed[cell]!)
    noted.push(givens[cell] ? 1 : parts.noted[cell]!)
  }
  return boardOf(geometry, givenCells(puzzle), placed, marksLeft(geometry, placed, removed), removed, noted)
}

const isBoard = (source: unknown): source is Board =>
  typeof source === 'object' && source !== null && 'candidates' in source

/** @throws InputError `argument` for what is neither a board nor a puzzle */
export function checkSource(source: unknown, name = 'source'): asserts source is Board | Puzzle {
  if (isBoard(source)) checkBoard(source, name)
  else checkPuzzle(source, name)
}

/** A board as it is, or the one that a puzzle begins with. */
export function boardFrom(source: Board | Puzzle, name = 'source'): Board {
  checkSource(source, name)
  return isBoard(source) ? source : newBoard(source)
}

function assertLengths(geometry: Geometry, digits: ArrayLike<number>, marks: ArrayLike<unknown>): void {
  const { cellCount, name } = geometry
  if (digits.length !== cellCount || marks.length !== cellCount)
    throw new InputError(
      'argument',
      `A board of ${name} takes ${cellCount} digits and sets of candidates, not ${digits.length} and ${marks.length}.`,
    )
}

function assertDigits({ geometry, givens }: Puzzle, digits: ArrayLike<number>): void {
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    assertWithin('digit', digits[cell], 0, geometry.order, cell)
    if (digits[cell] !== 0 && givens[cell] !== 0 && digits[cell] !== givens[cell])
      throw new InputError(
        'argument',
        `Cell ${cell} has the given ${givens[cell]}, so ${digits[cell]} cannot stand there.`,
      )
  }
}

function givenCells({ geometry, givens }: Puzzle): number[] {
  const given: number[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) given.push(givens[cell] ? 1 : 0)
  return given
}

function standing({ geometry, givens }: Puzzle, digits: ArrayLike<number>): number[] {
  const placed: number[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) placed.push(givens[cell]! || digits[cell]!)
  return placed
}
