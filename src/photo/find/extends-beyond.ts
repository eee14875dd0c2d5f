import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { median } from '../median.js'
import { depthAlong } from './line-test.js'

/** A rule's last cell may be off by so much, in cells, when it is drawn on beyond the grid. */
const ASIDE = [-0.06, -0.03, 0, 0.03, 0.06] as const
/** Rules that go on are seen at least so well, as a share of how well they are seen inside … */
const AS_WELL = 0.5
/** … where they stand out by this share of their ground. */
const LEAST_DEPTH = 0.01

/**
 * Do the rules of a lattice run on beyond one of its sides, up to one more, as those of a table with more columns do? A
 * number-place grid ends at its frame; what stands beside it (a title bar, another grid) does not take up its rules.
 */
export function extendsBeyond(image: GrayImage, { order, points }: Lattice): boolean {
  const side = order + 1
  const at = (row: number, column: number) => points[row * side + column]!
  const inner = Array.from({ length: order - 1 }, (_, k) => k + 1)
  const sides = [
    inner.map((row) => [at(row, 0), at(row, 1)] as const),
    inner.map((row) => [at(row, order), at(row, order - 1)] as const),
    inner.map((column) => [at(0, column), at(1, column)] as const),
    inner.map((column) => [at(order, column), at(order - 1, column)] as const),
  ]
  return sides.some((ends) => {
    const inside = median(ends.map(([end, before]) => depthBetween(image, before, end)))
    if (Math.abs(inside) < LEAST_DEPTH) return false
    const outer = ends.map(([end, before]) => mirrored(before, end))
    const beyond = ends.map(([end], k) => depthBetween(image, end, outer[k]!))
    const next = outer.slice(1).map((point, k) => depthBetween(image, outer[k]!, point))
    // outside the picture there is nothing to see
    return [beyond, next].every((depths) => !depths.some(Number.isNaN) && median(depths) / inside > AS_WELL)
  })
}

function mirrored(point: Point, about: Point): Point {
  return { x: 2 * about.x - point.x, y: 2 * about.y - point.y }
}

/** How far a rule stands out there, be it a little aside; not a number outside the picture. */
function depthBetween(image: GrayImage, from: Point, to: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y]
  return ASIDE.reduce<number>((most, aside) => {
    const move = ({ x, y }: Point) => ({ x: x - dy * aside, y: y + dx * aside })
    const depth = depthAlong(image, move(from), move(to))
    return Number.isNaN(depth) || Math.abs(depth) > Math.abs(most) ? depth : most
  }, 0)
}
