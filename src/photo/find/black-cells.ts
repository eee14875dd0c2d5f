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
