import type { InputError } from '../../errors.js'
import { boxedGeometry, type Geometry, squareGeometry } from '../geometry.js'
import { layoutOf } from '../layout.js'
import type { SheetEntry } from './entry.js'
import { isLikeRows, isOtherWriting, type RowStyle, type Writing } from './mixed.js'
import { EMPTY_CELL, type Sheet, shapeError } from './sheet.js'

/** What is known of grids from what stands around them: rows may be lost or added, or they are cut at wrong places. */
export type Doubt = 'none' | 'wrong rows' | 'wrong places'

/**
 * Grids that follow each other without a break are cut by counting rows, and the count may come out by luck: a row is
 * lost in one grid and another doubled, split or added in the next. Such grids are made of rows of two puzzles, and
 * nearly all of them hold a digit twice in a house. So where anything else in the block is wrong, where a grid has the
 * same row twice, or where two neighbours hold a digit twice, every grid that does so is refused. One that does so
 * among sound grids is left as it is: a wrong digit is not a wrong count.
 *
 * Other signs are surer. A grid in which the way of writing changes, or a row with digits stands twice, shows that the
 * count is wrong on either side, up to where the way of writing changes between grids; and so does a fault in a grid
 * where a line was left out to make the rows come out. Of two equal rows next to each other, beside a fault, one is
 * likely too many.
 */
export function withoutDoubtful(
  cuts: readonly Cut[],
  asked: Geometry | undefined,
  doubt: Doubt,
): SheetEntry[] {
  const entries = cuts.map(({ entry }) => entry)
  const isOneAdded = entries.some(({ sheet }) => sheet && rowsStandingAgain(sheet) === 1)
  if (entries.length < 2 && doubt === 'none' && !isOneAdded) return entries
  const repeats = entries.map(({ sheet, geometry }) => sheet && repeatIn(sheet, geometry ?? asked))
  const isDoubtful =
    doubt !== 'none' ||
    entries.some(({ error }) => error) ||
    entries.some(({ sheet }) => sheet && rowsStandingAgain(sheet) > 0) ||
    repeats.some((repeat, i) => repeat && repeats[i + 1])
  if (!isDoubtful) return entries
  const isShifted = doubt === 'wrong places' ? cuts.map(() => true) : shiftedAmong(cuts)
  const isBesideRow = (i: number, { sheet, geometry }: SheetEntry) =>
    [-1, 1].some((step) => {
      let at = i + step
      while (cuts[at] && !cuts[at]!.leftOut && !cuts[at]!.writing && cuts[at]!.entry.error) at += step
      const { leftOut } = cuts[at] ?? {}
      const { writing } = cuts[i]!
      const isAlike = leftOut !== undefined && writing !== undefined && isLikeRows(leftOut, writing)
      return isAlike && repeatIn(withRowLost(sheet!, step), geometry ?? asked) === undefined
    })
  return entries.map((entry, i) => {
    const { sheet, error, ...rest } = entry
    if (!sheet) return entry
    const isBesideFault = entries[i - 1]?.error || entries[i + 1]?.error
    const repeat = repeats[i]
    const found = repeat
      ? `a grid with ${repeat.digit} twice in ${repeat.house}`
      : isShifted[i]
        ? 'a grid beside one that is cut at the wrong place'
        : isBesideFault && hasTwins(sheet)
          ? 'a grid with two equal rows, one below the other'
          : isBesideRow(i, entry)
            ? 'a grid beside a line that may be one of its rows'
            : undefined
    return found === undefined ? entry : { ...rest, error: doubtful(entry.line, found) }
  })
}

/** A grid that was cut out, or a line between grids. */
export interface Cut {
  readonly entry: SheetEntry
  /** How the rows of a grid are written. */
  readonly writing?: Writing
  /** How a line is written that was left out since the rows come out without it, but may be one. */
  readonly leftOut?: RowStyle
}

/** Which grids are cut at the wrong places, as the way of writing shows that changes within a grid. */
function shiftedAmong(cuts: readonly Cut[]): boolean[] {
  const isForced = cuts.some(({ leftOut }) => leftOut)
  if (isForced && cuts.some(({ writing, entry }) => writing && entry.error)) return cuts.map(() => true)
  const isShifted = cuts.map(({ writing }) => writing?.odd !== undefined || writing?.isDoubled === true)
  const goesOn = (i: number) => {
    const [above, below] = [cuts[i]?.writing?.last, cuts[i + 1]?.writing?.first]
    return above !== undefined && below !== undefined && !isOtherWriting(above, below)
  }
  for (let i = 0; i + 1 < cuts.length; i++) if (isShifted[i] && goesOn(i)) isShifted[i + 1] = true
  for (let i = cuts.length - 1; i > 0; i--) if (isShifted[i] && goesOn(i - 1)) isShifted[i - 1] = true
  return isShifted
}

/** As if a row were lost at its beginning (-1) or at its end (1), and one too many at the other side. */
function withRowLost(sheet: Sheet, side: number): Sheet {
  const { order, cells } = sheet
  const lost = cells.slice(0, order).map(() => EMPTY_CELL)
  return {
    ...sheet,
    cells: side < 0 ? [...lost, ...cells.slice(0, -order)] : [...cells.slice(order), ...lost],
  }
}

/** Are two rows next to each other equal? */
function hasTwins({ order, cells }: Sheet): boolean {
  return cells.some((_, from) => {
    if (from % order !== 0 || from + order === cells.length) return false
    return cells.slice(from, from + order).every(({ given }, i) => given === cells[from + order + i]!.given)
  })
}

function doubtful(line: number, found: string): InputError {
  return shapeError(
    line,
    `${found}, among rows of which some are lost or added`,
    'a break between grids, so that rows need not be counted',
  )
}

interface Repeat {
  readonly digit: number
  /** `row 3`, `column 1`, `box 9`. */
  readonly house: string
}

/** A digit that stands twice in a house; only rows and columns are known where nothing says the boxes. */
export function repeatIn({ order, cells, shape }: Sheet, asked: Geometry | undefined): Repeat | undefined {
  const drawn = shape?.kind === 'boxes' ? boxedGeometry(shape.rows, shape.columns) : undefined
  const geometry = asked ?? (shape ? drawn : squareGeometry(order))
  const numbers = Array.from({ length: order }, (_, i) => i)
  const lines = [
    ...numbers.map((r) => ({ name: `row ${r + 1}`, cells: numbers.map((c) => r * order + c) })),
    ...numbers.map((c) => ({ name: `column ${c + 1}`, cells: numbers.map((r) => r * order + c) })),
  ]
  const pieces = geometry?.order === order ? layoutOf(geometry).houses.slice(2 * order) : []
  for (const house of [...lines, ...pieces]) {
    let seen = 0
    for (const cell of house.cells) {
      const digit = cells[cell]!.given
      if (digit > 0 && seen & (1 << digit)) return { digit, house: house.name }
      seen |= 1 << digit
    }
  }
  return undefined
}

/**
 * How many rows with digits are equal to an earlier one. One alone is a row added; many are a grid filled by a rule.
 */
function rowsStandingAgain({ order, cells }: Sheet): number {
  const rows = Array.from({ length: order }, (_, r) =>
    cells.slice(r * order, (r + 1) * order).map(({ given }) => given),
  )
  const filled = rows.filter((row) => row.filter((digit) => digit > 0).length > 1).map((row) => row.join())
  return filled.length - new Set(filled).size
}
