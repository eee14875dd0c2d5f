import type { GrayImage, Point } from '../image.js'
import { Homography } from './homography.js'
import type { Axis } from './rule-readings.js'

/** How far a rule's sides stand out as lines, over all of its length. */
export interface LineShow {
  /**
   * Depth of each cell's side that lies in the picture, as a share of the ground: above 0 for a dark line, below for a
   * light one.
   */
  readonly depths: readonly number[]
}

/** Looks along each side of a cell; crossings are left out. */
const LOOKS = 10
const FIRST_LOOK = 0.14
/** How far to both sides a line's ground is looked for, in cells: nearer than figures stand. */
const SIDE = 0.09
/** A look that stands out more than this counts no more: a letter must not outweigh a whole rule. */
const MOST_DEPTH = 0.06

/**
 * A rule too faint to be seen at any one place still is darker (or lighter) than its ground on the mean over a cell's
 * side. The second difference taken here is zero on the mean for noise, grain and slopes of light, so what is left,
 * added up over many sides, can be held against its own scatter (`evidence`).
 *
 * @param points (order + 1)² crossings, row by row
 */
export function lineShows(
  image: GrayImage,
  points: readonly Point[],
  order: number,
  axis: Axis,
): readonly LineShow[] {
  const rules = Array.from({ length: order + 1 }, (_, k) => k)
  const cells = rules.slice(0, order)
  const corner = (rule: number, along: number) =>
    points[axis === 'across' ? rule * (order + 1) + along : along * (order + 1) + rule]!
  return rules.map((rule) => ({
    depths: cells
      .map((cell) => depthAlong(image, corner(rule, cell), corner(rule, cell + 1)))
      .filter((depth) => !Number.isNaN(depth)),
  }))
}

/**
 * Where the rules of one direction should run if only every `step`-th of them were known: a polynomial through those
 * (Lagrange's form). What was fitted to faint rules was fitted to noise, too, and would find itself confirmed.
 */
export function foretold(points: readonly Point[], order: number, axis: Axis, step: number): Point[] {
  const side = order + 1
  const known = Array.from({ length: order / step + 1 }, (_, k) => k * step)
  const weights = Array.from({ length: side }, (_, rule) =>
    known.map((own) =>
      known.reduce(
        (product, other) => (other === own ? product : (product * (rule - other)) / (own - other)),
        1,
      ),
    ),
  )
  return points.map((_, k) => {
    const [row, column] = [Math.floor(k / side), k % side]
    const place = { x: 0, y: 0 }
    known.forEach((own, i) => {
      const point = points[axis === 'across' ? own * side + column : row * side + own]!
      const weight = weights[axis === 'across' ? row : column]![i]!
      place.x += weight * point.x
      place.y += weight * point.y
    })
    return place
  })
}

/**
 * The same for the rules that a table of another count of rows would have within the same frame, save those at its
 * thirds, which a grid of nine has, too. Taken on the plane through the four corners.
 */
export function otherwiseParted(
  image: GrayImage,
  points: readonly Point[],
  order: number,
  axis: Axis,
  rows: number,
): readonly LineShow[] {
  const side = order + 1
  const corners = [0, order, side * side - 1, order * side]
  const plane = Homography.fit(
    corners.map((k) => ({ x: (k % side) / order, y: Math.floor(k / side) / order })),
    corners.map((k) => points[k]!),
  )
  if (!plane) return []
  const spot = (rule: number, along: number) =>
    axis === 'across' ? plane.apply(along / order, rule) : plane.apply(rule, along / order)
  const cells = Array.from({ length: order }, (_, cell) => cell)
  return Array.from({ length: rows - 1 }, (_, k) => (k + 1) / rows)
    .filter((rule) => Math.abs(3 * rule - Math.round(3 * rule)) > 1e-9)
    .map((rule) => ({
      depths: cells
        .map((cell) => depthAlong(image, spot(rule, cell), spot(rule, cell + 1)))
        .filter((depth) => !Number.isNaN(depth)),
    }))
}

/**
 * Student's t of the depths' mean: how many times its own standard error it is off zero. Above 0 for dark lines, below
 * for light ones; 0 where too little is seen.
 */
export function evidence(shows: readonly LineShow[]): number {
  const depths = shows.flatMap((show) => show.depths)
  const count = depths.length
  if (count < FEWEST_SIDES) return 0
  const mean = depths.reduce((sum, depth) => sum + depth, 0) / count
  const scatter = depths.reduce((sum, depth) => sum + (depth - mean) ** 2, 0) / (count - 1)
  // rules drawn by a computer, seen on a screen, scatter less than numbers are exact
  return mean / Math.sqrt(Math.max(scatter, LEAST_SCATTER) / count)
}

/** Mean over all sides seen, as a share of the ground. */
export function meanDepth(shows: readonly LineShow[]): number {
  const depths = shows.flatMap((show) => show.depths)
  return depths.reduce((sum, depth) => sum + depth, 0) / Math.max(1, depths.length)
}

const FEWEST_SIDES = 5
const LEAST_SCATTER = 1e-6

/**
 * How far what runs between two places stands out from its ground on the mean, as in `LineShow`; not a number outside
 * the picture.
 */
export function depthAlong(image: GrayImage, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y]
  const [sideX, sideY] = [-dy * SIDE, dx * SIDE]
  let sum = 0
  for (let look = 0; look < LOOKS; look++) {
    const t = FIRST_LOOK + ((1 - 2 * FIRST_LOOK) * look) / (LOOKS - 1)
    const [x, y] = [a.x + dx * t, a.y + dy * t]
    const here = brightness(image, x, y)
    const before = brightness(image, x - sideX, y - sideY)
    const after = brightness(image, x + sideX, y + sideY)
    const depth = ((before + after) / 2 - here) / Math.max(before, after, 20)
    sum += depth < -MOST_DEPTH ? -MOST_DEPTH : depth > MOST_DEPTH ? MOST_DEPTH : depth
  }
  return sum / LOOKS
}

/** Between pixels; not a number outside the picture. */
function brightness({ width, height, data }: GrayImage, x: number, y: number): number {
  const u = x - 0.5
  const v = y - 0.5
  if (!(u >= 0 && v >= 0 && u < width - 1 && v < height - 1)) return Number.NaN
  const x0 = u | 0
  const y0 = v | 0
  const at = y0 * width + x0
  const top = data[at]! + (data[at + 1]! - data[at]!) * (u - x0)
  const low = data[at + width]! + (data[at + width + 1]! - data[at + width]!) * (u - x0)
  return top + (low - top) * (v - y0)
}
