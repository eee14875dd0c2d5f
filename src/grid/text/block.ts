import { isOneSymbol, isRuleLine, type TextLine, withoutBars } from './lines.js'
import { CUTS, type Cut, isLong, LONGEST_ROW, mayBeMarks, type Profile, profileOf } from './profile.js'

/**
 * What a line of a block is for the rows around it. A `near` line is a row that lost or gained something, or the first
 * part of one that was split, whose `rest` is on the next line; a `double` one is two rows whose line end is lost; a
 * `foreign` line is no row, and a `stray` one does not even stand within a grid; a `drawn` one is a grid line.
 */
export type Role = 'row' | 'near' | 'rest' | 'double' | 'foreign' | 'stray' | 'drawn'

/** Lines that follow each other without a break, and what they look like taken together. */
export type Block =
  /** Each line is a grid of its own, or meant as one. */
  | { readonly kind: 'lines' }
  /** Rows of `width` cells; 0 where blanks for empty cells leave the width open. */
  | {
      readonly kind: 'rows'
      readonly cut: Cut
      readonly width: number
      readonly roles: readonly Role[]
      readonly rows: number
    }
  /** Nothing but drawn lines. */
  | { readonly kind: 'drawn' }

/** Marks for empty cells but the dot. */
const OTHER_MARKS = '0_*xo?-'

/**
 * Shares of digits above 4 among all digits: lines of 16 symbols are 4×4 grids below the first, 16×16 rows above the
 * second.
 */
const FEW_LARGE = 0.2
const MANY_LARGE = 0.4

/** @param order what the caller says the grids are, 0 when nothing is said */
export function blockOf(lines: readonly TextLine[], order: number): Block {
  const profiles = lines.map(profileOf)
  const isDrawn = drawnLines(lines, profiles)
  if (isDrawn.every((drawn) => drawn)) return { kind: 'drawn' }
  const content = profiles.filter((_, i) => !isDrawn[i])
  const hasBars = content.filter((profile) => profile.hasBars).length * 2 > content.length
  if (!hasBars && isBlockOfLines(lines, content, order)) return { kind: 'lines' }

  const best = bestCut(content, hasBars, order)
  if (!best) {
    const roles = isDrawn.map((drawn): Role => (drawn ? 'drawn' : 'row'))
    return { kind: 'rows', cut: 'symbols', width: 0, roles, rows: content.length }
  }
  const { cut, width } = best
  const roles = profiles.map((profile, i) =>
    isDrawn[i] ? 'drawn' : roleOf(profile, cut, width, best.trailing),
  )
  joinSplitRows(lines, roles, (joined) => roleOf(profileOf(joined), cut, width, best.trailing))
  markStrays(roles, width)
  return { kind: 'rows', cut, width, roles, rows: rowsIn(roles) }
}

/** Two odd lines that are one row together are that row, split: they count as one. */
function joinSplitRows(lines: readonly TextLine[], roles: Role[], roleOf: (joined: TextLine) => Role): void {
  const isOdd = (role: Role | undefined) => role === 'near' || role === 'foreign'
  for (let i = 0; i + 1 < lines.length; i++) {
    if (!isOdd(roles[i]) || !isOdd(roles[i + 1])) continue
    const { text, number } = lines[i]!
    if (roleOf({ text: text + lines[i + 1]!.text, number }) !== 'row') continue
    roles[i] = 'near'
    roles[++i] = 'rest'
  }
}

/**
 * Lines above, below and between whole grids. One that might be a row with a fault is taken for one of them where the
 * number of rows does not come out.
 */
function markStrays(roles: Role[], width: number): void {
  const sound = roles.map((role) => (role === 'near' ? 'foreign' : role))
  const mayBeNear = rowsIn(roles) % width !== 0
  let rows = 0
  for (const [i, role] of (mayBeNear ? sound : roles).entries()) {
    if (role === 'foreign' && rows % width === 0) roles[i] = 'stray'
    rows += rowsOf(role)
  }
}

export function rowsOf(role: Role): number {
  return role === 'double' ? 2 : role === 'row' || role === 'near' ? 1 : 0
}

export function rowsIn(roles: readonly Role[]): number {
  return roles.reduce((rows, role) => rows + rowsOf(role), 0)
}

/**
 * A line of one symbol is drawn, unless the rows around it are as long or longer and have that symbol for an empty
 * cell, or spaces stand between symbols that hardly anybody draws with.
 */
function drawnLines(lines: readonly TextLine[], profiles: readonly Profile[]): boolean[] {
  /** symbol -> most symbols of a row that holds it */
  const longest = new Map<string, number>()
  lines.forEach((line, i) => {
    const { isDrawn, widths } = profiles[i]!
    if (isDrawn) return
    for (const symbol of new Set(line.text.toLowerCase()))
      longest.set(symbol, Math.max(widths.symbols, longest.get(symbol) ?? 0))
  })
  const isEnd = (i: number) => i === 0 || i === lines.length - 1
  const rows = lines.filter((_, i) => !profiles[i]!.isDrawn).slice(0, 4)
  const isShapedAsRow = (i: number, sign: string) =>
    rows.some((row) => isShapedAs(lines[i]!.text, row.text, sign))
  return lines.map((line, i) => {
    if (!profiles[i]!.isDrawn) return false
    const symbols = withoutBars(line.text).replace(/\s+/g, '')
    if (!isOneSymbol(symbols)) return isRuleLine(line.text)
    const symbol = symbols[0]!.toLowerCase()
    if (/[0-9a-g]/.test(symbol)) return false
    const isOnlyMark = ![...`.${OTHER_MARKS}`].some((mark) => mark !== symbol && longest.has(mark))
    if ((isOnlyMark || (isEnd(i) && line.text.includes('|'))) && isShapedAsRow(i, symbol)) return false
    // dots are a row of empty cells, unless the rows around have another mark for these
    if (symbol === '.') return !longest.has(symbol) && [...OTHER_MARKS].some((mark) => longest.has(mark))
    if (/[xo?]/.test(symbol) && symbols !== line.text.trim()) return false
    return symbols.length > (longest.get(symbol) ?? 0)
  })
}

