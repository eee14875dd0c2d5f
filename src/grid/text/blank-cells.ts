import type { TextLine } from './lines.js'
import { orderOfCount } from './sheet.js'

/** Share of cells that must be blank before a space is taken for an empty cell: any sound puzzle has more. */
const LEAST_BLANK = 1 / 3

/** Nothing but digits and spaces. */
const DIGITS_AND_SPACES = /^[1-9 ]+$/

/**
 * Rows that have a space for an empty cell, with dots in their place. Undefined where spaces could be anything else:
 * gaps between groups or values, or lines that have lost their ends.
 */
export function rowsWithDots(lines: readonly TextLine[]): TextLine[] | undefined {
  const width = lines[0]!.text.length
  if (width < 4 || width > 16) return undefined
  if (!lines.every(({ text }) => text.length === width && DIGITS_AND_SPACES.test(text))) return undefined
  return areBlanks(lines.map((line) => line.text)) ? lines.map(withDots) : undefined
}

/** A whole grid on one line that has a space for an empty cell, with dots in their place. */
export function lineWithDots(line: TextLine): TextLine | undefined {
  const { text } = line
  const order = orderOfCount(text.length)
  if (order < 6 || !DIGITS_AND_SPACES.test(text)) return undefined
  const rows = Array.from({ length: order }, (_, r) => text.slice(r * order, (r + 1) * order))
  return areBlanks(rows) && !areGaps(text) ? withDots(line) : undefined
}

function withDots(line: TextLine): TextLine {
  return { text: line.text.replaceAll(' ', '.'), number: line.number }
}

function areBlanks(rows: readonly string[]): boolean {
  const blanks = rows.reduce((sum, row) => sum + row.split(' ').length - 1, 0)
  if (blanks < rows.length * rows[0]!.length * LEAST_BLANK) return false
  // Spaces that only stand in columns of spaces are gaps, and so are those in every second place.
  const columns = [...rows[0]!].map((_, c) => rows.map((row) => row[c]).join(''))
  const areColumns = columns.every((column) => column.trim() === '' || !column.includes(' '))
  return !areColumns && rows.some((row) => /[1-9]{2}| {2}/.test(row))
}

/** Runs of spaces, or of digits, that are all of one length or nearly so keep groups or values apart. */
function areGaps(text: string): boolean {
  const lengths = (runs: readonly string[]) => new Set(runs.map((run) => run.length)).size
  return lengths(text.match(/ +/g) ?? []) < 3 || lengths(text.match(/[1-9]+/g) ?? []) < 2
}
