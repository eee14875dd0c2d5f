import { type CellText, givenCells } from './cells.js'
import { counted } from './counted.js'
import type { TextFormat } from './format.js'
import { valuesOf, wordsOf } from './line-cells.js'
import type { TextLine } from './lines.js'
import { LONGEST_ROW } from './profile.js'
import { orderOfCount, shapeError, textError } from './sheet.js'
import { isEmptySymbol, isOtherEmptySymbol, quoteFound } from './symbols.js'

/**
 * A value a cell with a separator between values: comma, semicolon, tab, or spaces. Values are numbers (to 16) or
 * single symbols; an empty value, `0 . _ *` is an empty cell. A row a line, or all rows on one line.
 */
export const separatedFormat = {
  name: 'separated',

  fits(lines) {
    if (lines.some((line) => /[|\u2500-\u257f]/.test(line.text))) return 0
    const separator = separatorOf(lines)
    const counts = lines.map((line) => cellsOf(line, separator).length)
    const isGrid =
      lines.length === 1 ? orderOfCount(counts[0]!) > 0 : counts.every((count) => count === lines.length)
    if (isGrid) return lines.some((line) => /[1-9A-G]{3}|[+?!]/i.test(line.text)) ? 1 : 2
    return separator === ' ' && (lines.length > 1 || counts[0]! <= LONGEST_ROW) ? 0 : 1
  },

  read(lines, geometry) {
    const separator = separatorOf(lines)
    let rows: readonly CellText[][] = lines.map((line) => cellsOf(line, separator))
    const oneLine = rows.length === 1
    // Some programs end every line with a separator. Where empty cells are nothing as well, one may be doubled instead.
    const endsWithout = (row: readonly CellText[]) =>
      row.findIndex(({ text }) => text === '') === row.length - 1
    if (separator !== ' ' && rows.every((row) => endsWithout(row) && isOneTooMany(row.length, lines.length)))
      rows = rows.map((row) => row.slice(0, -1))
    const order = geometry?.order ?? (oneLine ? orderOfCount(rows[0]!.length) : rows.length)
    const between = separator === ' ' ? '' : ` with ${separator === '\t' ? 'tabs' : `"${separator}"`} between`
    const named = (count: number) => `${count > 0 ? counted(count, 'value') : 'values'}${between}`
    if (orderOfCount(order * order) === 0) {
      throw shapeError(
        lines[0]!.number,
        oneLine ? named(rows[0]!.length) : `${counted(rows.length, 'line')} of ${named(0)}`,
        oneLine ? '81 for a 9×9 grid (or another square number up to 256)' : '4 to 16 lines',
      )
    }
    const perLine = oneLine ? order * order : order
    const texts = rows.flatMap((row, r) => {
      const line = lines[r]!.number
      if (row.length !== perLine) {
        throw textError(
          'text-shape',
          { line, column: row[Math.min(row.length, perLine + 1) - 1]!.column },
          named(row.length),
          oneLine ? `${perLine}` : `${perLine} on each of ${order} lines`,
        )
      }
      return row
    })
    refuseLostValues(texts)
    const cells = givenCells(texts, order)
    if (!oneLine && rows.length !== order) {
      throw shapeError(
        lines.at(-1)!.number,
        `${counted(rows.length, 'line')} of ${named(0)}`,
        `${order} lines`,
      )
    }
    return { order, cells, line: lines[0]!.number }
  },

  write(board, { empty, separator = ',' }) {
    const { order } = board.geometry
    const values = Array.from(board.digits, (digit) => (digit ? String(digit) : (empty ?? '0')))
    return Array.from({ length: order }, (_, r) =>
      values.slice(r * order, (r + 1) * order).join(separator),
    ).join('\n')
  },
} as const satisfies TextFormat

/** Where empty cells have a mark, nothing between two separators is a value that is lost. */
function refuseLostValues(texts: readonly CellText[]): void {
  const lost = texts.find(({ text }) => text === '')
  const marked = texts.find(({ text }) => isEmptySymbol(text) || isOtherEmptySymbol(text))
  if (!lost || !marked) return
  const found = `no value, and ${quoteFound(marked.text)} for an empty cell on line ${marked.line}`
  throw textError('text-symbol', lost, found, 'one way to write an empty cell')
}

function isOneTooMany(count: number, lines: number): boolean {
  return lines === 1 ? orderOfCount(count) === 0 && orderOfCount(count - 1) > 0 : count === lines + 1
}

type Separator = ';' | '\t' | ',' | ' '

/** The strongest separator that stands on every line. */
function separatorOf(lines: readonly TextLine[]): Separator {
  for (const separator of [';', '\t', ','] as const) {
    if (lines.some((line) => line.text.includes(separator))) return separator
  }
  return ' '
}

/** A value may stand in quotes. */
function cellsOf(line: TextLine, separator: Separator): CellText[] {
  if (separator === ' ') return wordsOf(line)
  return valuesOf(line, separator).map((value) => ({
    ...value,
    text: value.text.replace(/^"(.*)"$/, '$1').trim(),
  }))
}
