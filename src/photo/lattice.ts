import type { Point } from './image.js'

/**
 * The crossings of a printed grid's rules on a picture: `order + 1` rows of `order + 1` points, row by row, in the
 * picture's own frame. Which corner comes first is the finder's choice until the digits have shown which way is up.
 */
export interface Lattice {
  readonly order: number
  readonly points: readonly Point[]
  /** True when part of the grid lies outside the picture. */
  readonly cut: boolean
  /** 0..1: how well rules were seen where the lattice says they run. */
  readonly support: number
}

/** The side of a cell in pixels of the picture, on average. */
export function cellSide({ order, points }: Lattice): number {
  const last = points.length - 1
  const across = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y)
  const diagonals = across(points[0]!, points[last]!) + across(points[order]!, points[last - order]!)
  return diagonals / (2 * Math.SQRT2 * order)
}

/** Its corners, clockwise from where the lattice begins. */
export function cornersOf({ order, points }: Lattice): [Point, Point, Point, Point] {
  const last = points.length - 1
  return [points[0]!, points[order]!, points[last]!, points[last - order]!]
}

/** Crossings around a cell: the first two above it, the others below, each from left to right as the lattice counts. */
export type CellCorners = readonly [Point, Point, Point, Point]

export function cellCorners({ order, points }: Lattice, cell: number): CellCorners {
  const at = Math.floor(cell / order) * (order + 1) + (cell % order)
  return [points[at]!, points[at + 1]!, points[at + order + 1]!, points[at + order + 2]!]
}

/** The place at (u, v) between a cell's corners, 0 to 1 from its left and its top. */
export function placeInCell([a, b, c, d]: CellCorners, u: number, v: number): Point {
  return {
    x: (a.x * (1 - u) + b.x * u) * (1 - v) + (c.x * (1 - u) + d.x * u) * v,
    y: (a.y * (1 - u) + b.y * u) * (1 - v) + (c.y * (1 - u) + d.y * u) * v,
  }
}
