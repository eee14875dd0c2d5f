import type { Geometry } from '../../grid/geometry.js'

/** Lengths of a picture, in its own units; a picture may be shown at any size. */
export const CELL = 72
/** Room for the row and column labels. */
export const LABELS = 30
/** Room on the right and below the grid. */
export const EDGE = 10

export interface Spot {
  readonly x: number
  readonly y: number
}

/** Where everything is on a picture of this geometry. */
export interface Layout {
  readonly geometry: Geometry
  /** Side of the grid. */
  readonly side: number
  /** Radius of the marks around pencil marks. */
  readonly markRadius: number
  readonly markFont: number
  corner(cell: number): Spot
  centre(cell: number): Spot
  /** Where a candidate's pencil mark stands: in reading order within its cell, as is common practice. */
  spot(cell: number, digit: number): Spot
}

export function layoutOf(geometry: Geometry): Layout {
  const { order } = geometry
  const across = Math.ceil(Math.sqrt(order))
  const down = Math.ceil(order / across)
  const pad = 6
  const stepX = (CELL - 2 * pad) / across
  const stepY = (CELL - 2 * pad) / down
  const markRadius = Math.min(8, Math.min(stepX, stepY) / 2 - 1.6)
  const corner = (cell: number): Spot => ({
    x: LABELS + (cell % order) * CELL,
    y: LABELS + Math.floor(cell / order) * CELL,
  })
  return {
    geometry,
    side: order * CELL,
    markRadius,
    markFont: Math.min(14, markRadius * 1.6),
    corner,
    centre: (cell) => {
      const { x, y } = corner(cell)
      return { x: x + CELL / 2, y: y + CELL / 2 }
    },
    spot: (cell, digit) => {
      const { x, y } = corner(cell)
      const i = digit - 1
      return {
        x: x + pad + ((i % across) + 0.5) * stepX,
        y: y + pad + (Math.floor(i / across) + 0.5) * stepY,
      }
    },
  }
}
