import { areQuotedNames, hasProse, isCountLine, isRowOfValues } from './headings.js'

/** A line of text with its number in the file, from 1; the text has no line end. */
export interface TextLine {
  readonly text: string
  readonly number: number
}

/** What is wider or finer than the plain character it stands for. */
const FANCY = /[\u00a0\u00b7\u2000-\u200a\u2012-\u2014\u202f\u2212\u22c5\u3000\uff01-\uff5e]/g

/** With plain characters for full-width ones, for dashes, dots in the middle and other spaces, one for one. */
export function plainText(text: string): string {
  return text.replace(FANCY, (fancy) => {
    const code = fancy.charCodeAt(0)
    if (code >= 0xff01) return String.fromCharCode(code - 0xfee0)
    if (/\s/.test(fancy)) return ' '
    return fancy === '\u00b7' || fancy === '\u22c5' ? '.' : '-'
  })
}

/** Splits at LF, CRLF or CR; a byte order mark at the very start is dropped. */
export function splitLines(text: string): TextLine[] {
  return text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ text: line, number: i + 1 }))
}

/**
 * The line that says the rules of the grid below it, in a comment so that other readers pass over it:
 *
 * ```
 * # geometry: 3x2
 * # geometry: 3x3 diagonals
 * # geometry: regions 1112/1322/3342/3444
 * ```
 *
 * Boxes are height × width; regions have a symbol a cell, the same in all cells of a region, rows parted by `/`.
 */
export const GEOMETRY_LINE = /^\s*#\s*geometry\s*:(.*)$/i

/** What a line is before anyone asks for its layout. */
export type LineKind = 'blank' | 'comment' | 'geometry' | 'title' | 'content'

/** How a line of JSON, or of quoted values, begins. */
const SAVED_DATA = /^\s*[[\]{}"]/

/** A run long enough to be a grid of order 4 on one line; it is one if it has digits. */
const LONG_CELLS = /[0-9A-Ga-gxo._*?-]{16,}/gi

/** A line of cells alone, whatever marks its empty ones. */
const CELLS_ALONE = /^[\s0-9A-Ga-gxo._*?-]+$/i

/**
 * Comments begin with `#`. A heading (`Grid 01`) has a word with a letter that no order uses for a digit, and neither
 * grid lines nor a run of cells, and is no row of values; or it is a number or a date alone. A line of three tabs or
 * more is a row of values, be they all empty.
 */
export function lineKind(line: string): LineKind {
  if (/^\s*#/.test(line)) return GEOMETRY_LINE.test(line) ? 'geometry' : 'comment'
  if (line.trim() === '') return hasTabs(line) ? 'content' : 'blank'
  if (SAVED_DATA.test(line)) return areQuotedNames(line) ? 'title' : 'content'
  const body = withoutRemark(line).replace(/^\s*row(?=\b|\d)/i, '')
  // a row of a table that has words alone is its head
  const isHead = hasRules(body) && hasProse(body) && !/\d/.test(body) && !areBoxesOfCells(body)
  if (!isHead && (hasRules(body) || holdsLongCells(body))) return 'content'
  if (CELLS_ALONE.test(body)) {
    const cells = body.replace(/\s+/g, '')
    // `xx3x2x6xx`, `ooo` and `ooAooo` are cells, `Cabbage` is not
    if (/\d/.test(cells) || isOneSymbol(cells.toLowerCase()) || isMostly(/[xo]/gi, cells))
      return isCountLine(body) && !hasTabs(body) ? 'title' : 'content'
  }
  return isCountLine(body) || (hasProse(body) && !isRowOfValues(body)) ? 'title' : 'content'
}

/** `EoBo|oooo|oooo|oooo`: as many cells between all bars, most of them empty. */
function areBoxesOfCells(text: string): boolean {
  const pieces = withoutBars(text).trim().split(/\s+/)
  const cells = pieces.join('')
  const areCells = pieces.every(
    (piece) => piece.length === pieces[0]!.length && /^([a-gx]+|[a-go]+)$/i.test(piece),
  )
  return pieces.length > 1 && areCells && cells.replace(/[xo]/gi, '').length * 3 < cells.length
}

/** Three tabs or more: values, most of them empty. */
function hasTabs(line: string): boolean {
  return (line.match(/\t/g)?.length ?? 0) >= 3
}

/** At least half of six symbols or more. */
function isMostly(symbols: RegExp, text: string): boolean {
  return text.length > 5 && (text.match(symbols)?.length ?? 0) * 2 >= text.length
}

function holdsLongCells(text: string): boolean {
  return (text.match(LONG_CELLS) ?? []).some((run) => /\d/.test(run) || isOneSymbol(run))
}

/** One symbol over and over, twice or more. */
export function isOneSymbol(text: string): boolean {
  return text.length > 1 && text === text[0]!.repeat(text.length)
}

/** Is this a line of saved data, or of quoted values? */
export function isSavedData(line: string): boolean {
  return SAVED_DATA.test(line)
}

/** Cuts off a remark at the end of a line: whitespace, `#`, and the rest. Saved data has none. */
export function withoutRemark(line: string): string {
  if (SAVED_DATA.test(line)) return line
  const at = line.search(/\s#/)
  return at < 0 ? line : line.slice(0, at)
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

/**
 * A line that only draws: dashes, equals signs, crossings, box drawing. Vertical rules alone are a row of blank cells.
 */
const RULE_LINE = new RegExp(`^[-=+:~${VERTICAL_RULES}\u2500-\u257f\\s]*$`)
const CROSSWISE = new RegExp(`[^${VERTICAL_RULES}:\\s]`)

/** Dashes between vertical rules that stand apart are empty cells: `| - - - | - - - |`. */
const DASHED_ROW = new RegExp(`^\\s*[${VERTICAL_RULES}](\\s+-(\\s+[${VERTICAL_RULES}])?)+\\s*$`)

export function isRuleLine(line: string): boolean {
  return RULE_LINE.test(line) && CROSSWISE.test(line) && !DASHED_ROW.test(line)
}
