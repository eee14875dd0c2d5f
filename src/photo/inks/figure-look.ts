import { rowOfCell } from '../cells/cell-patch.js'
import type { ColourImage } from '../decode/ink-channel.js'
import { CELL_SIZE, type CellPicture } from '../digits/digit-reader.js'
import { type CellCorners, cellCorners, type Lattice } from '../lattice.js'
import { type FigureInk, figureInk, paperAround, SIDE } from './figure-ink.js'
import { type InkTint, inkTint, type Rgb, strength, taken } from './ink-tint.js'

/** How a figure looks, apart from which digit it is. Lengths are shares of a cell's side unless said otherwise. */
export interface FigureLook {
  readonly height: number
  /** Off the cell's middle, to the right and down. */
  readonly x: number
  readonly y: number
  /** Log of the stroke's width: twice its ink by its outline. */
  readonly stroke: number
  /** Log of the share of light that it takes. */
  readonly darkness: number
  readonly tint: InkTint
  /** How far it leans to the right, a share of its height. */
  readonly lean: number
  /** Light ink on a dark ground? */
  readonly light: boolean
  readonly ink: FigureInk
}

/** Pixels with this share of the strongest ink are the stroke's core; its edges mix with the paper. */
const CORE = 0.75
const LEAST_CORE_PIXELS = 2
const LEAST_PAPER_PIXELS = 10

/**
 * @param colour the picture that the lattice lies on
 * @param cells the lattice's cells, in its order
 * @returns a look for each cell, undefined where there is no figure or no paper to hold it against
 */
export function figureLooks(
  colour: ColourImage,
  lattice: Lattice,
  cells: readonly CellPicture[],
): (FigureLook | undefined)[] {
  return cells.map((picture, cell) => {
    const ink = figureInk(picture)
    return ink && lookOf(ink, colour, cellCorners(lattice, cell))
  })
}

function lookOf(ink: FigureInk, colour: ColourImage, corners: CellCorners): FigureLook | undefined {
  const { mask, darkness, strongest } = ink
  const core = mask.map((on, at) => (on === 1 && darkness[at]! > CORE * strongest ? 1 : 0))
  const figureColour = meanColour(colour, corners, core)
  const paperColour = meanColour(colour, corners, paperAround(ink))
  if (!figureColour || figureColour.pixels < LEAST_CORE_PIXELS) return undefined
  if (!paperColour || paperColour.pixels < LEAST_PAPER_PIXELS) return undefined
  const light = Math.min(...figureColour.mean) > Math.min(...paperColour.mean)
  const tint = inkTint(figureColour.mean, paperColour.mean, light)
  return {
    height: (ink.bottom - ink.top) / SIDE,
    x: ((ink.left + ink.right) / 2 - CELL_SIZE / 2) / SIDE,
    y: ((ink.top + ink.bottom) / 2 - CELL_SIZE / 2) / SIDE,
    ...strokes(ink),
    darkness: Math.log(strength(taken(tint)) / 3),
    tint,
    light,
    ink,
  }
}

/** The stroke's width, and the lean from the second moments of the figure's pixels. */
function strokes({ mask, darkness }: FigureInk): Pick<FigureLook, 'stroke' | 'lean'> {
  let total = 0
  let outline = 0
  let count = 0
  let sumX = 0
  let sumY = 0
  let sumXY = 0
  let sumYY = 0
  for (let at = 0; at < mask.length; at++) {
    total += darkness[at]!
    if (!mask[at]) continue
    const x = at % CELL_SIZE
    const y = (at - x) / CELL_SIZE
    if (!mask[at - 1]) outline++
    if (!mask[at + 1]) outline++
    if (!mask[at - CELL_SIZE]) outline++
    if (!mask[at + CELL_SIZE]) outline++
    count++
    sumX += x
    sumY += y
    sumXY += x * y
    sumYY += y * y
  }
  const spreadY = sumYY / count - (sumY / count) ** 2
  const together = sumXY / count - (sumX / count) * (sumY / count)
  return { stroke: Math.log((2 * total) / outline), lean: -together / Math.max(1, spreadY) }
}

/** The picture's mean colour where the marked pixels of a cell's picture were cut from. */
function meanColour(
  { width, height, data }: ColourImage,
  corners: CellCorners,
  marked: Uint8Array,
): { readonly mean: Rgb; readonly pixels: number } | undefined {
  let pixels = 0
  let red = 0
  let green = 0
  let blue = 0
  for (let row = 0, at = 0; row < CELL_SIZE; row++) {
    const { x, y, stepX, stepY } = rowOfCell(corners, row)
    for (let column = 0; column < CELL_SIZE; column++, at++) {
      if (!marked[at]) continue
      const left = Math.max(0, Math.min(width - 1, Math.floor(x + column * stepX)))
      const top = Math.max(0, Math.min(height - 1, Math.floor(y + column * stepY)))
      const k = 3 * (top * width + left)
      red += data[k]!
      green += data[k + 1]!
      blue += data[k + 2]!
      pixels++
    }
  }
  return pixels === 0 ? undefined : { mean: [red / pixels, green / pixels, blue / pixels], pixels }
}
