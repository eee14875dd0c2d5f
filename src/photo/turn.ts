import { CELL_SIZE, type CellPicture } from './digits/digit-reader.js'
import type { Point } from './image.js'
import type { Lattice } from './lattice.js'

/** How many quarter turns clockwise bring the page upright. */
export const QUARTER_TURNS = [0, 1, 2, 3] as const
export type QuarterTurns = (typeof QUARTER_TURNS)[number]

/**
 * Turns a square list (row by row, `side × side`) clockwise: entry i of the result is the old entry `index[i]`.
 */
export function turnedIndices(side: number, turns: QuarterTurns): Int32Array {
  const last = side - 1
  return Int32Array.from({ length: side * side }, (_, i) => {
    const row = Math.floor(i / side)
    const column = i % side
    switch (turns) {
      case 0:
        return i
      case 1:
        return (last - column) * side + row
      case 2:
        return (last - row) * side + (last - column)
      case 3:
        return column * side + (last - row)
      default:
        return turns satisfies never
    }
  })
}

const pixelsTurned = QUARTER_TURNS.map((turns) => turnedIndices(CELL_SIZE, turns))

export function turnCellPicture(cell: CellPicture, turns: QuarterTurns): CellPicture {
  if (turns === 0) return cell
  const from = pixelsTurned[turns]!
  const data = new Uint8Array(from.length)
  // a loop, since `Uint8Array.from` with a function takes thirty times as long
  for (let i = 0; i < data.length; i++) data[i] = cell.data[from[i]!]!
  return { data }
}

/** The same crossings, named anew so that the first one is the top left as the reader of the page sees it. */
export function turnLattice(lattice: Lattice, turns: QuarterTurns): Lattice {
  const indices = turnedIndices(lattice.order + 1, turns)
  return { ...lattice, points: Array.from(indices, (from): Point => lattice.points[from]!) }
}
