import { InputError } from '../errors.js'
import { type Geometry, STANDARD } from './geometry.js'

/**
 * Givens on a geometry. A puzzle has the right shape and nothing more is promised: whether its givens clash and how
 * many solutions it has are questions for `checkUniqueness`.
 */
export interface Puzzle {
  readonly geometry: Geometry
  /** One number a cell, row by row; 0 is an empty cell. */
  readonly givens: readonly number[]
}

/**
 * The one checked bridge from numbers to a puzzle.
 *
 * @throws InputError `text-shape` when the count of cells is wrong, `text-symbol` when a digit is out of range.
 */
export function makePuzzle(givens: ArrayLike<number>, geometry: Geometry = STANDARD): Puzzle {
  assertDigits(givens, geometry)
  return { geometry, givens: Object.freeze(Array.from(givens)) }
}

function assertDigits(digits: ArrayLike<number>, geometry: Geometry): void {
  if (digits.length !== geometry.cellCount) {
    throw new InputError(
      'text-shape',
      `A ${geometry.name} puzzle has ${geometry.cellCount} cells; ${digits.length} were handed in.`,
    )
  }
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    const digit = digits[cell]!
    if (!Number.isInteger(digit) || digit < 0 || digit > geometry.order) {
      throw new InputError(
        'text-symbol',
        `Cell ${cell} holds ${digit}; a ${geometry.name} puzzle takes 0 (empty) to ${geometry.order}.`,
      )
    }
  }
}

/** Two equal givens in one house. */
export interface Clash {
  readonly house: number
  readonly digit: number
  readonly cells: readonly number[]
}

/**
 * Every house in which a digit stands more than once; empty when there is none.
 *
 * @throws InputError as `makePuzzle` does
 */
export function findClashes(geometry: Geometry, digits: ArrayLike<number>): Clash[] {
  assertDigits(digits, geometry)
  const clashes: Clash[] = []
  for (const house of geometry.houses) {
    const cellsOf = new Map<number, number[]>()
    for (const cell of house.cells) {
      const digit = digits[cell]!
      if (digit === 0) continue
      const cells = cellsOf.get(digit)
      if (cells) cells.push(cell)
      else cellsOf.set(digit, [cell])
    }
    for (const [digit, cells] of cellsOf)
      if (cells.length > 1) clashes.push({ house: house.index, digit, cells })
  }
  return clashes
}
