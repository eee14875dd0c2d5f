import type { ColourImage } from '../decode/ink-channel.js'
import { CELL_MARGIN, CELL_SIZE, type CellPicture } from '../digits/digit-reader.js'
import { pixelAt } from '../image.js'
import { cellCorners, type Lattice, placeInCell } from '../lattice.js'
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
    return ink && lookOf(ink, colourSampler(colour, lattice, cell))
  })
}

function lookOf(ink: FigureInk, colourAt: (pixel: number) => number): FigureLook | undefined {
  const { mask, darkness, strongest } = ink
  const paper = paperAround(ink)
  const figureColour = meanColour(colourAt, (at) => mask[at] === 1 && darkness[at]! > CORE * strongest)
  const paperColour = meanColour(colourAt, (at) => paper[at] === 1)
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

function meanColour(
  colourAt: (pixel: number) => number,
  within: (pixel: number) => boolean,
): { readonly mean: Rgb; readonly pixels: number } | undefined {
  let pixels = 0
  const sum = [0, 0, 0]
  for (let at = 0; at < CELL_SIZE * CELL_SIZE; at++) {
    if (!within(at)) continue
    const rgb = colourAt(at)
    sum[0]! += rgb >> 16
    sum[1]! += (rgb >> 8) & 255
    sum[2]! += rgb & 255
    pixels++
  }
  if (pixels === 0) return undefined
  return { mean: [sum[0]! / pixels, sum[1]! / pixels, sum[2]! / pixels], pixels }
}

/** The picture's colour (red, green, blue in one number) where a pixel of the cell's picture was cut from. */
function colourSampler(colour: ColourImage, lattice: Lattice, cell: number): (pixel: number) => number {
  const { data } = colour
  const corners = cellCorners(lattice, cell)
  const span = 1 + 2 * CELL_MARGIN
  return (pixel) => {
    const u = (((pixel % CELL_SIZE) + 0.5) / CELL_SIZE) * span - CELL_MARGIN
    const v = ((Math.floor(pixel / CELL_SIZE) + 0.5) / CELL_SIZE) * span - CELL_MARGIN
    const k = 3 * pixelAt(colour, placeInCell(corners, u, v))
    return (data[k]! << 16) | (data[k + 1]! << 8) | data[k + 2]!
  }
}
