import * as z from 'zod'
import { InputError } from '../errors.js'
import { puzzleOf } from './board/ask.js'
import { boardFromMarks, boardFromParts } from './board/make.js'
import { type Board, checkBoard } from './board.js'
import { allDigits, type DigitSet, digitSet, digitsOf } from './digits.js'
import { type Geometry, geometryFrom } from './geometry.js'
import { checkPuzzle, makePuzzle, type Puzzle } from './puzzle.js'

const digit = z.int().min(1).max(16)
const digitOrEmpty = z.int().min(0).max(16)

/** A geometry as saved data, which is the geometry itself. */
export const geometrySchema: z.ZodType<Geometry> = z.strictObject({
  key: z.string(),
  name: z.string(),
  order: z.int().positive(),
  cellCount: z.int().positive(),
  box: z.strictObject({ rows: z.int().positive(), columns: z.int().positive() }).exactOptional(),
  regions: z.array(z.int().nonnegative()).max(256).exactOptional(),
  diagonals: z.literal(true).exactOptional(),
  furtherPeers: z.array(z.tuple([z.int().nonnegative(), z.int().nonnegative()])).exactOptional(),
})

/** A puzzle as saved data; `givens` has one number a cell, row by row, 0 for an empty one. */
export const puzzleSchema = z.strictObject({
  type: z.literal('puzzle'),
  geometry: geometrySchema,
  givens: z.array(digitOrEmpty).max(256),
})

const setOfDigits = z.array(digit).max(16)

/**
 * A half-solved board as saved data. `placed` holds what the solver wrote; `candidates` the digits left in each cell,
 * null where nothing is noted; `removed` what was removed by hand, also where a digit stands or rules it out. Without
 * `removed`, what the placed digits leave and `candidates` lack counts as removed.
 */
export const boardSchema = z.strictObject({
  type: z.literal('board'),
  geometry: geometrySchema,
  givens: z.array(digitOrEmpty).max(256),
  placed: z.array(digitOrEmpty).max(256),
  candidates: z.array(setOfDigits.nullable()).max(256),
  removed: z.array(setOfDigits).max(256).optional(),
})

export type PuzzleJson = z.infer<typeof puzzleSchema>
export type BoardJson = z.infer<typeof boardSchema>

export function puzzleToJson(puzzle: Puzzle): PuzzleJson {
  checkPuzzle(puzzle)
  return { type: 'puzzle', geometry: puzzle.geometry, givens: [...puzzle.givens] }
}

/** @throws InputError `json-shape`, `geometry-shape`, or what `makePuzzle` throws */
export function puzzleFromJson(data: unknown): Puzzle {
  const { geometry, givens } = checked(puzzleSchema, data, 'puzzle')
  return makePuzzle(givens, savedGeometry(geometry))
}

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
 */
export function boardFromJson(data: unknown): Board {
  const json = checked(boardSchema, data, 'board')
  const geometry = savedGeometry(json.geometry)
  const puzzle = makePuzzle(json.givens, geometry)
  for (const name of ['placed', 'candidates', 'removed'] as const) {
    const list = json[name]
    if (list && list.length !== geometry.cellCount) {
      throw wrongJson('board', name, `${list.length} cells`, `${geometry.cellCount} for "${geometry.name}"`)
    }
  }
  const marks = json.candidates.map((digits, cell) =>
    digits ? savedSet(digits, `candidates.${cell}`, geometry) : undefined,
  )
  json.placed.forEach((placed, cell) => {
    if (placed > geometry.order || (placed && puzzle.givens[cell])) {
      const expected = puzzle.givens[cell] ? '0, since the cell has a given' : `0 to ${geometry.order}`
      throw wrongJson('board', `placed.${cell}`, String(placed), expected)
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
    throw wrongJson('board', `candidates.${cell}`, `[${digitsOf(set)}]`, expected)
  }
  return board
}

function savedSet(digits: readonly number[], path: string, { order }: Geometry): DigitSet {
  const set = digitSet(digits)
  if ((set & ~allDigits(order)) !== 0 || digits.length !== new Set(digits).size)
    throw wrongJson('board', path, `[${digits}]`, `different digits from 1 to ${order}`)
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

/** Saved data that fits its schema, or the `json-shape` error that says where it does not. */
export function checked<T>(schema: z.ZodType<T>, data: unknown, what: string): T {
  const result = schema.safeParse(data)
  if (result.success) return result.data
  const issue = result.error.issues[0]!
  throw wrongJson(
    what,
    issue.path.join('.'),
    issue.message,
    `a saved ${what} as ${what}ToJson writes it`,
    result.error,
  )
}

function wrongJson(what: string, path: string, found: string, expected: string, cause?: unknown): InputError {
  const where = path === '' ? '' : ` at "${path}"`
  return new InputError('json-shape', `Saved ${what}${where}: found ${found}; expected ${expected}.`, {
    found,
    expected,
    ...(cause === undefined ? {} : { cause }),
  })
}
