import { drawGrid } from './draw.js'
import { isRuled, readDrawing } from './drawing.js'
import type { TextFormat } from './format.js'
import { givenCell, textError } from './sheet.js'
import { cellNumber, digitSymbol, quoteFound, symbolRange } from './symbols.js'

/** A drawing with rules between cells, boxes or regions, in ASCII or box-drawing characters. */
export const ruledFormat = {
  name: 'ruled',

  fits(lines) {
    return isRuled(lines) ? 1 : 0
  },

  read(lines, geometry) {
    const { order, texts, shape, line } = readDrawing(lines, geometry)
    const cells = texts.map((cell) => {
      const digit = cellNumber(cell.text, order)
      if (digit === undefined) {
        throw textError(
          'text-symbol',
          cell,
          quoteFound(cell.text),
          `${symbolRange(order)}${order > 9 ? `, or a number up to ${order}` : ''}, or 0 . _ * for an empty cell`,
        )
      }
      return givenCell(digit)
    })
    return { order, cells, line, ...(shape ? { shape } : {}) }
  },

  write(board, { empty = '.' }) {
    return drawGrid(
      board.geometry,
      Array.from(board.digits, (digit) => (digit ? digitSymbol(digit) : empty)),
    )
  },
} as const satisfies TextFormat
