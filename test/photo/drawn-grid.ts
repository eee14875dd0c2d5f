import type { GrayImage, Point } from '../../src/photo.js'

/** How a test grid is drawn. Lengths in cells where nothing else is said. */
export interface DrawnGrid {
  readonly width: number
  readonly height: number
  readonly order: number
  /** (u, v) in cells, from the grid's first corner, for a place on the picture; undefined where no grid is. */
  readonly toGrid: (place: Point) => Point
  readonly paper?: number
  readonly ink?: number
  readonly rule?: number
  readonly boxRule?: number
  readonly boxRows?: number
  readonly boxColumns?: number
  /** Draw the rules at all? */
  readonly rules?: boolean
  /** Grey of a cell's ground; `paper` when left out. */
  readonly ground?: (column: number, row: number) => number
  /** Does a cell hold a figure? An upright stroke, as of a 1. */
  readonly figure?: (column: number, row: number) => boolean
}

const SAMPLES = 4

/**
 * A ruled grid as exact as pixels allow: every pixel is the mean of 4 × 4 samples of the ideal picture, each looked up
 * backwards through `toGrid`. The centre of the top left pixel is at (0.5, 0.5).
 */
export function drawGrid(spec: DrawnGrid): GrayImage {
  const { width, height } = spec
  const data = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0
      for (let j = 0; j < SAMPLES; j++) {
        for (let i = 0; i < SAMPLES; i++) {
          sum += shade(spec, { x: x + (i + 0.5) / SAMPLES, y: y + (j + 0.5) / SAMPLES })
        }
      }
      data[y * width + x] = Math.round(sum / SAMPLES ** 2)
    }
  }
  return { width, height, data }
}

function shade(spec: DrawnGrid, place: Point): number {
  const {
    order,
    toGrid,
    paper = 230,
    ink = 40,
    rule = 0.03,
    boxRule = 0.07,
    boxRows = 3,
    boxColumns = 3,
  } = spec
  const { x: u, y: v } = toGrid(place)
  const half = boxRule / 2
  if (u < -half || v < -half || u > order + half || v > order + half) return paper
  if (spec.rules !== false) {
    const near = (value: number, period: number) => {
      const k = Math.round(value)
      return Math.abs(value - k) <= (k % period === 0 ? boxRule : rule) / 2
    }
    if (near(u, boxColumns) || near(v, boxRows)) return ink
  }
  if (u < 0 || v < 0 || u >= order || v >= order) return paper
  const [column, row] = [Math.floor(u), Math.floor(v)]
  const onStroke = Math.abs(u - column - 0.5) < 0.07 && Math.abs(v - row - 0.5) < 0.28
  if (onStroke && spec.figure?.(column, row)) return ink
  return spec.ground?.(column, row) ?? paper
}

/** A similarity: `cell` pixels a cell, turned by `degrees`, first corner at `corner`. */
export function turned(
  cell: number,
  degrees: number,
  corner: Point,
): { toGrid: DrawnGrid['toGrid']; toPicture: DrawnGrid['toGrid'] } {
  const a = (degrees * Math.PI) / 180
  const [c, s] = [Math.cos(a), Math.sin(a)]
  return {
    toGrid: ({ x, y }) => ({
      x: ((x - corner.x) * c + (y - corner.y) * s) / cell,
      y: (-(x - corner.x) * s + (y - corner.y) * c) / cell,
    }),
    toPicture: ({ x: u, y: v }) => ({
      x: corner.x + (u * c - v * s) * cell,
      y: corner.y + (u * s + v * c) * cell,
    }),
  }
}

/** Adds noise of a spread (grey levels) from a seed: the same numbers for the same seed. */
export function withNoise({ width, height, data }: GrayImage, spread: number, seed: number): GrayImage {
  let state = seed >>> 0
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
  const noisy = data.map((value) => {
    const normal = next() + next() + next() + next() - 2
    return Math.max(0, Math.min(255, Math.round(value + normal * spread * 1.7)))
  })
  return { width, height, data: noisy }
}

/** Farthest a crossing is from where it was drawn, in pixels, whichever of the four corners the lattice begins with. */
export function worstCrossing(
  points: readonly Point[],
  order: number,
  toPicture: (place: Point) => Point,
): number {
  const side = order + 1
  let best = Number.POSITIVE_INFINITY
  for (let quarter = 0; quarter < 4; quarter++) {
    let worst = 0
    for (let k = 0; k < points.length; k++) {
      let [u, v] = [k % side, Math.floor(k / side)]
      for (let q = 0; q < quarter; q++) [u, v] = [order - v, u]
      const { x, y } = toPicture({ x: u, y: v })
      worst = Math.max(worst, Math.hypot(points[k]!.x - x, points[k]!.y - y))
    }
    best = Math.min(best, worst)
  }
  return best
}
