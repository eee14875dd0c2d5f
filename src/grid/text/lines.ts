/** A line of text with its number in the file, from 1; the text has no line end. */
export interface TextLine {
  readonly text: string
  readonly number: number
}

/** Splits at LF, CRLF or CR; a byte order mark at the very start is dropped. */
export function splitLines(text: string): TextLine[] {
  return text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ text: line, number: i + 1 }))
}

/** What a line is before anyone asks for its layout. */
export type LineKind = 'blank' | 'comment' | 'title' | 'content'

/** How a line of JSON, or of quoted values, begins. */
const SAVED_DATA = /^\s*[[\]{}"]/

/** A word with a letter that is no digit symbol of any order: a line with one that holds no grid is a heading. */
const PROSE_WORD = /(?=[a-z\u00c0-\u024f]{2})[a-g]*[h-z\u00c0-\u024f]/i

/** A run of cell symbols long enough to be a grid of order 4 on one line. */
const LONG_CELLS = /[0-9A-Ga-g._*]{16,}/

/**
 * Comments begin with `#`. A heading (`Grid 01`) has a word with a letter that no order uses for a digit, and neither
 * rules nor a run of cells. A line of three tabs or more is a row of empty values and not blank.
 */
export function lineKind(line: string): LineKind {
  if (/^\s*#/.test(line)) return 'comment'
  if (line.trim() === '') return (line.match(/\t/g)?.length ?? 0) >= 3 ? 'content' : 'blank'
  if (SAVED_DATA.test(line)) return 'content'
  const body = withoutRemark(line)
  if (PROSE_WORD.test(body) && !LONG_CELLS.test(body) && !hasRules(body)) return 'title'
  return 'content'
}

/** Cuts off a remark at the end of a line: whitespace, `#`, and the rest. Saved data has none. */
export function withoutRemark(line: string): string {
  return SAVED_DATA.test(line) ? line : line.replace(/\s#.*$/, '')
}

const VERTICAL_RULES = '|¦\u2502\u2503\u2506\u2507\u250a\u250b\u254e\u254f\u2551'
const HAS_RULES = new RegExp(`[${VERTICAL_RULES}\u2500-\u257f]`)

/** Does a vertical rule or any box-drawing character stand in the line? */
export function hasRules(line: string): boolean {
  return HAS_RULES.test(line)
}

export function isVerticalRule(character: string): boolean {
  return character !== '' && VERTICAL_RULES.includes(character)
}

const ALL_BARS = new RegExp(`[${VERTICAL_RULES}]`, 'g')

/** The line with spaces for its vertical rules. */
export function withoutBars(line: string): string {
  return line.replace(ALL_BARS, ' ')
}

/** A line that only draws: dashes, equals signs, crossings, box drawing. Vertical rules alone are a row of blank cells. */
const RULE_LINE = new RegExp(`^[-=+:~${VERTICAL_RULES}\u2500-\u257f\\s]*$`)
const CROSSWISE = new RegExp(`[^${VERTICAL_RULES}:\\s]`)

export function isRuleLine(line: string): boolean {
  return RULE_LINE.test(line) && CROSSWISE.test(line)
}
