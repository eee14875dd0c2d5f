import { CellPatches, sourceFor } from '../cells/cell-patch.js'
import { type CellTone, cellTone, hasLightRules } from '../cells/contrast.js'
import { type GrayImage, pixelAt } from '../image.js'
import { cellCorners, type Lattice, placeInCell } from '../lattice.js'

/** A cell darker than this share of the paper is black … */
export const BLACK = 0.42
/**
 * … and may be black, under veiling light, up to here. Hardly any page has grounds so dark, as print must be read on
 * them.
 */
export const PERHAPS_BLACK = 0.55
/**
 * The paper is judged by so many cells each way, since corners of a picture are darker: as light as all but a quarter
 * of them, which may be black.
 */
const AROUND = 2
const PAPER = 0.75
const FEWEST = 4
/** A cell where nothing differs from its ground by this share of the paper holds nothing. */
const PLAIN = 0.2
/**
 * Of dark cells of a number-place grid about a third hold a light digit; of a crossword's hardly any, unless the grid
 * lies a little askew.
 */
const MOST_PLAIN = 0.85

/**
 * Does this look like a crossword: several black cells, and nothing in them?
 *
 * @param darkness the share of the paper's light up to which a cell is black
 */
export function hasBlackCells(gray: GrayImage, lattice: Lattice, darkness = BLACK): boolean {
  if (!mayHaveBlackCells(gray, lattice, darkness)) return false
  const { copy, factor } = sourceFor(gray, lattice)
  const patches = new CellPatches([copy], 1)
  const tones = Array.from({ length: lattice.order ** 2 }, (_, cell) => {
    patches.sample(0, 0, factor, lattice, cell)
    return cellTone(patches.at(0))
  })
  // a crossword's rules are dark; where they are light all cells are meant to be dark
  if (hasLightRules(tones)) return false
  const black = tones.flatMap((tone, cell) => {
    const paper = paperAround(tones, lattice.order, cell)
    return tone.ground < darkness * paper ? [{ ...tone, paper }] : []
  })
  const plain = black.filter(
    ({ ground, darkest, lightest, paper }) => Math.max(lightest - ground, ground - darkest) < PLAIN * paper,
  )
  return black.length >= FEWEST && plain.length >= MOST_PLAIN * black.length
}

function paperAround(tones: readonly CellTone[], order: number, cell: number): number {
  const [row, column] = [Math.floor(cell / order), cell % order]
  const grounds = tones
    .filter(
      (_, k) => Math.abs(Math.floor(k / order) - row) <= AROUND && Math.abs((k % order) - column) <= AROUND,
    )
    .map(({ ground }) => ground)
    .sort((a, b) => a - b)
  return grounds[Math.floor(grounds.length * PAPER)]!
}

/** A cell counts as dark at a glance up to this much more than as black. */
const GLANCE = 1.3
const GLANCES = [0.3, 0.5, 0.7] as const

/** A quick look at nine places a cell: most grids have no dark cells at all. */
function mayHaveBlackCells(gray: GrayImage, lattice: Lattice, darkness: number): boolean {
  const middles = Array.from({ length: lattice.order ** 2 }, (_, cell) => {
    const corners = cellCorners(lattice, cell)
    const seen = GLANCES.flatMap((v) =>
      GLANCES.map((u) => gray.data[pixelAt(gray, placeInCell(corners, u, v))]!),
    )
    return seen.sort((a, b) => a - b)[seen.length >> 1]!
  })
  const paper = [...middles].sort((a, b) => a - b)[Math.floor(middles.length * PAPER)]!
  return middles.filter((middle) => middle < GLANCE * darkness * paper).length >= FEWEST
}
