import { type CellText, givenCells } from './cells.js'
import { counted } from './counted.js'
import type { TextFormat } from './format.js'
import { charactersOnLine } from './line.js'
import { symbolsOf } from './line-cells.js'
import { isRuleLine, type TextLine } from './lines.js'
import { refuseRaggedGroups } from './ragged-groups.js'
import { orderOfCount, shapeError, textError } from './sheet.js'
import { cellNumber, digitSymbol, isOtherEmptySymbol } from './symbols.js'

/**
 * As many lines as cells on a line, one character a cell: nine lines of nine. Every line may be split alike by spaces.
 */
export const rowsFormat = {
  name: 'rows',

  fits(lines) {
    if (lines.length < 2 || lines.some(({ text }) => /[,;|\t\u2500-\u257f]/.test(text) || isRuleLine(text)))
      return 0
    const order = lines.length
    return lines.every((line) => symbolsOf(line).length === order) ? 2 : 1
  },

  read(lines, geometry) {
    const order = geometry?.order ?? lines.length
    refuseSeveralGrids(lines, order)
    const width = symbolsOf(lines[0]!).length
    if (
      width !== order &&
      width > 3 &&
      width <= 16 &&
      lines.every((line) => symbolsOf(line).length === width)
    ) {
      throw shapeError(
        lines.at(-1)!.number,
        `${counted(lines.length, 'line')} of ${width} cells`,
        geometry ? `${order} lines of ${order}` : `${width} lines of ${width}`,
      )
    }
    if (orderOfCount(order * order) === 0) {
      throw shapeError(lines[0]!.number, `${counted(lines.length, 'line')} of cells`, '4 to 16 lines')
    }
    const texts: CellText[] = []
    for (const line of lines) {
      const symbols = symbolsOf(line)
      const stray = symbols.find(
        ({ text }) => cellNumber(text, order) === undefined && !isOtherEmptySymbol(text),
      )
      if (symbols.length !== order && !stray) {
        throw textError(
          'text-shape',
          { line: line.number, column: (symbols.at(-1)?.column ?? 0) + 1 },
          counted(symbols.length, 'cell'),
          `${order} on each of ${order} lines (write 0 . _ or * for an empty cell, not a space)`,
        )
      }
      texts.push(...symbols)
    }
    const cells = givenCells(texts, order)
    if (lines.length !== order) {
      throw shapeError(lines.at(-1)!.number, `${counted(lines.length, 'line')} of cells`, `${order} lines`)
    }
    refuseRaggedGroups(
      lines,
      lines.map(({ text }) => [text.trim().split(/\s+/)]),
    )
    return { order, cells, line: lines[0]!.number }
  },

  write(board, { empty = '.' }) {
    const { order } = board.geometry
    const symbols = Array.from(board.digits, (digit) => (digit ? digitSymbol(digit) : empty))
    return Array.from({ length: order }, (_, r) => symbols.slice(r * order, (r + 1) * order).join('')).join(
      '\n',
    )
  },
} as const satisfies TextFormat

/** Says so when the lines are whole grids each, or several grids one below the other. */
function refuseSeveralGrids(lines: readonly TextLine[], order: number): void {
  const width = symbolsOf(lines[0]!).length
  const wholeLines = lines.filter((line) => charactersOnLine(line) > SMALLEST_GRID).length
  const grids = wholeLines || (width > 1 && width !== order ? Math.floor(lines.length / width) : 1)
  if (grids > 1 && (wholeLines > 0 || lines.every((line) => symbolsOf(line).length === width))) {
    throw shapeError(
      lines[wholeLines > 0 ? 1 : width]!.number,
      `${grids} grids`,
      'one; read texts of many puzzles with readPuzzles',
    )
  }
}

/** A line of this many symbols may be a row of a 16×16 grid as well as a 4×4 grid. */
const SMALLEST_GRID = 16
