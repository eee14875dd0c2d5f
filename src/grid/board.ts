import { argumentError, isWhole } from '../check-arguments.js'
import { marksLeft } from './board/marks.js'
import { allDigits, type DigitSet } from './digits.js'
import { checkCell, type Geometry, geometryFrom } from './geometry.js'

/** A digit in a cell, as a possibility or a fact. `cell` counts from 0, `digit` from 1. */
export interface Candidate {
  readonly cell: number
  readonly digit: number
}

/** What a deduction does to a board. */
export interface Conclusion {
  readonly placements: readonly Candidate[]
  readonly removals: readonly Candidate[]
}

/**
 * A step on the way, as plain data: digits placed so far and the candidates (pencil marks) left in the open cells. It
 * can be saved as JSON, cloned and sent to another thread, and serves there as it does here. Never mutated: an edit
 * gives a new board, and to undo it is to go back to the board before.
 *
 * What was removed by hand is kept apart from what digits rule out, also in cells that hold a digit now. So a board
 * depends on its entries and removals alone and not on the order in which they were made: a digit that is erased, or
 * overwritten by another, leaves nothing behind.
 */
export interface Board {
  readonly geometry: Geometry
  /** cell -> was it printed? 1 or 0. */
  readonly given: readonly number[]
  /** cell -> placed digit (givens included), 0 while open. */
  readonly digits: readonly number[]
  /** cell -> candidates left: neither ruled out by a digit in sight nor removed; 0 for a cell with a digit. */
  readonly candidates: readonly DigitSet[]
  /** cell -> candidates removed by hand or by a step, whether or not a digit rules them out, too; 0 for a given. */
  readonly removed: readonly DigitSet[]
  /** cell -> 1 where marks were noted, 0 where nothing was, which leaves every digit open; 1 for a given. */
  readonly noted: readonly number[]
}

/** Boards made here, and those from elsewhere that were checked. */
const known = new WeakSet<object>()

/**
 * A board of parts that are known to fit each other, for code within the package. Its lists are plain arrays and not
 * typed ones: a solving path makes thousands of boards, and a small typed array costs several times as much to make as
 * a slice of 81 small integers.
 */
export function boardOf(
  geometry: Geometry,
  given: readonly number[],
  digits: readonly number[],
  candidates: readonly DigitSet[],
  removed: readonly DigitSet[],
  noted: readonly number[],
): Board {
  const board = { geometry, given, digits, candidates, removed, noted }
  known.add(board)
  return board
}

/**
 * A board from elsewhere (saved data, a clone) is checked once.
 *
 * @throws InputError `argument` for what is no board, or one whose lists do not fit each other
 */
export function checkBoard(value: unknown, name = 'board'): asserts value is Board {
  if (known.has(value as object)) return
  if (typeof value !== 'object' || value === null || !('candidates' in value))
    throw argumentError(name, 'a board', value, ADVICE)
  const { geometry, given, digits, candidates, removed, noted } = value as Board
  const { cellCount, order } = geometryFrom(geometry, `${name}.geometry`)
  const all = allDigits(order)
  const check = (list: readonly number[], part: string, most: number): void => {
    if (!Array.isArray(list) || list.length !== cellCount)
      throw argumentError(`${name}.${part}`, `a list of ${cellCount} numbers`, list, ADVICE)
    for (let cell = 0; cell < cellCount; cell++)
      if (!isWhole(list[cell], 0, most))
        throw argumentError(
          `${name}.${part}[${cell}]`,
          `a whole number from 0 to ${most}`,
          list[cell],
          ADVICE,
        )
  }
  check(given, 'given', 1)
  check(digits, 'digits', order)
  check(candidates, 'candidates', all)
  check(removed, 'removed', all)
  check(noted, 'noted', 1)
  const left = marksLeft(geometry, digits, removed)
  for (let cell = 0; cell < cellCount; cell++) {
    if (candidates[cell] !== left[cell])
      throw argumentError(
        `${name}.candidates[${cell}]`,
        `what the digits and removals leave, ${left[cell]}`,
        candidates[cell],
        ADVICE,
      )
    if (given[cell] && !(digits[cell] && noted[cell] && removed[cell] === 0))
      throw argumentError(`${name}.given[${cell}]`, '0 where no given digit stands', given[cell], ADVICE)
  }
  known.add(value)
}

const ADVICE = 'Make one with newBoard, boardFromMarks or parseBoard, or from saved data with boardFromJson.'

/**
 * @throws InputError `argument` for what is no list of candidates; by hand and not by `listOf`, as solving makes
 *   thousands
 */
export function checkList(list: readonly Candidate[], name: string): void {
  if (!Array.isArray(list)) throw argumentError(name, 'a list of candidates', list)
  for (let i = 0; i < list.length; i++)
    if (typeof list[i] !== 'object' || list[i] === null)
      throw argumentError(`${name}[${i}]`, 'a cell and a digit', list[i])
}

/** @throws InputError `argument` unless these are candidates of the geometry */
export function checkCandidates(geometry: Geometry, list: readonly Candidate[], name: string): void {
  checkList(list, name)
  list.forEach(({ cell, digit }, i) => {
    checkCell(geometry, cell, `${name}[${i}].cell`)
    if (!isWhole(digit, 1, geometry.order))
      throw argumentError(`${name}[${i}].digit`, `a digit from 1 to ${geometry.order}`, digit)
  })
}
