import type { Board } from '../board.js'
import { type DigitSet, digitBit, digitCount, digitsOf, firstDigit } from '../digits.js'
import type { Geometry } from '../geometry.js'
import type { CellText } from './cells.js'
import { drawGrid } from './draw.js'
import { isRuled, readDrawing } from './drawing.js'
import type { TextFormat } from './format.js'
import { isRuleLine, type TextLine, withoutBars } from './lines.js'
import { EMPTY_CELL, givenCell, orderOfCount, type SheetCell, textError } from './sheet.js'
import { cellNumber, digitSymbol, quoteFound, symbolDigit, symbolRange } from './symbols.js'

/**
 * A pencil-mark grid, ruled or with spaces, tabs, commas or semicolons between cells. A cell is
 *
 * - `5` a given, `+5` a digit the solver has placed,
 * - `157` candidates, ascending; above order 9 `1,5,12` or with letters where no number could be meant (`15C`);
 *   between rules round every cell also `1 5 7`,
 * - `5?` a single candidate, `!` no candidate at all,
 * - `0 . _ *` or nothing: nothing noted, so every digit that the cell's peers leave.
 *
 * A lone digit is taken for a digit and not for a candidate, as is common practice.
 */
export const marksFormat = {
  name: 'marks',

  fits(lines) {
    const hasMarks = lines.some((line) => /[1-9A-G][1-9A-G,]+|[1-9A-G]\?|\+[1-9A-G]|!/i.test(line.text))
    if (!hasMarks) return 0
    const rows = lines.filter((line) => !isRuleLine(line.text))
    const ruled = isRuled(lines)
    const cellsOn = (row: TextLine) =>
      ruled ? withoutBars(row.text).trim().split(/\s+/).length : unruledCells(row, rows.length).length
    if (rows.length > 3 && rows.every((row) => cellsOn(row) === rows.length)) return 2
    return ruled ? 1 : 0
  },

  read(lines, geometry) {
    const { order, texts, line, shape } = isRuled(lines)
      ? readDrawing(lines, geometry)
      : { ...readUnruled(lines, geometry), shape: undefined }
    const cells = texts.map((cell) => readCell(cell, order))
    return { order, cells, line, notes: true, ...(shape ? { shape } : {}) }
  },

  write(board) {
    return drawGrid(
      board.geometry,
      Array.from({ length: board.geometry.cellCount }, (_, cell) => markedCell(board, cell, digitSymbol)),
    )
  },
} as const satisfies TextFormat

function readUnruled(lines: readonly TextLine[], geometry: Geometry | undefined) {
  const order = geometry?.order ?? lines.length
  if (lines.length !== order || orderOfCount(order * order) === 0) {
    throw textError(
      'text-shape',
      { line: lines.at(-1)!.number },
      `${lines.length} lines of cells`,
      geometry ? `${order}` : '4 to 16',
    )
  }
  const texts = lines.flatMap((line) => {
    const cells = unruledCells(line, order)
    if (cells.length !== order) {
      throw textError('text-shape', { line: line.number }, `${cells.length} cells`, `${order} on each line`)
    }
    return cells
  })
  return { order, texts, line: lines[0]!.number }
}

/** Cells of a line: by spaces when that gives the right number, else by tabs, semicolons or commas. */
function unruledCells(line: TextLine, order: number): CellText[] {
  const { text } = line
  const words = [...text.matchAll(/\S+/g)].map((match) => ({
    text: match[0],
    line: line.number,
    column: match.index + 1,
  }))
  const separator = /[\t;]/.exec(line.text)?.[0] ?? (text.includes(',') ? ',' : undefined)
  const isSpaced = words.length === order && !words.some((word) => /[,;]$/.test(word.text))
  if (isSpaced || separator === undefined) return words
  let column = 1
  return line.text.split(separator).map((value) => {
    const start = column + (value.length - value.trimStart().length)
    column += value.length + 1
    return { text: value.trim(), line: line.number, column: start }
  })
}

function readCell(cell: CellText, order: number): SheetCell {
  const { text } = cell
  if (text === '!') return { given: 0, placed: 0, marks: 0 }
  const [, sign, symbol, doubt] = /^(\+?)([0-9A-G._*]{1,2})(\??)$/i.exec(text) ?? []
  if (symbol !== undefined && (symbol.length === 1 || sign || doubt)) {
    const digit = cellNumber(symbol, order)
    if (digit && sign && !doubt) return { given: 0, placed: digit, marks: undefined }
    if (digit && doubt && !sign) return { given: 0, placed: 0, marks: digitBit(digit) }
    if (digit !== undefined && !sign && !doubt) return givenCell(digit)
  }
  if (text === '') return EMPTY_CELL
  const marks = candidatesOf(text, order)
  if (marks === undefined) {
    throw textError(
      'text-symbol',
      cell,
      quoteFound(text),
      `a digit (${symbolRange(order)}), candidates in ascending order such as ${order > 9 ? '1,5,10' : '124'}, +5 for a placed digit, 4? for a single candidate, ! for none, or 0 . _ * for a cell without marks`,
    )
  }
  return { given: 0, placed: 0, marks }
}

/** Two candidates or more, ascending; undefined when the text is not that. */
function candidatesOf(text: string, order: number): DigitSet | undefined {
  const parts = /[\s,]/.test(text) ? text.split(/\s*,\s*|\s+/) : [...text]
  // Above order 9, `12` may be twelve as well as one and two: it has to be written `1,2`.
  if (order > 9 && parts.length === 2 && /^1[0-6]$/.test(text)) return undefined
  let marks = 0
  let last = 0
  for (const part of parts) {
    const digit = part.length === 1 ? symbolDigit(part, order) : (cellNumber(part, order) ?? 0)
    if (digit <= last) return undefined
    marks |= digitBit(digit)
    last = digit
  }
  return parts.length > 1 ? marks : undefined
}

/** What a cell of a pencil-mark grid says; `name` names its digits. */
export function markedCell(board: Board, cell: number, name: (digit: number) => string): string {
  const { order } = board.geometry
  const digit = board.digits[cell]!
  if (digit) return board.given[cell] ? name(digit) : `+${name(digit)}`
  if (!board.isNoted(cell)) return '.'
  const marks = board.candidates[cell]!
  if (marks === 0) return '!'
  if (digitCount(marks) === 1) return `${name(firstDigit(marks))}?`
  return digitsOf(marks)
    .map(name)
    .join(order > 9 ? ',' : '')
}
