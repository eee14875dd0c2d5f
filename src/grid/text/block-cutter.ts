import { rowsWithDots } from './blank-cells.js'
import { blockOf, isSixteen, isUnclearSixteen } from './block.js'
import type { Doubt } from './doubt.js'
import { cutAt, drawnBeyondRows, isDrawnEvenly } from './drawn-lines.js'
import type { SheetEntry } from './entry.js'
import type { GridLines } from './grid-lines.js'
import { withoutLabels } from './labels.js'
import type { TextLine } from './lines.js'
import { NO_NOTES, type Notes, orderSaid } from './notes.js'
import { byWidth, type Part } from './part.js'
import { profileOf } from './profile.js'
import type { SheetOptions } from './read-sheet.js'
import { GAP, type Run } from './run.js'
import type { SheetReader } from './sheet-reader.js'

/**
 * Cuts blocks into grids. A block whose rows are as many as its cells on a row, or a multiple of them, is cut by
 * counting; blocks that are less wait in a run until it is clear whether they are the equal bands of one grid or broken
 * grids.
 */
export class BlockCutter {
  constructor(
    private readonly reader: SheetReader,
    private readonly lines: GridLines,
    readonly run: Run,
    private readonly options: SheetOptions,
  ) {}

  /**
   * The grids of a block.
   *
   * @param isBelowBroken no break parts it from broken rows above
   * @returns notes for the next block, if this one has nothing but drawn lines
   */
  *cut(
    all: readonly TextLine[],
    notes: Notes,
    isBelowBroken: boolean,
  ): Generator<SheetEntry, Notes | undefined> {
    const lines = withoutLabels(all) ?? rowsWithDots(all) ?? all
    const block = blockOf(lines, orderSaid(notes, this.options))
    if (block.kind === 'drawn') {
      const odd = this.lines.drawn(lines, notes)
      if (!odd) return notes
      yield* this.run.end()
      yield odd
      return NO_NOTES
    }
    if (block.kind === 'rows') yield* this.closeRows({ ...block, lines, notes }, 'none', isBelowBroken)
    else {
      yield* this.run.end()
      yield* this.lines.block(lines, notes)
    }
    return undefined
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
    const areWhole = pieces.every((piece) => piece.length % width === 0)
    const doubt = areWhole ? 'none' : mayBeHalves ? 'wrong places' : 'wrong rows'
    for (const [i, piece] of pieces.entries()) {
      if (i > 0) yield* this.run.part(GAP.drawn)
      const own = i === 0 ? notes : NO_NOTES
      const block = blockOf(piece, orderSaid(own, this.options))
      if (block.kind === 'rows') {
        const isBelowDrawn = i > 0 && !areParting
        const part = { ...block, lines: piece, notes: own, isPiece: true as const, isBelowDrawn }
        yield* areGrids ? this.closeRows(part, doubt) : this.run.add(part)
      } else if (block.kind === 'lines') {
        yield* this.run.end()
        yield* this.lines.each(piece, own)
      }
    }
  }

  private *closeRows(part: Part, doubt: Doubt, isBelowBroken = false): Generator<SheetEntry> {
    if (part.rows > 1) this.lines.sawRows(part.width)
    const isOpen = isBelowBroken && !drawnBeyondRows(part.lines, part.roles)(0)
    const isShifted = isOpen || this.run.isBelowHalf(part.width)
    yield* this.closeCounted(part, isShifted ? 'wrong places' : doubt)
    this.run.pass(part)
  }

  private *closeCounted(part: Part, doubt: Doubt): Generator<SheetEntry> {
    const { width, rows, lines, roles } = part
    const isPlain = lines.some((line) => isSixteen(profileOf(line)))
    const isWhole = width > 0 && rows > 0 && rows % width === 0 && isDrawnEvenly(part)
    const parts =
      isWhole && roles.every((role) => role === 'row' || role === 'drawn') ? undefined : byWidth(part)
    if (parts) {
      yield* this.run.end()
      for (const each of parts) yield* this.reader.grids(each, doubt)
    } else if (width === 16 && isPlain && isUnclearSixteen(lines, orderSaid(part.notes, this.options))) {
      yield* this.run.end()
      yield this.reader.unclearSixteen(part)
    } else if (isWhole && this.isBands(part)) {
      yield* this.closeBetweenDrawn(part, true)
    } else if (isWhole) {
      const isAfterBroken = this.run.parts.length > 0
      yield* this.run.end()
      yield* this.reader.grids(part, doubt === 'none' && isAfterBroken ? 'wrong rows' : doubt)
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
}
