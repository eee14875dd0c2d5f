import { givenCell, type SheetCell, textError } from './sheet.js'
import { cellNumber, isEmptySymbol, quoteFound, symbolRange } from './symbols.js'

/** What stands in one cell of a text, and where. */
export interface CellText {
  readonly text: string
  readonly line: number
  /** From 1. */
  readonly column: number
}

/**
 * Texts that are digits or marks for an empty cell, as cells with givens.
 *
 * @throws InputError `text-symbol` for anything else, and where a grid above order 9 has both `0` and another mark for
 *   empty cells: its digits may run from 0 to F, which cannot be told.
 */
export function givenCells(texts: readonly CellText[], order: number): SheetCell[] {
  const cells = texts.map((cell) => {
    const digit = cellNumber(cell.text, order)
    if (digit === undefined) throw textError('text-symbol', cell, quoteFound(cell.text), expectedIn(order))
    return givenCell(digit)
  })
  if (order > 9) {
    const zero = texts.find((cell) => cell.text === '0')
    const other = texts.find((cell) => cell.text !== '0' && (cell.text === '' || isEmptySymbol(cell.text)))
    if (zero && other) {
      const found = `0 here and ${quoteFound(other.text)} for an empty cell elsewhere`
      throw textError('text-symbol', zero, found, 'one mark for empty cells, so that 0 is no digit')
    }
  }
  return cells
}

function expectedIn(order: number): string {
  const numbers = order > 9 ? `, or a number up to ${order}` : ''
  return `${symbolRange(order)}${numbers}, or 0 . _ * for an empty cell`
}
