import type { ColourImage } from '../decode/ink-channel.js'
import { CELL_SIZE, type CellPicture } from '../digits/digit-reader.js'
import type { GrayImage } from '../image.js'
import type { Lattice } from '../lattice.js'
import { median } from '../median.js'
import { samplePatch, sourceFor } from './cell-patch.js'
import { type CellTone, cellsAround, cellTone, inkDarkness, lightOnDark, toDarkness } from './contrast.js'
import { TintedGround } from './tinted-ground.js'

/** Ink of a cell may be this much fainter than its surroundings' and still come out fully black. */
const FAINTER_INK = 0.6
/** Full ink is at least this much darker than paper, however empty the grid. */
const LEAST_INK = 0.12

/**
 * Cuts the cells of a grid out of a picture, row by row, bent straight along the lattice and with their light evened out:
 * paper comes out about 255, ink about 0, also in shadow, on shaded cells, and for light print on dark ground.
 *
 * What counts as full ink is told by the cell and its neighbours together. A blank cell has none of its own, so its noise
 * stays as faint as it is beside real ink, instead of being stretched to full contrast.
 *
 * @param colour the same picture in colour; without it, coloured ink on tinted ground may be lost
 */
export function cutCells(gray: GrayImage, lattice: Lattice, colour?: ColourImage): CellPicture[] {
  const { order } = lattice
  const { copy, factor } = sourceFor(gray, lattice)
  const patches = Array.from({ length: order * order }, (_, cell) => {
    const patch = new Float32Array(CELL_SIZE * CELL_SIZE)
    samplePatch(copy, factor, lattice, cell, patch)
    return patch
  })
  const tones = patches.map(cellTone)
  const light = lightOnDark(tones, order)
  const tinted = colour && new TintedGround(colour, lattice, factor)
  const inks = patches.map((patch, cell) => {
    const white = tinted?.whitened(cell)
    if (white && (!light[cell] || showsDarkPrint(cellTone(white), tones[cell]!))) patch.set(white)
    else if (light[cell]) invert(patch)
    toDarkness(patch)
    return inkDarkness(patch)
  })
  const ruleInk = median(tones.map(({ ground, rule }) => 1 - rule / Math.max(ground, 12)))
  const strongest = [...inks].sort((a, b) => a - b)[Math.floor(inks.length * 0.9)]!
  const typicalInk = Math.max(LEAST_INK, ruleInk, strongest)
  return patches.map((patch, cell) => {
    const around = Math.max(FAINTER_INK * typicalInk, strongestAround(inks, order, cell))
    const full = Math.max(FAINTER_INK * around, inks[cell]!)
    return { data: toPicture(patch, full) }
  })
}

/** The strongest ink among a cell and its eight neighbours, but no more than the second strongest by half: one dark blot must not make its neighbours pale. */
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

/** Dark print darkens tinted ground by this share at least; less is noise where the cell seems printed light on dark. */
const DARK_PRINT = 0.2

/** Is there dark print on a cell's ground, taken for white, and more of it (in grey levels) than light print on the ground as it is? */
function showsDarkPrint(whitened: CellTone, asItIs: CellTone): boolean {
  const dark = whitened.ground - whitened.darkest
  return dark > DARK_PRINT * whitened.ground && dark > asItIs.lightest - asItIs.ground
}

function toPicture(darkness: Float32Array, full: number): Uint8Array {
  const data = new Uint8Array(darkness.length)
  const scale = 255 / full
  for (let k = 0; k < data.length; k++) {
    const value = 255.5 - darkness[k]! * scale
    data[k] = value <= 0 ? 0 : value >= 255 ? 255 : value
  }
  return data
}

function invert(patch: Float32Array): void {
  for (let k = 0; k < patch.length; k++) patch[k] = 255 - patch[k]!
}
