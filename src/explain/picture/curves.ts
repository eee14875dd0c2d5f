import { detour } from './detour.js'
import type { Spot } from './layout.js'
import { BESIDE, type Crowd, type Curve, type CurveSpace, Nearby, type Obstacle } from './obstacles.js'
import { short } from './xml.js'

const BOWS = [0, 7, 11, 15, 20, 26, 33, 42, 54, 70, 90]
/** Between neighbours in a cell a line shows only where it bows well out; best first. */
const NEAR_BOWS = [13, 11.5, 10, 16, 20, 25]
/** Where along the way the curve bends: evenly, or soon after the start and late before the end. */
const SHOULDERS = [0.33, 0.06]
const SAMPLES = 40
/** What a unit of height costs, as well as running over things. */
const PER_HEIGHT = 0.12
/** What running into something firm costs: more than any detour. */
const FIRM = 60
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

/**
 * Picks, out of bows to either side, the curve from one mark to another that runs over the least: other marks and
 * digits first, curves drawn before second, and otherwise the flattest. Where all of them run into something firm, a
 * detour is looked for.
 *
 * @param clear radius of the marks at the ends, which the curve leaves free
 */
export function routeCurve(start: Spot, end: Spot, clear: number, space: CurveSpace, drawn: Crowd): Curve {
  const isEnd = (o: Obstacle) =>
    Math.hypot(o.x - start.x, o.y - start.y) <= 1 || Math.hypot(o.x - end.x, o.y - end.y) <= 1
  // what leaves a mark must not come back to it
  const ends = [start, end].map((spot) => ({ ...spot, radius: clear - BESIDE - 0.05, firm: true }))
  const others = { ...space, obstacles: space.obstacles.filter((o) => !isEnd(o)) }
  const { curve, hits } = bestBow(
    start,
    end,
    clear,
    { ...others, obstacles: [...others.obstacles, ...ends] },
    drawn,
  )
  if (!hits) return curve
  return detour(start, end, clear, others, drawn) ?? curve
}

function bestBow(
  start: Spot,
  end: Spot,
  clear: number,
  space: CurveSpace,
  drawn: Crowd,
): { curve: Curve; hits: boolean } {
  const dx = end.x - start.x
  const dy = end.y - start.y
  const length = Math.hypot(dx, dy) || 1
  const nearby = new Nearby(space.obstacles)
  const near = length < 2.6 * clear
  let best: { curve: Bezier; cost: number } | undefined
  for (const [i, size] of (near ? NEAR_BOWS : BOWS).entries()) {
    const bestCost = best?.cost ?? Number.POSITIVE_INFINITY
    const own = near ? i : size * PER_HEIGHT
    // Once a bow by itself costs more than the best, none that follows is better.
    if ((!near && size > Math.max(11, length * 0.6)) || own >= bestCost) break
    for (const bow of size === 0 ? [0] : [size, -size]) {
      for (const shoulder of SHOULDERS) {
        // A cubic rises to three quarters of the height of its bends.
        const bend = (t: number): Spot => ({
          x: start.x + dx * t - ((dy / length) * bow) / 0.75,
          y: start.y + dy * t + ((dx / length) * bow) / 0.75,
        })
        const bezier: Bezier = [start, bend(shoulder), bend(1 - shoulder), end]
        const curve = near || length > 2 * clear ? trimmed(bezier, clear) : bezier
        const cost = own + (shoulder < 0.3 ? 0.6 : 0) + costOf(samplesOf(curve), nearby, space, drawn)
        if (cost < (best?.cost ?? Number.POSITIVE_INFINITY)) best = { curve, cost }
      }
    }
  }
  const { curve } = best!
  const samples = samplesOf(curve, Math.max(SAMPLES, Math.ceil(length / 2.5)))
  const at = ({ x, y }: Spot) => `${short(x)} ${short(y)}`
  const path = `M${at(curve[0])}C${at(curve[1])} ${at(curve[2])} ${at(curve[3])}`
  return { curve: { path, samples }, hits: samples.some((spot) => nearby.hitsFirm(spot)) }
}

const trimmed = (curve: Bezier, clear: number) => reversed(leave(reversed(leave(curve, clear)), clear))
const samplesOf = (curve: Bezier, count = SAMPLES) =>
  Array.from({ length: count + 1 }, (_, i) => along(curve, i / count))

function costOf(samples: readonly Spot[], nearby: Nearby, space: CurveSpace, drawn: Crowd): number {
  let cost = 0
  for (const { x, y } of samples) {
    for (const o of nearby.at({ x, y })) {
      const reach = o.radius + BESIDE
      const distance = Math.hypot(x - o.x, y - o.y)
      if (distance < reach) cost += o.firm ? FIRM : (reach - distance) * 0.5
    }
    const outside = Math.max(
      space.left - x,
      space.top - y,
      x - space.left - space.side,
      y - space.top - space.side,
      0,
    )
    cost += outside * 3
    if (drawn.has({ x, y })) cost += 0.8
  }
  return cost
}
