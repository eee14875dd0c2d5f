import { BlockCutter } from './block-cutter.js'
import type { SheetEntry } from './entry.js'
import { saidGeometry } from './geometry-line.js'
import { GridLines } from './grid-lines.js'
import { HeadedRows } from './headed-rows.js'
import { JsonGatherer } from './json-gatherer.js'
import { lineKind, plainText, type TextLine, withoutRemark } from './lines.js'
import { NO_NOTES, NoteBook, type Notes, orderSaid } from './notes.js'
import { isRowAbove, OpenBlock } from './open-block.js'
import { LONGEST_ROW, profileOf } from './profile.js'
import type { SheetOptions } from './read-sheet.js'
import { remarksAmong } from './remarks.js'
import { GAP, Run } from './run.js'
import { shapeError } from './sheet.js'
import { SheetReader } from './sheet-reader.js'

/** Characters held at once; some 2,900 grids of nine rows without a break between them. */
const MOST_HELD = 1 << 18

/** Lines of one block after which lines that look like a grid each are taken one by one. */
const LINES_TO_DECIDE = 64

/** Headings one below the other that are kept in case they are rows; no grid has so many. */
const MOST_NUMBERS = 16

/** A bracket, but for those round a number or a word before other text: `[12] 003020600…`. */
const BEGINS_JSON = /^\s*(\{|\[(?![^\],"[{]*\]\s*[^\s,\]]))/

/**
 * Cuts a stream of lines into grids by layout. A block is what stands between breaks: blank lines, comments, headings,
 * frames, and lines that are a whole grid each. Nothing is handed out before its whole block is seen, so that a lost
 * row shifts no other grid.
 */
export class SheetCutter {
  private readonly book = new NoteBook()
  private readonly reader: SheetReader
  private readonly headed = new HeadedRows()
  private readonly run: Run
  private readonly gridLines: GridLines
  private readonly blocks: BlockCutter
  private block: OpenBlock | undefined
  private json: JsonGatherer | undefined
  /** Headings that may be rows with blanks for empty cells, one below the other, and what was said above them. */
  private numbers: TextLine[] = []
  private aboveNumbers: Notes = NO_NOTES
  private gap: number = GAP.none
  /** No break parts what comes from broken rows above: a line that is a whole grid may have been put in among rows. */
  private isBelowBroken = false
  /** Lines are passed over until something parts them from what was too much to hold. */
  private skipping = false

  /** @param isSingle the whole text is one grid, whatever blank lines and comments stand in it */
  constructor(
    private readonly options: SheetOptions,
    isSingle = false,
  ) {
    this.reader = new SheetReader(options)
    this.run = new Run(this.reader, isSingle)
    this.gridLines = new GridLines(this.reader, options)
    this.blocks = new BlockCutter(this.reader, this.gridLines, this.run, options)
  }

  /** Takes the next line and yields the grids that are complete now. */
  *add(line: TextLine): Generator<SheetEntry> {
    yield* this.gridLines.settled(this.take(line))
  }

  /** Makes what it can of the lines still held. */
  *end(): Generator<SheetEntry> {
    yield* this.gridLines.settled(this.finish())
    yield* this.gridLines.end()
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
    const kind = this.block?.mayHaveRowOfBlanks(text) ? 'content' : lineKind(text)
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
        this.noteNumber({ text, number: line.number })
        this.book.addTitle(line.text.trim())
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
    const nothing = shapeError(line, 'a geometry with no grid below it', 'the grid it is of')
    return { line, ...notes, error: error ?? nothing }
  }

  private *addContent(line: TextLine): Generator<SheetEntry> {
    if (BEGINS_JSON.test(line.text)) {
      this.json = new JsonGatherer()
      if (this.json.add(line)) yield* this.endJson()
      return
    }
    if (this.block?.isLinewise) {
      yield* this.gridLines.each([line], NO_NOTES)
      return
    }
    if (this.gridLines.isClearlyWhole(line)) {
      for (const entry of [...this.closeBlock(), ...this.run.end()]) {
        this.isBelowBroken = entry.error !== undefined
        yield entry
      }
      yield this.gridLines.whole(line, this.book.take())
      return
    }
    if (this.block?.endsAt(line)) {
      yield* this.closeBlock()
      this.gap = Math.max(this.gap, GAP.drawn)
    }
    this.block ??= yield* this.openBlock(line)
    const { block } = this
    block.add(line)
    if (block.lines.length === LINES_TO_DECIDE && this.gridLines.areGrids(block.lines, block.notes)) {
      yield* this.run.end()
      yield* this.gridLines.each(block.lines, block.notes)
      block.lines.length = 0
      block.isLinewise = true
    } else if (block.length + this.run.length > MOST_HELD) yield this.giveUp(block)
  }

  private *openBlock(line: TextLine): Generator<SheetEntry, OpenBlock> {
    yield* this.run.part(this.gap)
    this.gap = GAP.none
    const notes = this.book.take()
    const [last] = this.numbers.slice(-1)
    if (!last || !isRowAbove(last, line)) return new OpenBlock(notes)
    const { title, comments } = this.aboveNumbers
    const block = new OpenBlock({ ...notes, title, comments })
    for (const row of this.numbers) block.add(row)
    return block
  }

  private noteNumber(line: TextLine): void {
    const [last] = this.numbers.slice(-1)
    if (last && isRowAbove(last, line) && this.numbers.length < MOST_NUMBERS) this.numbers.push(line)
    else {
      this.numbers = [line]
      this.aboveNumbers = this.book.said
    }
  }

  private *closeBlock(): Generator<SheetEntry> {
    const open = this.block
    this.block = undefined
    if (!open || open.lines.length === 0) return
    const isHeading = remarksAmong(open.lines, orderSaid(open.notes, this.options))
    this.book.giveBack(open.notes)
    let from = 0
    for (let to = 0; to <= open.lines.length; to++) {
      const line = open.lines[to]
      if (line && !isHeading(line)) continue
      if (to > from) {
        if (from > 0) yield* this.run.part(GAP.title)
        const lines = open.lines.slice(from, to)
        const left = yield* this.blocks.cut(lines, this.book.take(), this.isBelowBroken)
        if (left) this.book.giveBack(left)
        this.gap = left ? GAP.drawn : GAP.none
      }
      from = to + 1
      if (!line) continue
      this.gap = GAP.title
      this.book.addTitle(line.text.trim())
    }
  }

  private giveUp({ lines, notes }: OpenBlock): SheetEntry {
    const line = this.run.parts[0]?.lines[0]?.number ?? lines[0]!.number
    this.run.drop()
    this.block = undefined
    this.skipping = true
    const found = `more than ${MOST_HELD} characters of rows without a break`
    const expected = 'a blank line, a comment or a heading between grids'
    const { title, comments } = notes
    return { line, title, comments, error: shapeError(line, found, expected) }
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
