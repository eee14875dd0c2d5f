import type { Spot } from './layout.js'

/** Something a curve should not run over. */
export interface Obstacle extends Spot {
  readonly radius: number
}

/** A quadratic curve between two marks, cut off where the marks begin. */
export interface Curve {
  readonly from: Spot
  readonly bend: Spot
  readonly to: Spot
  /** Points along it. */
  readonly samples: readonly Spot[]
}

const BOWS = [7, 11, 15, 20, 26, 33, 42, 54, 70, 90]
const SAMPLES = 28

function along(from: Spot, bend: Spot, to: Spot, t: number): Spot {
  const s = 1 - t
  return {
    x: s * s * from.x + 2 * s * t * bend.x + t * t * to.x,
    y: s * s * from.y + 2 * s * t * bend.y + t * t * to.y,
  }
}

/** The part of a quadratic between two of its parameters, as a quadratic again. */
function cut(from: Spot, bend: Spot, to: Spot, start: number, end: number): Omit<Curve, 'samples'> {
  const at = (a: number, b: number): Spot => ({
    x: (1 - a) * (1 - b) * from.x + (a * (1 - b) + b * (1 - a)) * bend.x + a * b * to.x,
    y: (1 - a) * (1 - b) * from.y + (a * (1 - b) + b * (1 - a)) * bend.y + a * b * to.y,
  })
  return { from: at(start, start), bend: at(start, end), to: at(end, end) }
}

/** The parameter at which a curve first is `clear` away from the mark it starts at. */
function leaves(from: Spot, bend: Spot, to: Spot, mark: Spot, clear: number): number {
  const steps = 240
  for (let i = 1; i < steps; i++) {
    const { x, y } = along(from, bend, to, i / steps)
    if (Math.hypot(x - mark.x, y - mark.y) >= clear) return i / steps
  }
  return 1
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
  from: Spot,
  to: Spot,
  clear: number,
  space: CurveSpace,
  drawn: readonly Curve[],
): Curve {
  const dx = to.x - from.x
  const dy = to.y - from.y
  const length = Math.hypot(dx, dy) || 1
  const obstacles = space.obstacles.filter(
    (o) => Math.hypot(o.x - from.x, o.y - from.y) > 1 && Math.hypot(o.x - to.x, o.y - to.y) > 1,
  )
  const near = length < 3.4 * clear
  let best: Curve | undefined
  let bestCost = Number.POSITIVE_INFINITY
  for (const size of near ? [3, ...BOWS.slice(0, 3)] : BOWS) {
    if (size > Math.max(11, length * 0.6)) continue
    for (const bow of [size, -size]) {
      const bend = {
        x: (from.x + to.x) / 2 - (dy / length) * bow * 2,
        y: (from.y + to.y) / 2 + (dx / length) * bow * 2,
      }
      const samples = Array.from({ length: SAMPLES + 1 }, (_, i) => along(from, bend, to, i / SAMPLES))
      const cost = costOf(samples, size, obstacles, space, drawn)
      if (cost < bestCost) {
        bestCost = cost
        const start = leaves(from, bend, to, from, clear)
        const end = 1 - leaves(to, bend, from, to, clear)
        const [t0, t1] = start < end ? [start, end] : [0, 1]
        best = { ...cut(from, bend, to, t0, t1), samples }
      }
    }
  }
  return best!
}

function costOf(
  samples: readonly Spot[],
  bow: number,
  obstacles: readonly Obstacle[],
  space: CurveSpace,
  drawn: readonly Curve[],
): number {
  let cost = bow * 0.12
  for (const { x, y } of samples) {
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
