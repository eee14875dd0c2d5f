import { repeatIn } from './doubt.js'
import type { SheetEntry } from './entry.js'
import { textError } from './sheet.js'

/** Entries that wait at most until it is clear what the grids of a text are. */
const MOST_WAITING = 50

/**
 * A line of sixteen symbols that stands alone is a 4×4 grid, or a number such as an id. If it does not look like a
 * sound puzzle, it is none with other words on its line; else the grid before it says which, or the next one. In a text that holds nothing else it is a grid, among lines that cannot be read it stays
 * unclear.
 */
export class LoneSixteens {
  private lastOrder = 0
  private hasErrors = false
  private waiting: SheetEntry[] = [];

  /** @param isLone the entry is of such a line */
  *settle(entry: SheetEntry, isLone: boolean): Generator<SheetEntry> {
    const { sheet } = entry
    this.hasErrors ||= entry.error !== undefined
    if (!sheet || isLone) {
      const isOpen = isLone && !looksLikePuzzle(entry)
      if (isOpen && (this.lastOrder > 4 || sheet?.remark !== undefined)) yield unclear(entry)
      else if (this.waiting.length > 0 || (isOpen && this.lastOrder === 0)) this.waiting.push(entry)
      else yield entry
      if (this.waiting.length > MOST_WAITING) yield* this.end()
      return
    }
    yield* this.release(sheet.order)
    this.lastOrder = sheet.order
    yield entry
  }

  *end(): Generator<SheetEntry> {
    yield* this.release(this.hasErrors ? Infinity : 4)
  }

  private *release(order: number): Generator<SheetEntry> {
    const { waiting } = this
    this.waiting = []
    for (const entry of waiting)
      yield entry.sheet && order > 4 && !looksLikePuzzle(entry) ? unclear(entry) : entry
  }
}

/**
 * No number looks like a sound puzzle: no digit stands twice in a house, three of the digits are there at least, and no
 * two empty rows or columns could change places.
 */
function looksLikePuzzle({ sheet }: SheetEntry): boolean {
  if (!sheet) return false
  const digits = sheet.cells.map(({ given }) => given)
  const isFilled = (cells: readonly number[]) => cells.some((cell) => digits[cell]! > 0)
  const fours = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => 4 * i + j))
  const columns = [0, 1, 2, 3].map((j) => [0, 1, 2, 3].map((i) => 4 * i + j))
  const hasTwins = [fours, columns].some((lines) =>
    [0, 2].some((i) => !isFilled(lines[i]!) && !isFilled(lines[i + 1]!)),
  )
  return repeatIn(sheet, undefined) === undefined && new Set(digits).size > 3 && !hasTwins
}

function unclear({ sheet: _, geometry: __, ...place }: SheetEntry): SheetEntry {
  const error = textError(
    'text-shape',
    { line: place.line },
    'a line of 16 symbols among larger grids, a 4×4 grid or a number',
    'a line such as "# geometry: 2x2" above it if it is a grid, or # before it',
  )
  return { ...place, error }
}
