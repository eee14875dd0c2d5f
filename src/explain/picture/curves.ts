import type { Spot } from './layout.js'

/** Something a curve should not run over. */
export interface Obstacle extends Spot {
  readonly radius: number
}

/** A cubic curve between two marks, cut off where the marks begin. */
export interface Curve {
  readonly from: Spot
  /** The two points that it bends towards. */
  readonly bends: readonly [Spot, Spot]
  readonly to: Spot
  /** Points along it. */
  readonly samples: readonly Spot[]
}

const BOWS = [7, 11, 15, 20, 26, 33, 42, 54, 70, 90]
/** Where along the way the curve bends: evenly, or soon after the start and late before the end. */
const SHOULDERS = [0.33, 0.06]
const SAMPLES = 32
/** What a unit of height costs, as well as running over things. */
const PER_HEIGHT = 0.12

type Bezier = readonly [Spot, Spot, Spot, Spot]

function between(a: Spot, b: Spot, t: number): Spot {
  return { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t }
}

function along([a, b, c, d]: Bezier, t: number): Spot {
  const ab = between(a, b, t)
  const bc = between(b, c, t)
  const cd = between(c, d, t)
  return between(between(ab, bc, t), between(bc, cd, t), t)
}

/** What is left of a curve from a parameter on. */
function from(curve: Bezier, t: number): Bezier {
  const [, b, c, d] = curve
  const cd = between(c, d, t)
  return [along(curve, t), between(between(b, c, t), cd, t), cd, d]
}

function reversed([a, b, c, d]: Bezier): Bezier {
  return [d, c, b, a]
}

/** The curve without the part that lies within `clear` of its start. */
function leave(curve: Bezier, clear: number): Bezier {
  const steps = 240
  for (let i = 1; i < steps; i++) {
    const { x, y } = along(curve, i / steps)
    if (Math.hypot(x - curve[0].x, y - curve[0].y) >= clear) return from(curve, i / steps)
  }
  return curve
}

export interface CurveSpace {
  readonly obstacles: readonly Obstacle[]
  /** The grid: curves stay inside, near enough. */
  readonly left: number
  readonly top: number
  readonly side: number
}

/**
 * Picks, out of bows to either side, the curve from one mark to another that runs over the least: other marks and
 * digits first, curves drawn before second, and otherwise the flattest.
 *
 * @param clear radius of the marks at the ends, which the curve leaves free
 */
export function routeCurve(
  start: Spot,
  end: Spot,
  clear: number,
  space: CurveSpace,
  drawn: readonly Curve[],
): Curve {
  const dx = end.x - start.x
  const dy = end.y - start.y
  const length = Math.hypot(dx, dy) || 1
  const obstacles = space.obstacles.filter(
    (o) =>
      Math.hypot(o.x - start.x, o.y - start.y) > 1 &&
      Math.hypot(o.x - end.x, o.y - end.y) > 1 &&
      // how far the highest bow can reach from the middle of the chord
      Math.hypot(o.x - (start.x + end.x) / 2, o.y - (start.y + end.y) / 2) < length / 2 + 130,
  )
  const near = length < 3.4 * clear
  let best: { curve: Bezier; samples: Spot[] } | undefined
  let bestCost = Number.POSITIVE_INFINITY
  for (const size of near ? [3, ...BOWS.slice(0, 3)] : BOWS) {
    // Bows come flattest first: once the height alone costs more than the best, none that follows is better.
    if (size > Math.max(11, length * 0.6) || size * PER_HEIGHT >= bestCost) break
    for (const bow of [size, -size]) {
      for (const shoulder of SHOULDERS) {
        // A cubic rises to three quarters of the height of its bends.
        const bend = (t: number): Spot => ({
          x: start.x + dx * t - ((dy / length) * bow) / 0.75,
          y: start.y + dy * t + ((dx / length) * bow) / 0.75,
        })
        const curve: Bezier = [start, bend(shoulder), bend(1 - shoulder), end]
        const samples = Array.from({ length: SAMPLES + 1 }, (_, i) => along(curve, i / SAMPLES))
        const least = size * PER_HEIGHT + (shoulder < 0.3 ? 0.6 : 0)
        const cost = costOf(samples, least, bestCost, obstacles, space, drawn)
        if (cost < bestCost) {
          bestCost = cost
          best = { curve, samples }
        }
      }
    }
  }
  const { curve, samples } = best!
  const shortened = length > 2 * clear ? reversed(leave(reversed(leave(curve, clear)), clear)) : curve
  return { from: shortened[0], bends: [shortened[1], shortened[2]], to: shortened[3], samples }
}

/** What a curve costs; no more than enough to be dearer than `most` is added up. */
function costOf(
  samples: readonly Spot[],
  least: number,
  most: number,
  obstacles: readonly Obstacle[],
  space: CurveSpace,
  drawn: readonly Curve[],
): number {
  let cost = least
  for (const { x, y } of samples) {
    if (cost >= most) break
    for (const o of obstacles) {
      const reach = o.radius + 2
      const away = Math.abs(x - o.x) + Math.abs(y - o.y)
      if (away > 2 * reach) continue
      const distance = Math.hypot(x - o.x, y - o.y)
      if (distance < reach) cost += (reach - distance) * 1.2
    }
    const outside = Math.max(
      space.left - x,
      space.top - y,
      x - space.left - space.side,
      y - space.top - space.side,
      0,
    )
    cost += outside * 3
    for (const curve of drawn)
      for (const point of curve.samples)
        if (Math.abs(point.x - x) < 4 && Math.abs(point.y - y) < 4) cost += 0.8
  }
  return cost
}
