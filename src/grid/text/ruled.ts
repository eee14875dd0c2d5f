import { digitName } from '../digit-names.js'
import { givenCells } from './cells.js'
import { drawGrid } from './draw.js'
import { isRuled, readDrawing } from './drawing.js'
import type { TextFormat } from './format.js'

/** A drawing with rules between cells, boxes or regions, in ASCII or box-drawing characters. */
export const ruledFormat = {
  name: 'ruled',

  fits(lines) {
    return isRuled(lines) ? 1 : 0
  },

  read(lines, geometry) {
    const { order, texts, shape, line } = readDrawing(lines, geometry)
    return { order, cells: givenCells(texts, order), line, ...(shape ? { shape } : {}) }
  },

  write(board, { empty = '.', digits }) {
    return drawGrid(
      board.geometry,
      Array.from(board.digits, (digit) => (digit ? digitName(digit, digits) : empty)),
    )
  },
} as const satisfies TextFormat
