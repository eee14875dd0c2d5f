import sharp from 'sharp'
import { Drawing } from '../../../fixtures/draw/drawing.js'
import { facesIn } from '../../../fixtures/draw/fonts.js'
import { drawGrid } from '../../../fixtures/draw/grid.js'
import { NO_SHADING, randomGridStyle } from '../../../fixtures/draw/grid-style.js'
import { chooseEntries, drawEntries } from '../../../fixtures/draw/handwriting.js'
import { drawPuzzle } from '../../../fixtures/draw/puzzles.js'
import { Random } from '../../../fixtures/draw/random.js'
import { STANDARD } from '../../../src/grid/geometry.js'
import { cutCells } from '../../../src/photo/cells/cut-cells.js'
import { inkChannel } from '../../../src/photo/decode/ink-channel.js'
import type { CellPicture } from '../../../src/photo/digits/digit-reader.js'
import { type FigureLook, figureLooks } from '../../../src/photo/inks/figure-look.js'
import { straightLattice } from '../evidence.js'

/** What stands in a cell of a drawn page. */
export type Holds = 'given' | 'entry' | 'marks' | 'nothing'

export interface WrittenPage {
  readonly holds: readonly Holds[]
  /** The printed or written digit, 0 for none. */
  readonly digits: readonly number[]
  readonly pictures: readonly CellPicture[]
  readonly looks: readonly (FigureLook | undefined)[]
}

/** Side of a cell in pixels, as `straightLattice` has it. */
export const CELL_PIXELS = 50

/** A printed puzzle, half solved by hand unless `untouched`, seen straight on without a camera's damage. */
export async function writtenPage(
  seed: number,
  options: { readonly untouched?: boolean } = {},
): Promise<WrittenPage> {
  const random = new Random(seed)
  const drawn = drawPuzzle(STANDARD, random.fork('puzzle'))
  const style = {
    ...randomGridStyle(random.fork('style'), facesIn('train', 'print'), true),
    ground: undefined,
    shading: NO_SHADING,
  }
  const drawing = new Drawing()
  const place = { x: 10, y: 20, side: 9 * CELL_PIXELS }
  drawGrid(drawing, drawn.puzzle, place, style, random.fork('grid'))
  const entries = chooseEntries(drawn, random.fork('entries'))
  if (!options.untouched) {
    drawEntries(drawing, entries, 9, place, facesIn('train', 'handwriting'), random.fork('hand'))
  }
  const width = 480
  const height = 490
  const svg = drawing.render({ x: 0, y: 0, width, height }, width, height, '#f4f1e8')
  const data = await sharp(Buffer.from(svg)).removeAlpha().blur(0.7).raw().toBuffer()
  const colour = { width, height, data: new Uint8Array(data) }
  const lattice = straightLattice()
  const holds: Holds[] = drawn.puzzle.givens.map((digit) => (digit ? 'given' : 'nothing'))
  const digits = [...drawn.puzzle.givens]
  if (!options.untouched) {
    for (const { cell, digit } of entries.written) {
      holds[cell] = 'entry'
      digits[cell] = digit
    }
    for (const { cell } of entries.marked) holds[cell] = 'marks'
  }
  const pictures = cutCells(inkChannel(colour), lattice)
  return { holds, digits, pictures, looks: figureLooks(colour, lattice, pictures) }
}
