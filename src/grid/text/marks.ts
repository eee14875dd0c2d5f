import { isNoted } from '../board/ask.js'
import type { Board } from '../board.js'
import { type DigitSet, digitBit, digitCount, digitsOf, firstDigit } from '../digits.js'
import type { Geometry } from '../geometry.js'
import type { CellText } from './cells.js'
import { counted } from './counted.js'
import { drawGrid } from './draw.js'
import { isRuled, readDrawing } from './drawing.js'
import type { TextFormat } from './format.js'
import { valuesOf, wordsOf } from './line-cells.js'
import { isRuleLine, type TextLine, withoutBars } from './lines.js'
import { barsOf } from './rules.js'
import { EMPTY_CELL, givenCell, orderOfCount, type SheetCell, shapeError, textError } from './sheet.js'
import { cellNumber, digitSymbol, isEmptySymbol, quoteFound, symbolDigit, symbolRange } from './symbols.js'

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

  fits(lines, wantsMarks = false) {
    const hasMarks = lines.some((line) => /[1-9A-G][1-9A-G, ]+|[1-9A-G]\?|\+[1-9A-G]|!/i.test(line.text))
    if (!hasMarks) return 0
    const rows = lines.filter((line) => !isRuleLine(line.text))
    const ruled = isRuled(lines)
    const cells = rows.map((row) => (ruled ? ruledCells(row, rows.length) : unruledCells(row, rows.length)))
    const texts = cells.flatMap((row) => row.map((cell) => cell.text))
    const whole = cells
      .filter((row) => row.length === rows.length)
      .flatMap((row) => row.map(({ text }) => text))
    const isMeant =
      areNoted(whole, rows.length) ||
      (ruled && whole.length === texts.length && areAligned(rows)) ||
      (wantsMarks &&
        texts.some((text) => /^\+?[1-9A-G]\??$|^!$/i.test(text) && text.length + Number(text === '!') > 1))
    if (!isMeant) return 0
    if (rows.length > 3 && cells.every((row) => row.length === rows.length)) return 2
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

/** Cells of a row with grid lines: what stands between them if they are round every cell, else words. */
function ruledCells({ text, number }: TextLine, order: number): { text: string }[] {
  const bars = barsOf(text)
  const pieces = [{ to: 0 }, ...bars].map((bar, i) => text.slice(bar.to, bars[i]?.from).trim())
  const from = pieces.length > order && pieces[0] === '' ? 1 : 0
  const inner = pieces.slice(from, from + order)
  // a frame round two boxes of two cells has as many pieces as cells, two of them outside
  const isFrame = pieces.length === order && pieces[0] === '' && pieces.at(-1) === ''
  const areBoxes = isFrame && pieces.some((piece) => piece.includes(' '))
  const isEach = inner.length === order && pieces.length <= order + 2 && !areBoxes
  return isEach ? inner.map((piece) => ({ text: piece })) : wordsOf({ text: withoutBars(text), number })
}

/** Fewer cells with pencil marks than these may be digits that have run together. */
const FEWEST_NOTED = 3

/** Are there so many cells with pencil marks, a third of those without a digit at least, that they are meant? */
function areNoted(cells: readonly string[], order: number): boolean {
  let noted = 0
  let blank = 0
  for (const cell of cells) {
    if (cell === '' || isEmptySymbol(cell)) blank++
    else if (cell.length > 1 && cellNumber(cell, order) === undefined) noted++
  }
  return noted >= FEWEST_NOTED && noted * 2 >= blank
}

/**
 * Are cells padded to one width, more than a digit? Then grid lines stand in the same columns on every row, and no cell
 * begins before the longest would end.
 */
function areAligned(rows: readonly TextLine[]): boolean {
  const words = rows.map((row) => wordsOf({ text: withoutBars(row.text), number: row.number }))
  const longest = words.flat().reduce((most, { text }) => Math.max(most, text.length), 0)
  const isTight = (row: readonly CellText[]) =>
    row.some((word, i) => i > 0 && word.column - row[i - 1]!.column <= longest)
  if (longest < 2 || words.some(isTight)) return false
  const columns = rows.map(({ text }) =>
    barsOf(text)
      .map((bar) => bar.from)
      .join(),
  )
  return columns.every((each) => each === columns[0])
}

function readUnruled(lines: readonly TextLine[], geometry: Geometry | undefined) {
  const order = geometry?.order ?? lines.length
  if (lines.length !== order || orderOfCount(order * order) === 0) {
    throw shapeError(
      lines.at(-1)!.number,
      `${counted(lines.length, 'line')} of cells`,
      geometry ? `${order}` : '4 to 16',
    )
  }
  const texts = lines.flatMap((line) => {
    const cells = unruledCells(line, order)
    if (cells.length !== order) {
      throw shapeError(line.number, counted(cells.length, 'cell'), `${order} on each line`)
    }
    return cells
  })
  return { order, texts, line: lines[0]!.number }
}

/** Cells of a line: by spaces when that gives the right number, else by tabs, semicolons or commas. */
function unruledCells(line: TextLine, order: number): CellText[] {
  const { text } = line
  const words = wordsOf(line)
  const separator = /[\t;]/.exec(line.text)?.[0] ?? (text.includes(',') ? ',' : undefined)
  const isSpaced = words.length === order && !words.some((word) => /[,;]$/.test(word.text))
  if (isSpaced || separator === undefined) return words
  return valuesOf(line, separator)
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
  if (!isNoted(board, cell)) return '.'
  const marks = board.candidates[cell]!
  if (marks === 0) return '!'
  if (digitCount(marks) === 1) return `${name(firstDigit(marks))}?`
  return digitsOf(marks)
    .map(name)
    .join(order > 9 ? ',' : '')
}
