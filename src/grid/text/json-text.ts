import { InputError } from '../../errors.js'
import { puzzleOf } from '../board/ask.js'
import { newBoard } from '../board/make.js'
import type { Board } from '../board.js'
import { boardFromJson, boardToJson, puzzleFromJson, puzzleToJson } from '../json.js'
import { givenCells } from './cells.js'
import { counted } from './counted.js'
import type { TextFormat } from './format.js'
import { jsonFault } from './json-fault.js'
import { DEEPEST, JsonScan } from './json-scan.js'
import type { TextLine } from './lines.js'
import { orderOfCount, type Sheet, textError } from './sheet.js'
import { quoteFound } from './symbols.js'

/**
 * Saved data: a puzzle, or a board with what was placed and struck out. The geometry travels along, regions included.
 * A list of numbers, of rows of them, or of strings is read too.
 */
export const jsonFormat = {
  name: 'json',

  fits(lines) {
    return /^\s*[[{]/.test(lines[0]!.text) ? 2 : 0
  },

  read(lines, geometry) {
    const [first, ...others] = readJsonGrids(lines, geometry?.order)
    if (others.length > 0) {
      throw textError(
        'json-shape',
        { line: lines[0]!.number },
        `a list of ${others.length + 1} grids`,
        'one; read texts of many puzzles with readPuzzles',
      )
    }
    if (first instanceof InputError) throw first
    return first!
  },

  /** Written as a puzzle while nothing is placed or struck out by hand, so that no more is saved than is known. */
  write(board) {
    const fresh = newBoard(puzzleOf(board))
    const untouched = fresh.digits.every(
      (digit, cell) =>
        digit === board.digits[cell] && board.removed[cell] === 0 && board.noted[cell] === fresh.noted[cell],
    )
    return JSON.stringify(untouched ? puzzleToJson(puzzleOf(board)) : boardToJson(board))
  },
} as const satisfies TextFormat

/**
 * All grids that a piece of JSON holds, one at least, each one or what is wrong with it.
 *
 * @throws InputError `json-shape` when it is no JSON, or nested too deeply.
 */
export function readJsonGrids(lines: readonly TextLine[], order?: number): (Sheet | InputError)[] {
  return gridsOf(parseJson(lines), { line: lines[0]!.number, order, depth: 0 })
}

function parseJson(lines: readonly TextLine[]): unknown {
  const scan = new JsonScan()
  for (const line of lines) {
    scan.add(line.text)
    if (scan.deepest > DEEPEST) {
      throw textError(
        'json-shape',
        { line: line.number },
        `JSON with brackets more than ${DEEPEST} deep`,
        'a saved puzzle or board',
      )
    }
  }
  const text = lines.map((line) => line.text).join('\n')
  try {
    return JSON.parse(text)
  } catch {
    const { at, expected } = jsonFault(text)!
    const before = text.slice(0, at).split('\n')
    const place = { line: lines[before.length - 1]!.number, column: before.at(-1)!.length + 1 }
    const found =
      at < text.length ? `${quoteFound(text[at]!)} in what should be JSON` : 'the end of unfinished JSON'
    throw textError('json-shape', place, found, expected)
  }
}

interface Place {
  readonly line: number
  /** What the caller says the grids are. */
  readonly order: number | undefined
  readonly depth: number
}

/** Lists in lists beyond this hold no grids. */
const MOST_LISTS = 3

function gridsOf(data: unknown, place: Place): (Sheet | InputError)[] {
  if (typeof data === 'string') return [caughtSheet(() => listSheet([...data], place.line))]
  if (!Array.isArray(data)) return [caughtSheet(() => savedSheet(data, place.line))]
  const grid = gridOfList(data, place)
  if (grid) return [grid]
  if (place.depth === MOST_LISTS) return [listError(place.line, 'lists in lists in lists', 'a list of grids')]
  return data.flatMap((item) => gridsOf(item, { ...place, depth: place.depth + 1 }))
}

const isCell = (value: unknown) =>
  typeof value !== 'object' && !(typeof value === 'string' && value.length > 2)

/** An empty cell, or a digit of a 4×4 grid. */
const isSmall = (value: unknown) => /^[0-4._*xo?-]?$/i.test(String(value ?? ''))

/** The one grid that a list is, or what is wrong with it; undefined for a list of several. */
function gridOfList(list: readonly unknown[], { line, order }: Place): Sheet | InputError | undefined {
  if (list.length === 0) return listError(line, 'an empty list', '81 values for a 9×9 grid')
  if (list.every((value) => value === null || isCell(value))) return caughtSheet(() => listSheet(list, line))

  const rows = list.map((row) => (typeof row === 'string' ? [...row] : row))
  const areRows = rows.every(
    (row): row is unknown[] =>
      Array.isArray(row) && row.length > 0 && row.every((value) => value === null || isCell(value)),
  )
  if (!areRows) return undefined
  const sixteens = rows.filter((row) => row.length === 16)
  const hasLarge = sixteens.flat().some((value) => !isSmall(value))
  // Lists of sixteen with digits above 4 among them are the rows of a 16×16 grid, be they one too few or too many.
  if (rows.length !== 16 && sixteens.length * 2 > rows.length && hasLarge && order !== 4)
    return listError(line, `${counted(rows.length, 'row')} of a 16×16 grid`, '16')
  // Lists of as many values, too few for a grid each, are rows, be they one too few or too many.
  const width = rows[0]!.length
  if (width !== rows.length && isRowWidth(width) && rows.every((row) => row.length === width))
    return listError(line, `${counted(rows.length, 'row')} of ${width} values`, `${width}`)
  const fitting = rows.filter((row) => row.length === rows.length).length
  if (orderOfCount(rows.length ** 2) === 0 || fitting * 2 <= rows.length) return undefined
  const wrong = rows.findIndex((row) => row.length !== rows.length)
  if (wrong >= 0) {
    return listError(
      line,
      `row ${wrong + 1} of the list with ${counted(rows[wrong]!.length, 'value')}`,
      `${rows.length} in each of ${rows.length} rows`,
    )
  }
  // Sixteen lists of sixteen are one grid or sixteen 4×4 ones.
  if (rows.length === 16 && order !== 16) {
    if (order === 4 || rows.flat().every(isSmall)) return undefined
  }
  return caughtSheet(() => listSheet(rows.flat(), line))
}

/** As many values as a row can have, and no small grid. */
function isRowWidth(width: number): boolean {
  return orderOfCount(width ** 2) > 0 && orderOfCount(width) === 0
}

function listError(line: number, found: string, expected: string): InputError {
  return textError('json-shape', { line }, found, expected)
}

function caughtSheet(read: () => Sheet): Sheet | InputError {
  try {
    return read()
  } catch (error) {
    if (error instanceof InputError) return error
    throw error
  }
}

function savedSheet(data: unknown, line: number): Sheet {
  const isBoard = typeof data === 'object' && data !== null && 'type' in data && data.type === 'board'
  try {
    return sheetOf(isBoard ? boardFromJson(data) : newBoard(puzzleFromJson(data)), line)
  } catch (error) {
    throw error instanceof InputError
      ? textError(
          error.code,
          { line },
          `JSON that is no puzzle (${error.message})`,
          'a saved puzzle or board',
        )
      : error
  }
}

/** A list of the values of one grid; 0, null and empty text are empty cells. */
function listSheet(values: readonly unknown[], line: number): Sheet {
  const order = orderOfCount(values.length)
  if (order === 0) throw listError(line, `a list of ${counted(values.length, 'value')}`, '81 for a 9×9 grid')
  const texts = values.map((value) => ({ text: String(value ?? ''), line, column: 1 }))
  return { order, line, cells: givenCells(texts, order) }
}

function sheetOf(board: Board, line: number): Sheet {
  const { geometry } = board
  return {
    order: geometry.order,
    line,
    shape: { kind: 'known', geometry },
    parts: board,
    cells: Array.from({ length: geometry.cellCount }, (_, cell) => {
      const digit = board.digits[cell]!
      const given = board.given[cell] === 1
      return {
        given: given ? digit : 0,
        placed: given ? 0 : digit,
        marks: digit ? undefined : board.candidates[cell]!,
      }
    }),
  }
}
