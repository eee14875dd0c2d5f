import type { ColourImage } from '../decode/ink-channel.js'
import { CELL_SIZE, type CellPicture } from '../digits/digit-reader.js'
import type { GrayImage } from '../image.js'
import type { Lattice } from '../lattice.js'
import { samplePatch, sourceFor } from './cell-patch.js'
import { type CellTone, cellTone, inkDarkness, lightOnDark, toDarkness } from './contrast.js'
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
  const paper = median(tones.map(({ ground }) => ground))
  const light = lightOnDark(tones, paper)
  const tinted = colour && new TintedGround(colour, lattice, factor)
  const inks = patches.map((patch, cell) => {
    const white = tinted?.whitened(cell)
    if (white && !(light[cell] && lightPrint(tones[cell]!) > darkPrint(cellTone(white)))) patch.set(white)
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
  const row = Math.floor(cell / order)
  const column = cell % order
  let first = 0
  let second = 0
  for (let r = Math.max(0, row - 1); r <= Math.min(order - 1, row + 1); r++) {
    for (let c = Math.max(0, column - 1); c <= Math.min(order - 1, column + 1); c++) {
      const ink = inks[r * order + c]!
      if (ink > first) {
        second = first
        first = ink
      } else if (ink > second) second = ink
    }
  }
  return Math.min(first, second * 1.5)
}

/** How much a cell's light print stands out from its ground, in grey levels (as a share it would be noise on dark ground), and how much its dark print does. */
function lightPrint({ ground, lightest }: CellTone): number {
  return lightest - ground
}

function darkPrint({ ground, darkest }: CellTone): number {
  return ground - darkest
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

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!
}
