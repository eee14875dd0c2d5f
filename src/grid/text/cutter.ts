import { rowsWithDots } from './blank-cells.js'
import { blockOf, isSixteen, isUnclearSixteen } from './block.js'
import { cutAt, drawnBeyondRows, isDrawnEvenly } from './drawn-lines.js'
import type { SheetEntry } from './entry.js'
import { saidGeometry } from './geometry-line.js'
import { HeadedRows } from './headed-rows.js'
import { isNumberRemark } from './headings.js'
import { JsonGatherer } from './json-gatherer.js'
import { withoutLabels } from './labels.js'
import { hasRules, isRuleLine, lineKind, plainText, type TextLine, withoutRemark } from './lines.js'
import { type LoneSixteen, LoneSixteens, loneSixteenOf } from './lone-sixteen.js'
import { NO_NOTES, NoteBook, type Notes } from './notes.js'
import { byWidth, type Part } from './part.js'
import { isLong, LONGEST_ROW, mayBeMarks, profileOf } from './profile.js'
import type { SheetOptions } from './read-sheet.js'
import { GAP, Run } from './run.js'
import { orderOfCount, textError } from './sheet.js'
import { SHORTEST_GRID_LINE, SheetReader } from './sheet-reader.js'

/** Characters held at once; some 2,900 grids of nine rows without a break between them. */
const MOST_HELD = 1 << 18

/** Lines of one block after which lines that look like a grid each are taken one by one. */
const LINES_TO_DECIDE = 64

/** The shortest run of symbols that makes a line a grid of its own among rows: two rows run together have fewer. */
const CLEARLY_LONG = 34

/** So many lines of sixteen symbols, one below the other, are grids: no text has so many numbers there. */
const FEWEST_SIXTEENS = 4

