import type { ColourImage } from '../decode/ink-channel.js'
import { CELL_MARGIN, CELL_SIZE, type CellPicture } from '../digits/digit-reader.js'
import type { Lattice } from '../lattice.js'

/**
 * The colour of a cell's ink, free of how dark it is: how unevenly it takes red, green and blue from the paper's light.
 * Black and grey are (0, 0) under any light; blue ink lies to the right, red ink up and to the left.
 */
export interface InkTint {
  readonly redOverBlue: number
  readonly greenOverRest: number
}

/** Below this an even cell picture is ink, above the other it is paper. */
const INK = 110
const PAPER = 225
const LEAST_INK_PIXELS = 12
/** The part of a cell where no rule is, in pixels of the cell picture. */
const FIRST = Math.round(CELL_SIZE * 0.2)
const END = CELL_SIZE - FIRST
/** Ink that takes less light than this, over the three channels together, has no colour worth naming. */
const LEAST_STRENGTH = 0.2

/**
 * @param colour the picture that the lattice lies on
 * @param cells the lattice's cells, in its order
 * @returns a tint for each cell, undefined where there is too little ink
 */
export function inkTints(
  colour: ColourImage,
  lattice: Lattice,
  cells: readonly CellPicture[],
): (InkTint | undefined)[] {
  return cells.map((picture, cell) => tintOf(colour, lattice, cell, picture))
}

function tintOf(
  { width, height, data }: ColourImage,
  { order, points }: Lattice,
  cell: number,
  picture: CellPicture,
): InkTint | undefined {
  const at = Math.floor(cell / order) * (order + 1) + (cell % order)
  const [a, b, c, d] = [points[at]!, points[at + 1]!, points[at + order + 1]!, points[at + order + 2]!]
  const span = 1 + 2 * CELL_MARGIN
  const ink = [0, 0, 0, 0]
  const paper = [0, 0, 0, 0]
  for (let j = FIRST; j < END; j++) {
    const v = ((j + 0.5) / CELL_SIZE) * span - CELL_MARGIN
    for (let i = FIRST; i < END; i++) {
      const grey = picture.data[j * CELL_SIZE + i]!
      if (grey > INK && grey < PAPER) continue
      const u = ((i + 0.5) / CELL_SIZE) * span - CELL_MARGIN
      const x = Math.floor((a.x * (1 - u) + b.x * u) * (1 - v) + (c.x * (1 - u) + d.x * u) * v)
      const y = Math.floor((a.y * (1 - u) + b.y * u) * (1 - v) + (c.y * (1 - u) + d.y * u) * v)
      if (x < 0 || y < 0 || x >= width || y >= height) continue
      const sums = grey <= INK ? ink : paper
      const k = 3 * (y * width + x)
      for (let channel = 0; channel < 3; channel++) sums[channel]! += data[k + channel]!
      sums[3]!++
    }
  }
  if (ink[3]! < LEAST_INK_PIXELS || paper[3]! < LEAST_INK_PIXELS) return undefined
  // Light print on dark ground: the ground then takes the light that the ink leaves.
  const light = ink[0]! + ink[1]! + ink[2]!
  const ground = paper[0]! + paper[1]! + paper[2]!
  const [dark, bright] = light / ink[3]! <= ground / paper[3]! ? [ink, paper] : [paper, ink]
  const taken = [0, 1, 2].map((channel) =>
    Math.max(0, 1 - dark[channel]! / dark[3]! / Math.max(1, bright[channel]! / bright[3]!)),
  ) as [number, number, number]
  const strength = taken[0] + taken[1] + taken[2]
  if (strength < LEAST_STRENGTH) return undefined
  return {
    redOverBlue: (taken[0] - taken[2]) / strength,
    greenOverRest: (2 * taken[1] - taken[0] - taken[2]) / strength,
  }
}
