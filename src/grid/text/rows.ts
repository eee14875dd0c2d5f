import type { TextFormat } from './format.js'
import { type TextLine, withoutRemark } from './lines.js'
import { givenCell, orderOfCount, type SheetCell, textError } from './sheet.js'
import { digitSymbol, isEmptySymbol, quoteFound, symbolDigit, symbolRange } from './symbols.js'

/** As many lines as cells on a line, one character a cell: nine lines of nine. Every line may be split alike by spaces. */
export const rowsFormat = {
  name: 'rows',

  fits(lines) {
    if (lines.length < 2 || lines.some((line) => /[,;|\t\u2500-\u257f]/.test(line.text))) return 0
    const order = lines.length
    return lines.every((line) => symbolsOf(line).length === order) ? 2 : 1
  },

  read(lines, geometry) {
    const order = geometry?.order ?? lines.length
    const widths = new Set(lines.map((line) => symbolsOf(line).length))
    const width = widths.size === 1 ? [...widths][0]! : 0
    if (!geometry && width !== order && orderOfCount(width * width) === width) {
      throw textError(
        'text-shape',
        { line: lines.at(-1)!.number },
        `${lines.length} lines of ${width} cells`,
        `${width} lines of ${width}`,
      )
    }
    if (orderOfCount(order * order) === 0) {
      throw textError(
        'text-shape',
        { line: lines[0]!.number },
        `${lines.length} lines of cells`,
        '4 to 16 lines',
      )
    }
    const cells: SheetCell[] = []
    for (const line of lines) {
      const symbols = symbolsOf(line)
      for (const { symbol, column } of symbols) {
        const digit = symbolDigit(symbol, order)
        if (digit === 0 && !isEmptySymbol(symbol)) {
          throw textError(
            'text-symbol',
            { line: line.number, column },
            quoteFound(symbol),
            `${symbolRange(order)}, or 0 . _ * for an empty cell`,
          )
        }
        cells.push(givenCell(digit))
      }
      if (symbols.length !== order) {
        throw textError(
          'text-shape',
          { line: line.number, column: (symbols.at(-1)?.column ?? 0) + 1 },
          `${symbols.length} cells`,
          `${order} on each of ${order} lines (write 0 . _ or * for an empty cell, not a space)`,
        )
      }
    }
    if (lines.length !== order) {
      throw textError(
        'text-shape',
        { line: lines.at(-1)!.number },
        `${lines.length} lines of cells`,
        `${order} lines`,
      )
    }
    refuseRaggedGroups(lines)
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

function symbolsOf(line: TextLine): { symbol: string; column: number }[] {
  return [...withoutRemark(line.text).matchAll(/\S/g)].map((match) => ({
    symbol: match[0],
    column: match.index + 1,
  }))
}

/** Spaces in different places from line to line may have stood for empty cells: not a thing to guess about. */
function refuseRaggedGroups(lines: readonly TextLine[]): void {
  const groups = (line: TextLine) =>
    withoutRemark(line.text)
      .trim()
      .split(/\s+/)
      .map((g) => g.length)
  const first = groups(lines[0]!).join(' ')
  for (const line of lines) {
    const here = groups(line).join(' ')
    if (here !== first) {
      throw textError(
        'text-shape',
        { line: line.number },
        `groups of ${here} cells`,
        `groups of ${first} as on line ${lines[0]!.number} (write 0 . _ or * for an empty cell, not a space)`,
      )
    }
  }
}