/** Has a line of one sign its blanks and bars where a row has them? It is likely one: `__|__` beside `12|43`. */
function isShapedAs(text: string, row: string, sign: string): boolean {
  const isParted = /\S[\s|]\S?/.test(text.trim())
  return isParted && text.trim().toLowerCase() === row.trim().replace(/[^\s|]/g, sign)
}

function isBlockOfLines(lines: readonly TextLine[], content: readonly Profile[], order: number): boolean {
  const sixteens = content.filter(isSixteen).length
  if (sixteens > 0 && sixteens >= content.length * 0.8) {
    if (order === 4 || order === 16) return order === 4
    const { digits, large } = countDigits(lines)
    if (lines.length > 1 && isUnclearSixteen(lines, order)) return false
    return large <= digits * FEW_LARGE
  }
  return content.every((profile) => isLong(profile)) && !areRowsOfMarks(content)
}

/** Sixteen symbols are a 4×4 grid, or a row of a 16×16 one. */
export function isSixteen({ widths, hasBars }: Profile): boolean {
  return !hasBars && (widths.values || widths.symbols) === LONGEST_ROW
}

/**
 * Lines of sixteen symbols that are neither clearly 4×4 grids nor clearly rows, going by their digits: a 4×4 grid has
 * four at least, and most digits of a 16×16 grid are above 4.
 */
export function isUnclearSixteen(lines: readonly TextLine[], order: number): boolean {
  if (order !== 0) return false
  const { digits, large } = countDigits(lines)
  return digits < lines.length * LEAST_DIGITS || (large > digits * FEW_LARGE && large < digits * MANY_LARGE)
}

/** Fewest digits on a line of sixteen symbols, on average, before there are enough to judge by. */
const LEAST_DIGITS = 2

function countDigits(lines: readonly TextLine[]): { digits: number; large: number } {
  let digits = 0
  let large = 0
  for (const { text } of lines) {
    const isParted = /[\s,;]/.test(text.trim()) && !/[^\s,;]{3}/.test(text)
    for (const [word] of text.matchAll(/[1-9a-g][0-9]?/gi)) {
      // between separators `12` is a number
      const isNumber = word.length === 2 && isParted
      digits += isNumber || word.length === 1 || word[1] === '0' ? 1 : 2
      if (isNumber) large++
      else for (const symbol of word) if (/[5-9a-g]/i.test(symbol)) large++
    }
  }
  return { digits, large }
}

function areRowsOfMarks(content: readonly Profile[]): boolean {
  if (!content.every(mayBeMarks)) return false
  const { words, values } = content[0]!.widths
  const same = (cut: Cut, width: number) =>
    width >= 4 && content.length % width === 0 && content.every((profile) => profile.widths[cut] === width)
  return same('words', words) || same('values', values)
}

/**
 * How much it says for a width that the number of lines is a multiple of it, that it is asked for, that a line is twice
 * as wide.
 */
const FITTING = { rows: 0.5, order: 0.75, double: 0.4 } as const

/** The way of cutting lines into cells in which most lines agree, and best the number of lines too. */
function bestCut(content: readonly Profile[], hasBars: boolean, order: number) {
  let best: { cut: Cut; width: number; trailing: boolean; score: number } | undefined
  const trailing = content.every((profile) => profile.endsInSeparator)
  for (const cut of CUTS) {
    const counts = new Map<number, number>()
    for (const { widths } of content) counts.set(widths[cut], (counts.get(widths[cut]) ?? 0) + 1)
    for (const [counted, lines] of counts) {
      const extra = cut === 'values' && trailing && content.length % counted !== 0 ? 1 : 0
      const width = counted - extra
      if (width < 4 || width > LONGEST_ROW || lines * 2 < content.length) continue
      // Where bars stand and blanks are empty cells, only lines that all agree say how wide they are.
      if (hasBars && lines < content.length * 0.8) continue
      const score =
        lines +
        (content.length % width === 0 ? FITTING.rows : 0) +
        (width === order ? FITTING.order : 0) +
        (counts.get(2 * counted) ?? 0) * FITTING.double
      if (!best || score > best.score) best = { cut, width, trailing: extra > 0, score }
    }
  }
  return best
}

function roleOf(profile: Profile, cut: Cut, width: number, trailing: boolean): Role {
  const cells = profile.widths[cut] - (trailing ? 1 : 0)
  if (cells === width) return 'row'
  // where the line end is lost, the values on either side have run together
  const isJoined = cut !== 'symbols' && cells === 2 * width - 1
  if (cells === 2 * width || isJoined || profile.widths.symbols === 2 * width) return 'double'
  return isNearly(cells, width) ? 'near' : 'foreign'
}

/** Are these the cells of a row, but for some that are lost or a few too many? */
export function isNearly(cells: number, width: number): boolean {
  return cells > width / 2 && cells <= width + 2
}
