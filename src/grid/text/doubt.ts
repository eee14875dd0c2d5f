import type { InputError } from '../../errors.js'
import { boxedGeometry, type Geometry, squareGeometry } from '../geometry.js'
import { layoutOf } from '../layout.js'
import type { SheetEntry } from './entry.js'
import { type Sheet, textError } from './sheet.js'

/**
 * Grids that follow each other without a break are cut by counting rows, and the count may come out by luck: a row is
 * lost in one grid and another doubled, split or added in the next. Such grids are made of rows of two puzzles, and
 * nearly all of them hold a digit twice in a house. So where anything else in the block is wrong, where a grid has the
 * same row twice, or where two neighbours hold a digit twice, every grid that does so is refused. One that does so
 * among sound grids is left as it is: a wrong digit is not a wrong count.
 */
export function withoutDoubtful(
  entries: readonly SheetEntry[],
  asked: Geometry | undefined,
  inDoubt: boolean,
): SheetEntry[] {
  const isOneAdded = entries.some(({ sheet }) => sheet && rowsStandingAgain(sheet) === 1)
  if (entries.length < 2 && !inDoubt && !isOneAdded) return [...entries]
  const repeats = entries.map(({ sheet, geometry }) => sheet && repeatIn(sheet, geometry ?? asked))
  const isDoubtful =
    inDoubt ||
    entries.some(({ error }) => error) ||
    entries.some(({ sheet }) => sheet && rowsStandingAgain(sheet) > 0) ||
    repeats.some((repeat, i) => repeat && repeats[i + 1])
  if (!isDoubtful) return [...entries]
  return entries.map((entry, i) => {
    const repeat = repeats[i]
    if (!repeat) return entry
    const { sheet: _, geometry: __, ...rest } = entry
    return { ...rest, error: doubtful(entry.line, repeat) }
  })
}

function doubtful(line: number, { digit, house }: Repeat): InputError {
  return textError(
    'text-shape',
    { line },
    `a grid with ${digit} twice in ${house}, among rows of which some are lost or added`,
    'a break between grids, so that rows need not be counted',
  )
}

interface Repeat {
  readonly digit: number
  /** `row 3`, `column 1`, `box 9`. */
  readonly house: string
}

/** A digit that stands twice in a house; only rows and columns are known where nothing says the boxes. */
function repeatIn({ order, cells, shape }: Sheet, asked: Geometry | undefined): Repeat | undefined {
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

/** How many rows with digits are equal to an earlier one. One alone is a row added; many are a grid filled by a rule. */
function rowsStandingAgain({ order, cells }: Sheet): number {
  const rows = Array.from({ length: order }, (_, r) =>
    cells.slice(r * order, (r + 1) * order).map(({ given }) => given),
  )
  const filled = rows.filter((row) => row.filter((digit) => digit > 0).length > 1).map((row) => row.join())
  return filled.length - new Set(filled).size
}
