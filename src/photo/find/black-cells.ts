import { samplePatch, sourceFor } from '../cells/cell-patch.js'
import { cellTone, hasLightRules } from '../cells/contrast.js'
import { CELL_SIZE } from '../digits/digit-reader.js'
import type { GrayImage } from '../image.js'
import type { Lattice } from '../lattice.js'

/** A cell darker than this share of the others' paper is black. */
const BLACK = 0.42
const FEWEST = 4
/** A cell whose light and dark differ by less than this share of the paper holds nothing. */
const PLAIN = 0.2
/** Of dark cells of a number-place grid about a third hold a light digit; of a crossword's hardly any. */
const MOST_PLAIN = 0.9

/** Does this look like a crossword: several black cells, and nothing in them? */
export function hasBlackCells(gray: GrayImage, lattice: Lattice): boolean {
  if (!mayHaveBlackCells(gray, lattice)) return false
  const { copy, factor } = sourceFor(gray, lattice)
  const patch = new Float32Array(CELL_SIZE * CELL_SIZE)
  const tones = Array.from({ length: lattice.order ** 2 }, (_, cell) => {
    samplePatch(copy, factor, lattice, cell, patch)
    return cellTone(patch)
  })
  // a crossword's rules are dark; where they are light all cells are meant to be dark
  if (hasLightRules(tones)) return false
  const grounds = tones.map(({ ground }) => ground).sort((a, b) => a - b)
  const paper = grounds[Math.floor(grounds.length * 0.75)]!
  const black = tones.filter(({ ground }) => ground < BLACK * paper)
  const plain = black.filter(({ darkest, lightest }) => lightest - darkest < PLAIN * paper)
  return black.length >= FEWEST && plain.length >= MOST_PLAIN * black.length
}

/** A cell counts as dark at a glance up to this much more than as black. */
const GLANCE = 1.3
const GLANCES = [0.3, 0.5, 0.7] as const

/** A quick look at nine places a cell: most grids have no dark cells at all. */
function mayHaveBlackCells({ width, height, data }: GrayImage, { order, points }: Lattice): boolean {
  const middles: number[] = []
  for (let cell = 0; cell < order * order; cell++) {
    const at = Math.floor(cell / order) * (order + 1) + (cell % order)
    const [a, b, c, d] = [points[at]!, points[at + 1]!, points[at + order + 1]!, points[at + order + 2]!]
    const seen: number[] = []
    for (const v of GLANCES) {
      for (const u of GLANCES) {
        const x = (a.x * (1 - u) + b.x * u) * (1 - v) + (c.x * (1 - u) + d.x * u) * v
        const y = (a.y * (1 - u) + b.y * u) * (1 - v) + (c.y * (1 - u) + d.y * u) * v
        const column = Math.max(0, Math.min(width - 1, Math.floor(x)))
        const row = Math.max(0, Math.min(height - 1, Math.floor(y)))
        seen.push(data[row * width + column]!)
      }
    }
    middles.push(seen.sort((p, q) => p - q)[seen.length >> 1]!)
  }
  const paper = [...middles].sort((p, q) => p - q)[Math.floor(middles.length * 0.75)]!
  return middles.filter((middle) => middle < GLANCE * BLACK * paper).length >= FEWEST
}