/** A bracket, but for those round a number or a word before other text: `[12] 003020600…`. */
const BEGINS_JSON = /^\s*(\{|\[(?![^\],"[{]*\]\s*[^\s,\]]))/

interface OpenBlock {
  readonly notes: Notes
  readonly lines: TextLine[]
  length: number
  /** Some line so far has bars between cells. */
  hasBars: boolean
  /** Some line so far has a blank. */
  hasBlanks: boolean
  /** The lines are taken for a grid each; those before have been handed out. */
  isLinewise: boolean
}

/**
 * Cuts a stream of lines into grids by layout. A block is what stands between breaks: blank lines, comments, headings,
 * frames, and lines that are a whole grid each. A block whose rows are as many as its cells on a row, or a multiple of
 * them, is cut by counting; blocks that are less wait in a run until it is clear whether they are the equal bands of
 * one grid or broken grids. Nothing is handed out before its whole block is seen, so that a lost row shifts no other
 * grid.
 */
export class SheetCutter {
  private readonly book = new NoteBook()
  private readonly reader: SheetReader
  private readonly order: number
  private readonly headed = new HeadedRows()
  private readonly sixteens = new LoneSixteens()
  /** Entries of lines of sixteen symbols that stand alone, or nearly so. */
  private readonly lone = new WeakMap<SheetEntry, LoneSixteen>()
  private run: Run
  private block: OpenBlock | undefined
  private json: JsonGatherer | undefined
  /** The last heading. */
  private title: TextLine | undefined
  private gap: number = GAP.none
  /** No break parts what comes from broken rows above: a line that is a whole grid may have been put in among rows. */
  private isBelowBroken = false
  /** Lines are passed over until something parts them from what was too much to hold. */
  private skipping = false

  /** @param isSingle the whole text is one grid, whatever blank lines and comments stand in it */
  constructor(
    options: SheetOptions,
    private readonly isSingle = false,
  ) {
    this.reader = new SheetReader(options)
    this.order = options.geometry?.order ?? 0
    this.run = new Run(this.reader, isSingle)
  }

  /** Takes the next line and yields the grids that are complete now. */
  *add(line: TextLine): Generator<SheetEntry> {
    yield* this.settled(this.take(line))
  }

  /** Makes what it can of the lines still held. */
  *end(): Generator<SheetEntry> {
    yield* this.settled(this.finish())
    yield* this.sixteens.end()
  }

  private *settled(entries: Iterable<SheetEntry>): Generator<SheetEntry> {
    for (const entry of entries) yield* this.sixteens.settle(entry, this.lone.get(entry))
  }

  private *take(line: TextLine): Generator<SheetEntry> {
    if (this.json) {
      if (this.json.takes(line)) {
        if (this.json.add(line)) yield* this.endJson()
        return
      }
      yield* this.endJson()
    }
    const text = plainText(line.text)
    const kind = this.block && mayBeRowOfBlanks(this.block, text) ? 'content' : lineKind(text)
    if (kind !== 'title') yield* this.headed.end()
    if (this.skipping && kind !== 'title' && kind !== 'geometry') {
      if (kind !== 'content') this.skipping = false
      else return
    }
    this.skipping = false
    if (kind === 'content') {
      yield* this.addContent({ text: withoutRemark(text), number: line.number })
      return
    }
    yield* this.closeBlock()
    this.isBelowBroken = false
    switch (kind) {
      case 'blank':
        this.gap = this.gap < GAP.drawn ? this.gap + 1 : this.gap
        return
      case 'comment':
        this.gap = Math.max(this.gap, GAP.comment)
        this.book.addComment(line.text.replace(/^\s*#+\s?/, ''))
        return
      case 'title':
        this.gap = Math.max(this.gap, GAP.title)
        this.book.addTitle(line.text.trim())
        this.title = { text, number: line.number }
        yield* this.headed.add(line)
        return
      case 'geometry':
        yield* this.addGeometry(line)
    }
  }

  private *finish(): Generator<SheetEntry> {
    if (this.json) yield* this.endJson()
    yield* this.headed.end()
    yield* this.closeBlock()
    yield* this.run.end()
    if (this.book.geometry) yield this.unusedGeometry()
  }

  private *addGeometry(line: TextLine): Generator<SheetEntry> {
    this.gap = Math.max(this.gap, GAP.comment)
    yield* this.run.end()
    if (this.book.geometry) yield this.unusedGeometry()
    this.book.geometry = saidGeometry(line)
  }

  private unusedGeometry(): SheetEntry {
    const { line, error } = this.book.geometry!
    const { geometry: _, ...notes } = this.book.take()
    const nothing = textError('text-shape', { line }, 'a geometry with no grid below it', 'the grid it is of')
    return { line, ...notes, error: error ?? nothing }
  }

  private *addContent(line: TextLine): Generator<SheetEntry> {
    if (BEGINS_JSON.test(line.text)) {
      this.json = new JsonGatherer()
      if (this.json.add(line)) yield* this.endJson()
      return
    }
    if (this.block?.isLinewise) {
      yield* this.eachLine({ lines: [line], notes: NO_NOTES })
      return
    }
    if (this.isClearlyWhole(line)) {
      for (const entry of [...this.closeBlock(), ...this.run.end()]) {
        this.isBelowBroken = entry.error !== undefined
        yield entry
      }
      yield this.reader.entry([line], this.book.take())
      return
    }
    if (this.block && endsDrawing(this.block, line)) {
      yield* this.closeBlock()
      this.gap = Math.max(this.gap, GAP.drawn)
    }
    if (!this.block) {
      yield* this.run.part(this.gap)
      this.gap = GAP.none
      const row = this.title && isRowAbove(this.title, line) ? this.title : undefined
      const notes = this.book.take()
      this.block = {
        notes: row ? { ...notes, title: undefined } : notes,
        lines: row ? [row] : [],
        length: 0,
        hasBars: false,
        hasBlanks: row !== undefined,
        isLinewise: false,
      }
    }
    const { block } = this
    block.lines.push(line)
    block.length += line.text.length + 1
    block.hasBlanks ||= line.text.includes(' ')
    block.hasBars ||= hasRules(line.text) && !isRuleLine(line.text)
    if (block.lines.length === LINES_TO_DECIDE && this.areGridsEach(block.lines)) {
      yield* this.run.end()
      yield* this.eachLine(block)
      block.lines.length = 0
      block.isLinewise = true
    } else if (block.length + this.run.length > MOST_HELD) yield this.giveUp(block)
  }

  private areGridsEach(lines: readonly TextLine[]): boolean {
    const profiles = lines.map(profileOf)
    if (!profiles.every((profile) => isSixteen(profile) || isLong(profile))) return false
    // one line of sixteen symbols that is a 4×4 grid may be a row all the same
    const isGrid = !isSixteen(profiles[0]!) && !this.reader.entry([lines[0]!], NO_NOTES).error
    return isGrid || blockOf(lines, this.orderOf(this.block!.notes)).kind === 'lines'
  }

  /** A line with so many symbols that it is no row of anything. */
  private isClearlyWhole(line: TextLine): boolean {
    const profile = profileOf(line)
    if (profile.isDrawn && !/^[\s.0]+$/.test(line.text)) return false
    if (profile.hasBars) return profile.longestRun > CLEARLY_LONG
    if (this.order === 4 && isSixteen(profile)) return true
    const { words, values } = profile.widths
    if (!isLong(profile) || mayBeMarks(profile)) return false
    return (
      Math.max(profile.longestRun, values, words) >= CLEARLY_LONG ||
      (profile.isSpacedOut && orderOfCount(line.text.length) > 0)
    )
  }

  private orderOf({ geometry }: Notes): number {
    return this.order || (geometry?.geometry?.order ?? 0)
  }

  private *eachLine({ lines, notes }: { lines: readonly TextLine[]; notes: Notes }): Generator<SheetEntry> {
    let own = notes
    const sixteens = lines.filter((line) => isSixteen(profileOf(line))).length
    const areLone = this.orderOf(notes) !== 4 && sixteens < FEWEST_SIXTEENS
    for (const line of lines) {
      const profile = profileOf(line)
      if (profile.isDrawn && !/^[\s.0]+$/.test(line.text)) {
        if (mayBeGrid(line)) yield this.reader.drawnLine(line, NO_NOTES)
        continue
      }
      const entry = this.reader.entry([line], own)
      if (areLone && (isSixteen(profile) || entry.sheet?.order === 4))
        this.lone.set(entry, loneSixteenOf(line.text))
      yield entry
      own = NO_NOTES
    }
  }

  private *closeBlock(): Generator<SheetEntry> {
    const open = this.block
    this.block = undefined
    if (!open || open.lines.length === 0) return
    const isHeading = remarksAmong(open.lines, this.orderOf(open.notes))
    this.book.giveBack(open.notes)
    let from = 0
    for (let to = 0; to <= open.lines.length; to++) {
      const line = open.lines[to]
      if (line && !isHeading(line)) continue
      if (to > from) {
        if (from > 0) yield* this.run.part(GAP.title)
        yield* this.closeLines(open.lines.slice(from, to), this.book.take())
      }
      from = to + 1
      if (!line) continue
      this.gap = GAP.title
      this.book.addTitle(line.text.trim())
    }
  }

  private *closeLines(all: readonly TextLine[], notes: Notes): Generator<SheetEntry> {
    const lines = withoutLabels(all) ?? rowsWithDots(all) ?? all
    const block = blockOf(lines, this.orderOf(notes))
    this.gap = GAP.none
    switch (block.kind) {
      case 'drawn': {
        const odd = lines.find(mayBeGrid)
        if (odd) {
          yield* this.run.end()
          yield this.reader.drawnLine(odd, notes)
        } else this.book.giveBack(notes)
        this.gap = Math.max(this.gap, GAP.drawn)
        return
      }
      case 'lines': {
        yield* this.run.end()
        const cells = cellsPerLine(lines)
        if (cells === 0) yield* this.eachLine({ lines, notes })
        else yield this.reader.severalRows(lines, cells, notes)
        return
      }
      case 'rows':
        yield* this.closeRows({ ...block, lines, notes })
    }
  }

  /**
   * Rows that do not come out together may do so between drawn lines: between those that are longer than the rows,
   * which part grids; else in equal bands.
   *
   * @param goesOn the first of them goes on with the bands that wait, across another break
   */
  private *closeBetweenDrawn({ width, lines, roles, notes }: Part, goesOn: boolean): Generator<SheetEntry> {
    const isLonger = drawnBeyondRows(lines, roles)
    const areParting = roles.some((_, i) => isLonger(i))
    if (!areParting && !goesOn) yield* this.run.end()
    const pieces = cutAt(lines, (i) => (areParting ? isLonger(i) : roles[i] === 'drawn'))
    const areGrids = areParting || pieces.every((piece) => piece.length * 3 > width * 2)
    // where lines stand between the bands of grids, half of one and half of the next may be as many rows as a grid
    const mayBeHalves = !areParting && width % 2 === 0
    const inDoubt = pieces.some((piece) => piece.length % width !== 0) && (mayBeHalves ? 'all' : true)
    for (const [i, piece] of pieces.entries()) {
      if (i > 0) yield* this.run.part(GAP.drawn)
      const own = i === 0 ? notes : NO_NOTES
      const block = blockOf(piece, this.orderOf(own))
      if (block.kind === 'rows') {
        const part = { ...block, lines: piece, notes: own, isPiece: true as const }
        yield* areGrids ? this.closeRows(part, inDoubt) : this.run.add(part)
      } else if (block.kind === 'lines') {
        yield* this.run.end()
        yield* this.eachLine({ lines: piece, notes: own })
      }
    }
  }

  /** @param inDoubt rows around may be lost or added */
  private *closeRows(part: Part, inDoubt: boolean | 'all' = false): Generator<SheetEntry> {
    if (part.rows > 1) this.sixteens.rows(part.width)
    const isShifted = this.isBelowBroken || this.run.isBelowHalf(part.width)
    yield* this.closeCounted(part, isShifted ? 'all' : inDoubt)
    this.run.pass(part)
  }

  private *closeCounted(part: Part, inDoubt: boolean | 'all'): Generator<SheetEntry> {
    const { width, rows, lines, roles } = part
    const isPlain = lines.some((line) => isSixteen(profileOf(line)))
    const isWhole = width > 0 && rows > 0 && rows % width === 0 && isDrawnEvenly(part)
    const parts =
      isWhole && roles.every((role) => role === 'row' || role === 'drawn') ? undefined : byWidth(part)
    if (parts) {
      yield* this.run.end()
      for (const each of parts) yield* this.reader.grids(each)
    } else if (width === 16 && isPlain && isUnclearSixteen(lines, this.orderOf(part.notes))) {
      yield* this.run.end()
      yield this.reader.unclearSixteen(part)
    } else if (isWhole && this.isBands(part)) {
      yield* this.closeBetweenDrawn(part, true)
    } else if (isWhole) {
      const isAfterBroken = this.run.parts.length > 0
      yield* this.run.end()
      yield* this.reader.grids(part, inDoubt || isAfterBroken)
    } else if (width === 0 && this.reader.canRead(part)) {
      yield* this.run.end()
      yield this.reader.blankCells(part)
    } else if (width > 0 && roles.includes('drawn') && !lines.some((line) => profileOf(line).hasBars)) {
      yield* this.closeBetweenDrawn(part, false)
    } else yield* this.run.add(part)
  }

  /** Are these rows, parted by drawn lines that are longer, no grid but bands as the last one that waits? */
  private isBands({ lines, roles }: Part): boolean {
    const { parts } = this.run
    const pieces = cutAt(lines, (i) => roles[i] === 'drawn')
    const areEqual = pieces.length > 1 && pieces.every((piece) => piece.length === parts.at(-1)?.rows)
    const isLonger = drawnBeyondRows(lines, roles, 0)
    const arePartingGrids = roles.every((role, i) => role !== 'drawn' || isLonger(i))
    return areEqual && arePartingGrids && !parts.some(({ isPiece }) => isPiece)
  }

  private giveUp({ lines, notes }: OpenBlock): SheetEntry {
    const line = this.run.parts[0]?.lines[0]?.number ?? lines[0]!.number
    this.run = new Run(this.reader, this.isSingle)
    this.block = undefined
    this.skipping = true
    const found = `more than ${MOST_HELD} characters of rows without a break`
    const expected = 'a blank line, a comment or a heading between grids'
    const { title, comments } = notes
    return { line, title, comments, error: textError('text-shape', { line }, found, expected) }
  }

  private *endJson(): Generator<SheetEntry> {
    const { lines } = this.json!
    this.json = undefined
    const entries = [...this.reader.jsonEntries(lines, this.book.take())]
    const [line, ...others] = lines
    const isShort = others.length === 0 && profileOf(line!).widths.symbols <= LONGEST_ROW
    if (this.block && !this.block.isLinewise && isShort && entries.every(({ error }) => error)) {
      // among rows, a bracket or two are a fault of theirs
      this.block.lines.push(line!)
      return
    }
    yield* this.closeBlock()
    yield* this.run.end()
    yield* entries
  }
}

/**
 * Which lines are headings that only their place tells from rows: dates and the like that stand by themselves, above,
 * below or between whole grids, or among rows whose number does not come out.
 */
function remarksAmong(lines: readonly TextLine[], order: number): (line: TextLine) => boolean {
  const remarks = new Set(lines.filter(({ text }) => isNumberRemark(text)))
  const block =
    remarks.size > 0 && (remarks.size < lines.length || lines.length >= FEWEST_SIXTEENS)
      ? blockOf(lines, order)
      : undefined
  if (block?.kind !== 'rows') return (line) => remarks.has(line)
  const { roles, rows, width } = block
  const isOpen = width === 0 || rows % width !== 0
  const strays = new Set(lines.filter((_, i) => roles[i] === 'stray' || (isOpen && roles[i] !== 'row')))
  return (line) => strays.has(line) && remarks.has(line)
}

/** Is a number above rows with blanks for empty cells, as long as they with its own blanks, one of them? */
function isRowAbove(title: TextLine, { text, number }: TextLine): boolean {
  const isBlank = (row: string) => /^[1-9 ]{4,16}$/.test(row) && row.includes(' ')
  return (
    title.number === number - 1 && title.text.length === text.length && isBlank(title.text) && isBlank(text)
  )
}

/** Does the line go on with rows of one length whose empty cells are blanks? It may be blank itself, or have one digit. */
function mayBeRowOfBlanks({ lines, hasBlanks }: OpenBlock, text: string): boolean {
  const above = lines.at(-1)?.text ?? ''
  const isRow = text.length === above.length && text.length >= 4 && text.length <= LONGEST_ROW
  return hasBlanks && isRow && [text, above].every((line) => /^[1-9 ]+$/.test(line))
}

/** How many cells each of several lines has, if all have as many, and too many for a row but too few for a grid; else 0. */
function cellsPerLine(lines: readonly TextLine[]): number {
  const [first, ...others] = lines.map((line) => profileOf(line).widths.symbols)
  const isNeither = first! > LONGEST_ROW && first! < SHORTEST_GRID_LINE && orderOfCount(first!) === 0
  return isNeither && others.length > 0 && others.every((cells) => cells === first) ? first! : 0
}

/** A drawn line of one symbol, as long as a grid on one line. */
function mayBeGrid({ text }: TextLine): boolean {
  return /^\s*([*_xo?])\1+\s*$/i.test(text) && orderOfCount(text.trim().length) > 0
}

/** Does the line begin another drawing, or something else below one? Two frames meet, or rows have no bars any more. */
function endsDrawing({ lines, hasBars }: OpenBlock, line: TextLine): boolean {
  const last = lines.at(-1)
  if (!hasBars || lines.length < 2 || !last || !isRuleLine(last.text)) return false
  // column labels may stand below as well as above
  const isLabels = line.text.trim() === lines[0]!.text.trim()
  return isRuleLine(line.text) || (!hasRules(line.text) && !isLabels)
}
