import type { TextLine } from './lines.js'
import type { Part } from './part.js'

/** How the rows of a grid are written. */
export interface Writing {
  readonly first: RowStyle
  readonly last: RowStyle
  /** The first row that is written in another way than those before it. */
  readonly odd?: TextLine
  /** A row with two digits or more stands twice, one below the other; many that do so follow a rule. */
  readonly isDoubled: boolean
}

/** What stands between values, each separator with the space after it, and the marks for empty cells. */
export interface RowStyle {
  readonly partings: ReadonlySet<string>
  readonly hasBlanks: boolean
  readonly marks: ReadonlySet<string>
}

/**
 * Nobody changes from `1,2` to `1, 2` within a grid, nor from a dot to a zero for empty cells: such rows are of two
 * grids, of which one has a row too few.
 */
export function writingOf({ lines, roles, cut }: Pick<Part, 'lines' | 'roles' | 'cut'>): Writing {
  const rows = lines.filter((_, i) => roles[i] === 'row')
  const styles = rows.map(({ text }) => styleOf(text, cut))
  // rows without an empty cell, or with one value, say nothing
  const known = (of: (style: RowStyle) => ReadonlySet<string>) =>
    styles.map(of).find((set) => set.size > 0) ?? NONE
  const first = {
    ...styles[0]!,
    partings: known(({ partings }) => partings),
    marks: known(({ marks }) => marks),
  }
  const at = styles.findIndex((style) => isOtherWriting(first, style))
  const last = styles.findLast(({ marks }) => marks.size > 0) ?? first
  const doubled = rows.filter(({ text }, i) => text === rows[i + 1]?.text && /[1-9a-g].*[1-9a-g]/i.test(text))
  return { first, last, isDoubled: doubled.length === 1, ...(at < 0 ? {} : { odd: rows[at]! }) }
}

const NONE: ReadonlySet<string> = new Set()

export function styleOf(text: string, cut: Part['cut']): RowStyle {
  return { partings: partingsOf(text), marks: marksOf(text, cut), hasBlanks: /\S\s+\S/.test(text) }
}

/** Has the line what stands between the cells of rows, or in their empty ones? */
export function isLikeRows({ partings, marks, hasBlanks }: RowStyle, { first, last }: Writing): boolean {
  const isAmong = (one: ReadonlySet<string>, other: ReadonlySet<string>) =>
    one.size === other.size && [...one].every((item) => other.has(item))
  return [first, last].some(
    (row) => isAmong(row.marks, marks) && isAmong(row.partings, partings) && row.hasBlanks === hasBlanks,
  )
}

/** Are rows written in two ways, going by what both show? */
export function isOtherWriting(one: RowStyle, other: RowStyle): boolean {
  return areApart(one.partings, other.partings) || areApart(one.marks, other.marks)
}

function areApart(one: ReadonlySet<string>, other: ReadonlySet<string>): boolean {
  return one.size > 0 && other.size > 0 && ![...one].some((item) => other.has(item))
}

function partingsOf(text: string): Set<string> {
  return new Set(text.trim().match(/[,;\t] ?/g))
}

/** Pencil marks such as `5?` hold none. */
function marksOf(text: string, cut: Part['cut']): Set<string> {
  const cells = cut === 'symbols' ? [...text] : text.split(/[\s,;|]+/)
  return new Set(cells.filter((cell) => /^[.0_*xo?-]$/i.test(cell)).map((cell) => cell.toLowerCase()))
}
