import type { Point } from '../image.js'
import type { Region } from './regions.js'

/** A region that looks like one cell: four corners, clockwise on the picture (y runs down), and its middle. */
export interface CellQuad {
  readonly corners: readonly [Point, Point, Point, Point]
  readonly centre: Point
  readonly area: number
}

/**
 * The four-sided outline of a region, if it has one: its convex hull, whose shortest-to-lose sides are taken away one
 * by one (each time the one whose neighbours, prolonged, add the least area) until four are left. A digit that grows
 * into the cell from a rule takes a bite out of the region, but hardly out of its hull.
 *
 * `undefined` when the outline is not near a quadrilateral, is too slanted or thin for a square under perspective, or
 * when the region covers too little of it.
 */
export function cellQuad(region: Region): CellQuad | undefined {
  return outlineQuad(region, LEAST_FILLED)
}

const LEAST_FILLED = 0.4

/** The same for a region of any kind, such as all the rules of a grid, which cover little of what they enclose. */
function outlineQuad(region: Region, leastFilled: number): CellQuad | undefined {
  const hull = convexHull(region)
  if (hull.length < 4) return undefined
  const hullArea = polygonArea(hull)
  if (region.area < hullArea * leastFilled) return undefined
  const corners = reduceToFour(hull)
  if (!corners) return undefined
  const area = polygonArea(corners)
  if (hullArea < area * 0.72) return undefined
  const sides = corners.map((p, k) => distance(p, corners[(k + 1) % 4]!))
  const [s0, s1, s2, s3] = sides as [number, number, number, number]
  const lean = Math.max(s0, s2) / Math.min(s0, s2)
  const taper = Math.max(s1, s3) / Math.min(s1, s3)
  const aspect = (s0 + s2) / (s1 + s3)
  if (lean > 1.8 || taper > 1.8 || aspect > 2.6 || aspect < 1 / 2.6) return undefined
  return { corners, centre: diagonalCrossing(corners), area }
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y)
}

/** Corners of the region's pixels, clockwise on the picture, without those on straight stretches. */
function convexHull({ top, spans }: Region): Point[] {
  const rows = spans.length / 2
  const leftSide: Point[] = []
  const rightSide: Point[] = []
  for (let k = 0; k < rows; k++) {
    const left = spans[2 * k]!
    const right = spans[2 * k + 1]! + 1
    for (const y of [top + k, top + k + 1]) {
      pushTurning(leftSide, { x: left, y }, -1)
      pushTurning(rightSide, { x: right, y }, 1)
    }
  }
  return [...rightSide, ...leftSide.reverse()]
}

function pushTurning(chain: Point[], point: Point, side: number): void {
  while (chain.length >= 2) {
    const a = chain[chain.length - 2]!
    const b = chain[chain.length - 1]!
    const turn = (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x)
    if (turn * side > 0) break
    chain.pop()
  }
  chain.push(point)
}

function polygonArea(points: readonly Point[]): number {
  let twice = 0
  for (let k = 0; k < points.length; k++) {
    const a = points[k]!
    const b = points[(k + 1) % points.length]!
    twice += a.x * b.y - a.y * b.x
  }
  return Math.abs(twice) / 2
}

/** Drops the side whose loss adds the least area, until four are left. */
function reduceToFour(hull: readonly Point[]): [Point, Point, Point, Point] | undefined {
  const points = hull.filter((p, k) => distance(p, hull[(k + 1) % hull.length]!) > 0.01)
  while (points.length > 4) {
    let least = Number.POSITIVE_INFINITY
    let at = -1
    let tip: Point | undefined
    for (let k = 0; k < points.length; k++) {
      const before = points[(k + points.length - 1) % points.length]!
      const from = points[k]!
      const to = points[(k + 1) % points.length]!
      const after = points[(k + 2) % points.length]!
      const meeting = prolonged(before, from, after, to)
      if (!meeting) continue
      const added = polygonArea([from, meeting, to])
      if (added < least) {
        least = added
        at = k
        tip = meeting
      }
    }
    if (!tip) return undefined
    points[at] = tip
    points.splice((at + 1) % points.length, 1)
  }
  return points.length === 4 ? (points as [Point, Point, Point, Point]) : undefined
}

/** Where the line a→b, prolonged past b, meets the line c→d, prolonged past d. */
function prolonged(a: Point, b: Point, c: Point, d: Point): Point | undefined {
  const ux = b.x - a.x
  const uy = b.y - a.y
  const vx = d.x - c.x
  const vy = d.y - c.y
  const cross = ux * vy - uy * vx
  if (Math.abs(cross) < 1e-9) return undefined
  const s = ((d.x - b.x) * vy - (d.y - b.y) * vx) / cross
  const t = ((d.x - b.x) * uy - (d.y - b.y) * ux) / cross
  if (s < 0 || t < 0) return undefined
  return { x: b.x + ux * s, y: b.y + uy * s }
}

function diagonalCrossing([a, b, c, d]: readonly [Point, Point, Point, Point]): Point {
  const cross = (c.x - a.x) * (d.y - b.y) - (c.y - a.y) * (d.x - b.x)
  const t = ((b.x - a.x) * (d.y - b.y) - (b.y - a.y) * (d.x - b.x)) / cross
  return { x: a.x + (c.x - a.x) * t, y: a.y + (c.y - a.y) * t }
}
