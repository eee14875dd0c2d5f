import { meanPoint } from './frame.js'
import type { Point } from './image.js'
import { cellCorners, type Lattice } from './lattice.js'

/** A digit stands within this share of its cell's side, about its middle. */
const PRINTED_SHARE = 0.7

/** Cells whose middle part, where a digit would stand, is not wholly on a picture of this size. */
export function cellsOutside(lattice: Lattice, width: number, height: number): number[] {
  if (!lattice.cut) return []
  const outside = ({ x, y }: Point) => x < 0 || y < 0 || x > width || y > height
  const cells: number[] = []
  for (let cell = 0; cell < lattice.order ** 2; cell++) {
    const corners = cellCorners(lattice, cell)
    const middle = meanPoint(corners)
    const towardsCorner = ({ x, y }: Point): Point => ({
      x: middle.x + (x - middle.x) * PRINTED_SHARE,
      y: middle.y + (y - middle.y) * PRINTED_SHARE,
    })
    if (corners.map(towardsCorner).some(outside)) cells.push(cell)
  }
  return cells
}
