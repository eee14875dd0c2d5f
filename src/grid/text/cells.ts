import { givenCell, type SheetCell, textError } from './sheet.js'
import { cellNumber, isEmptySymbol, isOtherEmptySymbol, quoteFound, symbolRange } from './symbols.js'

/** What stands in one cell of a text, and where. */
export interface CellText {
  readonly text: string
  readonly line: number
  /** From 1. */
  readonly column: number
}

/**
 * Texts that are digits or marks for an empty cell, as cells with givens. Of `x o - ?` one is taken for an empty cell
 * when no other mark for one stands in the grid.
 *
 * @throws InputError `text-symbol` for anything else, and where a grid above order 9 has both letters and numbers for
 *   its digits, or both `0` and another mark for empty cells: its digits may run from 0 to F, which nobody can know.
 */
export function givenCells(texts: readonly CellText[], order: number): SheetCell[] {
  const other = onlyOtherMark(texts)
  const cells = texts.map((cell) => {
    const digit = cell.text.toLowerCase() === other ? 0 : cellNumber(cell.text, order)
    if (digit === undefined) throw textError('text-symbol', cell, quoteFound(cell.text), expectedIn(order))
    return givenCell(digit)
  })
  if (order > 9) {
    const number = texts.find((cell) => cell.text.length > 1)
    const letter = texts.find((cell) => /^[a-g]$/i.test(cell.text))
    if (number && letter) {
      const found = `${quoteFound(number.text)} here and ${quoteFound(letter.text)} elsewhere`
      throw textError('text-symbol', number, found, 'letters or numbers for digits above nine, not both')
    }
    const zero = texts.find((cell) => cell.text === '0')
    const other = texts.find((cell) => cell.text !== '0' && (cell.text === '' || isEmptySymbol(cell.text)))
    if (zero && other) {
      const found = `0 here and ${quoteFound(other.text)} for an empty cell elsewhere`
      throw textError('text-symbol', zero, found, 'one mark for empty cells, so that 0 is no digit')
    }
  }
  return cells
}

/** The one mark of `x o - ?` that stands for all empty cells, in lower case. */
function onlyOtherMark(texts: readonly CellText[]): string | undefined {
  let mark: string | undefined
  for (const { text } of texts) {
    if (text === '' || isEmptySymbol(text)) return undefined
    if (!isOtherEmptySymbol(text)) continue
    if (mark !== undefined && mark !== text.toLowerCase()) return undefined
    mark = text.toLowerCase()
  }
  return mark
}

export function expectedIn(order: number): string {
  const numbers = order > 9 ? `, or a number up to ${order}` : ''
  return `${symbolRange(order)}${numbers}, or one of 0 . _ * x o - ? for all empty cells`
}
