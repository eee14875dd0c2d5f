import { InputError } from '../errors.js'
import * as shape from '../shape.js'
import { puzzleOf } from './board/ask.js'
import { boardFromMarks, boardFromParts } from './board/make.js'
import { type Board, checkBoard } from './board.js'
import { allDigits, type DigitSet, digitSet, digitsOf } from './digits.js'
import { type Geometry, geometryFrom } from './geometry.js'
import { checkPuzzle, makePuzzle, type Puzzle } from './puzzle.js'

const digit = shape.whole(1, 16)
const digitOrEmpty = shape.whole(0, 16)
const side = shape.whole(1)
const cell = shape.whole()

/** A geometry as saved data, which is the geometry itself. */
export const geometryShape: shape.Shape<Geometry> = shape.object<Geometry>({
  key: shape.text,
  name: shape.text,
  order: side,
  cellCount: side,
  box: shape.optional(shape.object<NonNullable<Geometry['box']>>({ rows: side, columns: side })),
  regions: shape.optional(shape.list(cell, 256)),
  diagonals: shape.optional(shape.only(true)),
  furtherPeers: shape.optional(shape.list(shape.tuple<readonly [number, number]>(cell, cell))),
})

/** A puzzle as saved data. */
export interface PuzzleJson {
  readonly type: 'puzzle'
  readonly geometry: Geometry
  /** One number a cell, row by row, 0 for an empty one. */
  readonly givens: readonly number[]
}

export const puzzleShape: shape.Shape<PuzzleJson> = shape.object<PuzzleJson>({
  type: shape.only('puzzle'),
  geometry: geometryShape,
  givens: shape.list(digitOrEmpty, 256),
})

/** A half-solved board as saved data; all lists have an entry a cell, row by row. */
export interface BoardJson {
  readonly type: 'board'
  readonly geometry: Geometry
  readonly givens: readonly number[]
  /** What the solver wrote; 0 where nothing. */
  readonly placed: readonly number[]
  /** The digits left, null where nothing is noted. */
  readonly candidates: readonly (readonly number[] | null)[]
  /**
   * What was removed by hand, also where a digit stands or rules it out. Without it, what the placed digits leave and
   * `candidates` lack counts as removed.
   */
  readonly removed?: readonly (readonly number[])[] | undefined
}

const setOfDigits = shape.list(digit, 16)

export const boardShape: shape.Shape<BoardJson> = shape.object<BoardJson>({
  type: shape.only('board'),
  geometry: geometryShape,
  givens: shape.list(digitOrEmpty, 256),
  placed: shape.list(digitOrEmpty, 256),
  candidates: shape.list(shape.nullable(setOfDigits), 256),
  removed: shape.optional(shape.list(setOfDigits, 256)),
})

/**
 * A puzzle as it is saved: plain data for `JSON.stringify`, which `puzzleFromJson` takes back.
 *
 * @example
 * const saved = JSON.stringify(puzzleToJson(puzzle))
 * puzzleFromJson(JSON.parse(saved)).givens[0] // → 5
 */
export function puzzleToJson(puzzle: Puzzle): PuzzleJson {
  checkPuzzle(puzzle)
  return { type: 'puzzle', geometry: puzzle.geometry, givens: [...puzzle.givens] }
}

/**
 * The puzzle that `puzzleToJson` saved; saved data is not taken on trust.
 *
 * @throws InputError `json-shape`, `geometry-shape`, or what `makePuzzle` throws
 *
 * @example
 * const puzzle = puzzleFromJson(JSON.parse(await readFile('puzzle.json', 'utf8')))
 */
export function puzzleFromJson(data: unknown): Puzzle {
  const { geometry, givens } = shape.savedAs(puzzleShape, data, 'puzzle')
  return makePuzzle(givens, savedGeometry(geometry))
}

/**
 * A board as it is saved, removals and notes included; `boardFromJson` takes it back.
 *
 * @example
 * const saved = JSON.stringify(boardToJson(board))
 * openCount(boardFromJson(JSON.parse(saved))) // → 57
 */
export function boardToJson(board: Board): BoardJson {
  checkBoard(board)
  return {
    type: 'board',
    geometry: board.geometry,
    givens: [...puzzleOf(board).givens],
    placed: Array.from(board.digits, (placed, cell) => (board.given[cell] ? 0 : placed)),
    candidates: Array.from(board.candidates, (set, cell) => (board.noted[cell] ? digitsOf(set) : null)),
    removed: Array.from(board.removed, digitsOf),
  }
}

/**
 * A board from saved data; `candidates` of a cell with a digit are left out, as the board itself does.
 *
 * @throws InputError `json-shape` when the lists do not fit the geometry or each other, or a cell is given and placed
 *   at once; `geometry-shape`, or what `makePuzzle` throws
 *
 * @example
 * const board = boardFromJson(JSON.parse(localStorage.getItem('board')))
 */
export function boardFromJson(data: unknown): Board {
  const json = shape.savedAs(boardShape, data, 'board')
  const geometry = savedGeometry(json.geometry)
  const puzzle = makePuzzle(json.givens, geometry)
  for (const name of ['placed', 'candidates', 'removed'] as const) {
    const list = json[name]
    if (list && list.length !== geometry.cellCount) {
      throw wrongBoard(name, `${list.length} cells`, `${geometry.cellCount} for "${geometry.name}"`)
    }
  }
  const marks = json.candidates.map((digits, cell) =>
    digits ? savedSet(digits, `candidates.${cell}`, geometry) : undefined,
  )
  json.placed.forEach((placed, cell) => {
    if (placed > geometry.order || (placed && puzzle.givens[cell])) {
      const expected = puzzle.givens[cell] ? '0, since the cell has a given' : `0 to ${geometry.order}`
      throw wrongBoard(`placed.${cell}`, String(placed), expected)
    }
  })
  if (!json.removed) return boardFromMarks(puzzle, json.placed, marks)
  const board = boardFromParts(puzzle, {
    digits: json.placed,
    removed: json.removed.map((digits, cell) => savedSet(digits, `removed.${cell}`, geometry)),
    noted: marks.map((set) => (set === undefined ? 0 : 1)),
  })
  for (const [cell, set] of marks.entries()) {
    const left = board.candidates[cell]!
    if (board.digits[cell] || set === undefined || set === left) continue
    const expected = `[${digitsOf(left)}], which the digits and "removed" leave; leave out "removed" to go by the candidates`
    throw wrongBoard(`candidates.${cell}`, `[${digitsOf(set)}]`, expected)
  }
  return board
}

function savedSet(digits: readonly number[], path: string, { order }: Geometry): DigitSet {
  const set = digitSet(digits)
  if ((set & ~allDigits(order)) !== 0 || digits.length !== new Set(digits).size)
    throw wrongBoard(path, `[${digits}]`, `different digits from 1 to ${order}`)
  return set
}

/** @throws InputError `geometry-shape` when the parts of a saved geometry do not fit each other */
export function savedGeometry(json: Geometry): Geometry {
  try {
    return geometryFrom(json)
  } catch (cause) {
    if (!(cause instanceof InputError)) throw cause
    throw new InputError('geometry-shape', cause.message, { cause })
  }
}

function wrongBoard(path: string, found: string, expected: string): InputError {
  return shape.wrongSaved('board', { path, found, expected })
}
