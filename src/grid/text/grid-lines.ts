import { blockOf, isSixteen } from './block.js'
import type { SheetEntry } from './entry.js'
import type { TextLine } from './lines.js'
import { type LoneSixteen, LoneSixteens, loneSixteenOf } from './lone-sixteen.js'
import { NO_NOTES, type Notes, orderSaid } from './notes.js'
import { isLong, LONGEST_ROW, mayBeMarks, profileOf } from './profile.js'
import type { SheetOptions } from './read-sheet.js'
import { orderOfCount } from './sheet.js'
import { SHORTEST_GRID_LINE, type SheetReader } from './sheet-reader.js'

/** The shortest run of symbols that makes a line a grid of its own among rows: two rows run together have fewer. */
const CLEARLY_LONG = 34

/** So many lines of sixteen symbols, one below the other, are grids: no text has so many numbers there. */
export const FEWEST_SIXTEENS = 4

/** Lines that are a grid each, or meant as one. */
export class GridLines {
  private readonly sixteens = new LoneSixteens()
  /** Entries of lines of sixteen symbols that stand alone, or nearly so. */
  private readonly lone = new WeakMap<SheetEntry, LoneSixteen>()

  constructor(
    private readonly reader: SheetReader,
    private readonly options: SheetOptions,
  ) {}

  /** Entries of all kinds in their order, once it is clear what lines of sixteen symbols among them are. */
  *settled(entries: Iterable<SheetEntry>): Generator<SheetEntry> {
    for (const entry of entries) yield* this.sixteens.settle(entry, this.lone.get(entry))
  }

  *end(): Generator<SheetEntry> {
    yield* this.sixteens.end()
  }

  /** Rows of so many cells were seen. */
  sawRows(width: number): void {
    this.sixteens.saw(width)
  }

  /** A line with so many symbols that it is no row of anything. */
  isClearlyWhole(line: TextLine): boolean {
    const profile = profileOf(line)
    if (profile.isDrawn && !/^[\s.0]+$/.test(line.text)) return false
    if (profile.hasBars) return profile.longestRun > CLEARLY_LONG
    if (this.options.geometry?.order === 4 && isSixteen(profile)) return true
    const { words, values } = profile.widths
    if (isRowByRow(line.text)) return true
    if (!isLong(profile) || mayBeMarks(profile)) return false
    return (
      Math.max(profile.longestRun, values, words) >= CLEARLY_LONG ||
      (profile.isSpacedOut && orderOfCount(line.text.length) > 0)
    )
  }

  /** The grid on a line that is clearly a whole one. */
  whole(line: TextLine, notes: Notes): SheetEntry {
    if (this.options.geometry?.order !== 4) this.sixteens.saw(line.text.length)
    return this.reader.entry([line], notes)
  }

  /** Are all of these lines, the first of a long block, grids? */
  areGrids(lines: readonly TextLine[], notes: Notes): boolean {
    const profiles = lines.map(profileOf)
    if (!profiles.every((profile) => isSixteen(profile) || isLong(profile))) return false
    // one line of sixteen symbols that is a 4×4 grid may be a row all the same
    const isGrid = !isSixteen(profiles[0]!) && !this.reader.entry([lines[0]!], NO_NOTES).error
    return isGrid || blockOf(lines, orderSaid(notes, this.options)).kind === 'lines'
  }

  /** What each of these lines is. */
  *each(lines: readonly TextLine[], notes: Notes): Generator<SheetEntry> {
    let own = notes
    const sixteens = lines.filter((line) => isSixteen(profileOf(line))).length
    const areLone = orderSaid(notes, this.options) !== 4 && sixteens < FEWEST_SIXTEENS
    for (const line of lines) {
      const profile = profileOf(line)
      if (profile.isDrawn && !/^[\s.0]+$/.test(line.text)) {
        if (mayBeGrid(line)) yield this.reader.drawnLine(line, NO_NOTES)
        continue
      }
      const entry = this.reader.entry([line], own)
      if (!isSixteen(profile) && entry.sheet?.order !== 4) this.sixteens.saw(profile.widths.symbols)
      const kind = areLone && (isSixteen(profile) || entry.sheet?.order === 4) && loneSixteenOf(line.text)
      if (kind) this.lone.set(entry, kind)
      yield entry
      own = NO_NOTES
    }
  }

  /** Lines of a block in which each is a grid, or lines of several rows that are one together. */
  *block(lines: readonly TextLine[], notes: Notes): Generator<SheetEntry> {
    const cells = cellsPerLine(lines)
    if (cells === 0) yield* this.each(lines, notes)
    else yield this.reader.severalRows(lines, cells, notes)
  }

  /** Drawn lines alone: what is wrong with one that may be a grid. */
  drawn(lines: readonly TextLine[], notes: Notes): SheetEntry | undefined {
    const odd = lines.find(mayBeGrid)
    return odd && this.reader.drawnLine(odd, notes)
  }
}

/** `003020600 900305001 …`: nine words of nine cells, which hardly can be pencil marks. */
function isRowByRow(text: string): boolean {
  const words = text.trim().split(/\s+/)
  const order = words.length
  const areRows = words.every((word) => word.length === order && /^[0-9a-gxo._*?-]+$/i.test(word))
  return order > 4 && order <= LONGEST_ROW && areRows && words.some((word) => /[0x._*?-]|(.).*\1/i.test(word))
}

/**
 * How many cells each of several lines has, if all have as many, and too many for a row but too few for a grid; else 0.
 */
function cellsPerLine(lines: readonly TextLine[]): number {
  const [first, ...others] = lines.map((line) => profileOf(line).widths.symbols)
  const isNeither = first! > LONGEST_ROW && first! < SHORTEST_GRID_LINE && orderOfCount(first!) === 0
  return isNeither && others.length > 0 && others.every((cells) => cells === first) ? first! : 0
}

/** A drawn line of one symbol, as long as a grid on one line. */
function mayBeGrid({ text }: TextLine): boolean {
  return /^\s*([*_xo?])\1+\s*$/i.test(text) && orderOfCount(text.trim().length) > 0
}
