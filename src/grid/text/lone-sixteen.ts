import { repeatIn } from './doubt.js'
import type { SheetEntry } from './entry.js'
import { shapeError } from './sheet.js'

/** Entries that wait at most until it is clear what the grids of a text are. */
const MOST_WAITING = 50

/** Lines of so many cells may be rows of a 16×16 grid, whole or not. */
const LONG_ROW = 13

/** More cells beside them on the line: it may be a longer one, broken. */
const PIECE = /(^|\s)(?=\S*[._*?-])[0-9a-gxo._*?-]{5,}(\s|$)/i

/** What a line of sixteen symbols that stands alone may be but a 4×4 grid: an id, or part of a larger grid. */
export type LoneSixteen = 'number' | 'part'

/**
 * Sixteen digits are a number; where cells have marks or stand apart, they are no number but may be part of a grid.
 * With one digit among marks the line may as well be a drawn one, and is as little sure to be a grid as a number. Only
 * a puzzle with its solution beside it is clearly a grid.
 */
export function loneSixteenOf(text: string): LoneSixteen | undefined {
  const words = text.split(/[\s,;:=]+/)
  const isSolved = words.some((word) => /^[1-4]{16}$/.test(word))
  if (isSolved && words.filter((word) => word.length === 16).length === 2) return undefined
  const cells = words.find((word) => word.length === 16) ?? text
  if ((cells.match(/[1-9]/g)?.length ?? 0) < 2) return 'number'
  return /[._*xo?-]|[,;\t]/i.test(cells) ? 'part' : 'number'
}

/**
 * A line of sixteen symbols that stands alone is a 4×4 grid unless it may be something else: a number, if it does not
 * look like a sound puzzle, with other words on its line or beside a larger grid; or a row or a part of a longer line,
 * where there are such. In a text that holds nothing else it is a grid; a number among lines that cannot be read stays
 * unclear.
 */
export class LoneSixteens {
  private lastOrder = 0
  private hasErrors = false
  private hasLong = false
  private waiting: { readonly entry: SheetEntry; readonly kind: LoneSixteen | undefined }[] = []

  /** A line of so many cells was seen that is no such line, whatever became of it. */
  saw(cells: number): void {
    this.hasLong ||= cells >= LONG_ROW
  }

  /** @param kind what the entry may be instead, if it is of such a line */
  *settle(entry: SheetEntry, kind: LoneSixteen | undefined): Generator<SheetEntry> {
    const { sheet } = entry
    this.hasErrors ||= entry.error !== undefined
    if (kind && !looksLikePuzzle(entry)) {
      if (this.isUnclear(entry, kind, this.lastOrder)) yield unclear(entry)
      else if (kind === 'part' || this.lastOrder === 0 || this.waiting.length > 0)
        this.waiting.push({ entry, kind })
      else yield entry
    } else if (sheet && !kind) {
      yield* this.release(sheet.order)
      this.lastOrder = sheet.order
      yield entry
    } else if (this.waiting.length > 0) this.waiting.push({ entry, kind: undefined })
    else yield entry
    if (this.waiting.length > MOST_WAITING) yield* this.end()
  }

  *end(): Generator<SheetEntry> {
    yield* this.release(this.hasErrors ? Infinity : 4)
  }

  private isUnclear({ sheet }: SheetEntry, kind: LoneSixteen, order: number): boolean {
    if (!sheet) return false
    return kind === 'part'
      ? this.hasLong || PIECE.test(sheet.remark ?? '')
      : order > 4 || sheet.remark !== undefined
  }

  private *release(order: number): Generator<SheetEntry> {
    const { waiting } = this
    this.waiting = []
    for (const { entry, kind } of waiting)
      yield kind && this.isUnclear(entry, kind, order) ? unclear(entry) : entry
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
  const error = shapeError(
    place.line,
    'a line of 16 symbols among larger grids, a 4×4 grid or a number',
    'a line such as "# geometry: 2x2" above it if it is a grid, or # before it',
  )
  return { ...place, error }
}
