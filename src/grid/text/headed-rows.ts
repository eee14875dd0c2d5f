import type { SheetEntry } from './entry.js'
import { cellsAfterWords } from './headings.js'
import type { TextLine } from './lines.js'
import { textError } from './sheet.js'

/** Lines one after another that begin with words and end in as many cells each, from which on they are no headings. */
const FEWEST_ROWS = 4

/**
 * Fewest cells at the end of such lines where they are fewer than that many; years and numbers of puzzles have four or
 * five.
 */
const FEWEST_CELLS = 6

/** A tag of a table of HTML. */
const TABLE_TAG = /<\/?t(able|body|[rdh])\b/i

/** Watches headings for rows that words or tags stand before: what would be dropped is said. */
export class HeadedRows {
  private first: TextLine | undefined
  private last = 0
  /** Of each line since the first, or what kind of line they are otherwise. */
  private cells: number | 'tags' = 0
  private rows = 0;

  *add(line: TextLine): Generator<SheetEntry> {
    const cells = TABLE_TAG.test(line.text) ? 'tags' : cellsAfterWords(line.text)
    if (cells !== this.cells || line.number !== this.last + 1) yield* this.end()
    if (cells === 0) return
    this.first ??= line
    this.last = line.number
    this.cells = cells
    this.rows++
  }

  *end(): Generator<SheetEntry> {
    const { first, rows, cells } = this
    this.first = undefined
    this.rows = 0
    this.cells = 0
    if (!first) return
    const at = { line: first.number }
    const entry = { ...at, title: undefined, comments: [] }
    if (cells === 'tags')
      yield { ...entry, error: textError('text-shape', at, 'a table of HTML', 'the text of the page alone') }
    else if (rows >= FEWEST_ROWS && (rows >= cells || cells >= FEWEST_CELLS)) {
      const found = `${rows} lines of words with ${cells} cells after them`
      const expected = 'rows without words, or with a number or a letter before each'
      yield { ...entry, error: textError('text-shape', at, found, expected) }
    }
  }
}
