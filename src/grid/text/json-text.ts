import { InputError } from '../../errors.js'
import { Board } from '../board.js'
import { boardFromJson, boardToJson, puzzleFromJson, puzzleToJson } from '../json.js'
import { givenCells } from './cells.js'
import type { TextFormat } from './format.js'
import type { TextLine } from './lines.js'
import { orderOfCount, type Sheet, textError } from './sheet.js'

/**
 * Saved data: a puzzle, or a board with what was placed and struck out. The geometry travels along, regions included.
 * A list of numbers, or of rows of them, is read too.
 */
export const jsonFormat = {
  name: 'json',

  fits(lines) {
    return /^\s*[[{]/.test(lines[0]!.text) ? 2 : 0
  },

  read(lines) {
    const data = parseJson(lines)
    const line = lines[0]!.number
    if (Array.isArray(data)) return listSheet(data.flat(), line)
    const isBoard = typeof data === 'object' && data !== null && 'type' in data && data.type === 'board'
    try {
      return sheetOf(isBoard ? boardFromJson(data) : Board.fromPuzzle(puzzleFromJson(data)), line)
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
  },

  /** Written as a puzzle while nothing is placed or struck out by hand, so that no more is saved than is known. */
  write(board) {
    const fresh = Board.fromPuzzle(board.puzzle)
    const untouched = fresh.digits.every(
      (digit, cell) =>
        digit === board.digits[cell] && board.removed[cell] === 0 && board.noted[cell] === fresh.noted[cell],
    )
    return JSON.stringify(untouched ? puzzleToJson(board.puzzle) : boardToJson(board))
  },
} as const satisfies TextFormat

function parseJson(lines: readonly TextLine[]): unknown {
  const text = lines.map((line) => line.text).join('\n')
  try {
    return JSON.parse(text)
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error)
    // Engines say where, but not for every mistake.
    const at = /position (\d+)/.exec(message)?.[1]
    const before = text.slice(0, Number(at ?? 0)).split('\n')
    const line = lines[before.length - 1]!.number
    const place = at === undefined ? { line } : { line, column: before.at(-1)!.length + 1 }
    throw textError('json-shape', place, `text that is no JSON (${message})`, 'a saved puzzle or board')
  }
}

/** A list of numbers, or of rows of numbers; 0, null and empty text are empty cells. */
function listSheet(values: readonly unknown[], line: number): Sheet {
  const order = orderOfCount(values.length)
  if (order === 0) {
    throw textError('json-shape', { line }, `a list of ${values.length} values`, '81 for a 9×9 grid')
  }
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
