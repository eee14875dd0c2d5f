import type { Point } from './image.js'
import type { Lattice } from './lattice.js'

/** A digit stands within this share of its cell's side, about its middle. */
const PRINTED_SHARE = 0.7

/** Cells whose middle part, where a digit would stand, is not wholly on a picture of this size. */
export function cellsOutside({ order, points, cut }: Lattice, width: number, height: number): number[] {
  if (!cut) return []
  const outside = ({ x, y }: Point) => x < 0 || y < 0 || x > width || y > height
  const cells: number[] = []
  for (let cell = 0; cell < order * order; cell++) {
    const corner = Math.floor(cell / order) * (order + 1) + (cell % order)
    const corners = [corner, corner + 1, corner + order + 1, corner + order + 2].map((i) => points[i]!)
    const middle = {
      x: corners.reduce((sum, { x }) => sum + x, 0) / 4,
      y: corners.reduce((sum, { y }) => sum + y, 0) / 4,
    }
    const towardsCorner = ({ x, y }: Point): Point => ({
      x: middle.x + (x - middle.x) * PRINTED_SHARE,
      y: middle.y + (y - middle.y) * PRINTED_SHARE,
    })
    if (corners.map(towardsCorner).some(outside)) cells.push(cell)
  }
  return cells
}
