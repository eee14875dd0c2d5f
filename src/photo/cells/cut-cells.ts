import { lattice as checkLattice, colourImage, grayImage } from '../check-photo.js'
import type { ColourImage } from '../decode/ink-channel.js'
import type { CellPicture } from '../digits/digit-reader.js'
import type { GrayImage } from '../image.js'
import type { Lattice } from '../lattice.js'
import { median } from '../median.js'
import { CellPatches, type Patch, sourceFor } from './cell-patch.js'
import { type CellTone, cellsAround, cellTone, inkDarkness, lightOnDark, paperPlane } from './contrast.js'
import { CHANNELS, TintedGround } from './tinted-ground.js'

/** Ink of a cell may be this much fainter than its surroundings' and still come out fully black. */
const FAINTER_INK = 0.6
/** Full ink is at least this much darker than paper, however empty the grid. */
const LEAST_INK = 0.12

/**
 * Cuts the cells of a grid out of a picture, row by row, bent straight along the lattice and with their light evened
 * out: paper comes out about 255, ink about 0, also in shadow, on shaded cells, and for light print on dark ground.
 *
 * What counts as full ink is decided by the cell and its neighbours together. A blank cell has none of its own, so its
 * noise stays as faint as it is beside real ink, instead of being stretched to full contrast.
 *
 * @param colour the same picture in colour; without it, coloured ink on tinted ground may be lost
 * @throws InputError `argument` for what is no picture or no lattice
 *
 * @example
 * const { gray, colour } = await decodePicture('page.jpg')
 * const [lattice] = await findLattices(gray)
 * cutCells(gray, lattice!, colour).length // one picture a cell, row by row
 */
export function cutCells(gray: GrayImage, lattice: Lattice, colour?: ColourImage): CellPicture[] {
  grayImage(gray, 'gray')
  checkLattice(lattice, 'lattice')
  if (colour !== undefined) colourImage(colour, 'colour')
  const { order } = lattice
  const { copy, factor } = sourceFor(gray, lattice)
  const cells = Array.from({ length: order * order }, (_, cell) => cell)
  const tinted = colour && new TintedGround(colour, lattice, factor)
  const patches = new CellPatches([copy, ...(tinted?.channels ?? [])], cells.length + CHANNELS)
  for (const cell of cells) patches.sample(cell, 0, factor, lattice, cell)
  const tones = cells.map((cell) => cellTone(patches.at(cell)))
  const light = lightOnDark(tones, order)
  const inks = cells.map((cell) => {
    const patch = patches.at(cell)
    const white = tinted?.whitened(cell, patches, { picture: 1, patch: cells.length })
    if (white && (!light[cell] || showsDarkPrint(cellTone(white), tones[cell]!))) patch.set(white)
    else if (light[cell]) invert(patch)
    patches.darken(cell, paperPlane(patch))
    return inkDarkness(patch)
  })
  const ruleInk = median(tones.map(({ ground, rule }) => 1 - rule / Math.max(ground, 12)))
  const strongest = [...inks].sort((a, b) => a - b)[Math.floor(inks.length * 0.9)]!
  const typicalInk = Math.max(LEAST_INK, ruleInk, strongest)
  return cells.map((cell) => {
    const around = Math.max(FAINTER_INK * typicalInk, strongestAround(inks, order, cell))
    const full = Math.max(FAINTER_INK * around, inks[cell]!)
    return { data: patches.picture(cell, full) }
  })
}

/**
 * The strongest ink among a cell and its eight neighbours, but no more than the second strongest by half: one dark blot
 * must not make its neighbours pale.
 */
function strongestAround(inks: readonly number[], order: number, cell: number): number {
  let first = 0
  let second = 0
  for (const near of cellsAround(cell, order)) {
    const ink = inks[near]!
    if (ink > first) {
      second = first
      first = ink
    } else if (ink > second) second = ink
  }
  return Math.min(first, second * 1.5)
}

/**
 * Dark print darkens tinted ground by this share at least; less is noise where the cell seems printed light on dark.
 */
const DARK_PRINT = 0.2

/**
 * Is there dark print on a cell's ground, taken for white, and more of it (in grey levels) than light print on the
 * ground as it is?
 */
function showsDarkPrint(whitened: CellTone, asItIs: CellTone): boolean {
  const dark = whitened.ground - whitened.darkest
  return dark > DARK_PRINT * whitened.ground && dark > asItIs.lightest - asItIs.ground
}

function invert(patch: Patch): void {
  for (let k = 0; k < patch.length; k++) patch[k] = 255 - patch[k]!
}
