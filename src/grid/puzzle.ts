import { argumentError, arrayLike, isWhole, shown } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { checkGeometry, type Geometry, geometryFrom, STANDARD } from './geometry.js'
import { layoutOf } from './layout.js'

/**
 * Only in the types: what extends it comes out of a checked bridge and cannot be written down by hand. The member is
 * protected since spreading drops such members: `{ ...puzzle, givens }` is no puzzle.
 */
declare abstract class Checked {
  protected readonly checked: true
}

/**
 * Givens on a geometry. A puzzle has the right shape and nothing more is promised: whether its givens clash and how
 * many solutions it has are questions for `checkUniqueness`. Made by `makePuzzle`, by reading text, JSON
 * (`puzzleFromJson`) or a picture, and by nothing else. Plain data: save it with `puzzleToJson`.
 */
export interface Puzzle extends Checked {
  readonly geometry: Geometry
  /** One number a cell, row by row; 0 is an empty cell. */
  readonly givens: readonly number[]
}

/**
 * Puzzles that came over the bridge: frozen, so what was right then is right still, and need not be looked at again.
 */
const made = new WeakSet<object>()

/**
 * The one checked bridge from numbers to a puzzle.
 *
 * @throws InputError `text-shape` when the count of cells is wrong, `text-symbol` when a digit is out of range,
 *   `argument` for what is no list or no geometry.
 *
 * @example
 * const puzzle = makePuzzle([5, 3, ...new Array(79).fill(0)])
 * puzzle.geometry === STANDARD // → true
 */
export function makePuzzle(givens: ArrayLike<number>, geometry: Geometry = STANDARD): Puzzle {
  const rules = geometryFrom(geometry)
  arrayLike(givens, 'givens')
  assertDigits(givens, rules)
  const puzzle = uncheckedPuzzle(Object.freeze(Array.from(givens)), rules)
  made.add(Object.freeze(puzzle))
  return puzzle
}

/** A puzzle of digits that are known to be right, such as those of a board: for code within the package only. */
export function uncheckedPuzzle(givens: readonly number[], geometry: Geometry): Puzzle {
  return { geometry, givens } as Puzzle
}

/**
 * The shape of what is handed in as a puzzle. One that `makePuzzle` made is known; another is looked at, cell by cell.
 *
 * @throws InputError `argument`
 */
export function checkPuzzle(value: unknown, name = 'puzzle'): asserts value is Puzzle {
  if (made.has(value as object)) return
  const advice = 'Make puzzles with makePuzzle, parsePuzzle or puzzleFromJson.'
  if (typeof value !== 'object' || value === null || !('geometry' in value) || !('givens' in value))
    throw argumentError(name, 'a puzzle', value, advice)
  const { geometry, givens } = value
  checkGeometry(geometry, `${name}.geometry`)
  const { cellCount, order } = geometry
  if (!Array.isArray(givens) || givens.length !== cellCount)
    throw argumentError(`${name}.givens`, `a list of ${cellCount} digits`, givens, advice)
  for (let cell = 0; cell < cellCount; cell++)
    if (!isWhole(givens[cell], 0, order))
      throw argumentError(`${name}.givens[${cell}]`, `a digit from 0 to ${order}`, givens[cell], advice)
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
        `Cell ${cell} holds ${shown(digit)}; a ${geometry.name} puzzle takes 0 (empty) to ${geometry.order}.`,
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
 *
 * @example
 * findClashes(STANDARD, [5, 5, ...new Array(79).fill(0)])[0]?.cells // → [0, 1]
 */
export function findClashes(geometry: Geometry, digits: ArrayLike<number>): Clash[] {
  checkGeometry(geometry)
  arrayLike(digits, 'digits')
  assertDigits(digits, geometry)
  const clashes: Clash[] = []
  for (const house of layoutOf(geometry).houses) {
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
