import type { Spot } from './layout.js'
import { BESIDE, type Crowd, type Curve, type CurveSpace, Nearby } from './obstacles.js'
import { short } from './xml.js'

/** Corners are rounded within this. */
const ROUND = 12

/**
 * The shortest way from mark to mark that keeps off everything firm, with its corners rounded; `undefined` where there
 * is none.
 */
export function detour(
  start: Spot,
  end: Spot,
  clear: number,
  space: CurveSpace,
  drawn: Crowd,
): Curve | undefined {
  const nearby = new Nearby(space.obstacles.filter((o) => o.firm))
  const way = shortestWay(start, end, space, drawn)
  if (!way) return undefined
  const isWithin = ({ x, y }: Spot, mark: Spot) => Math.hypot(x - mark.x, y - mark.y) < clear - 0.05
  const comesBack = (a: Spot, b: Spot, mark: Spot) =>
    a !== mark &&
    b !== mark &&
    steps(a, b).some(({ x, y }) => Math.hypot(x - mark.x, y - mark.y) < clear - 0.05)
  const isFree = (a: Spot, b: Spot) =>
    !steps(a, b).some((spot) => nearby.hitsFirm(spot)) && !comesBack(a, b, start) && !comesBack(a, b, end)
  const corners = pulled([start, ...way, end], isFree)
  return rounded(
    corners,
    clear,
    (spot) => nearby.hitsFirm(spot) || [start, end].some((mark) => isWithin(spot, mark)),
  )
}

/** Points of a straight line, close together. */
function steps(a: Spot, b: Spot): Spot[] {
  const count = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 2))
  return Array.from({ length: count + 1 }, (_, i) => ({
    x: a.x + ((b.x - a.x) * i) / count,
    y: a.y + ((b.y - a.y) * i) / count,
  }))
}

/** A* on the net: what is firm is closed, pencil marks and lines drawn before cost extra. */
function shortestWay(
  start: Spot,
  end: Spot,
  { obstacles, net: { xs, ys } }: CurveSpace,
  drawn: Crowd,
): Spot[] | undefined {
  const across = xs.length
  const spotOf = (node: number): Spot => ({ x: xs[node % across]!, y: ys[Math.floor(node / across)]! })
  const nearest = ({ x, y }: Spot) => nearestOf(ys, y) * across + nearestOf(xs, x)
  const toll = new Float32Array(across * ys.length)
  const charge = ({ x, y }: Spot, reach: number, price: number) => {
    for (let row = firstFrom(ys, y - reach); row < ys.length && ys[row]! < y + reach; row++)
      for (let column = firstFrom(xs, x - reach); column < across && xs[column]! < x + reach; column++)
        if (Math.hypot(xs[column]! - x, ys[row]! - y) < reach) toll[row * across + column]! += price
  }
  for (const o of obstacles) {
    charge(o, o.radius + BESIDE, o.firm ? Number.POSITIVE_INFINITY : 3)
    if (o.firm) charge(o, o.radius + BESIDE + 3, 0.8)
  }
  for (let node = 0; node < toll.length; node++) if (drawn.has(spotOf(node))) toll[node]! += 1.5
  const [from, to] = [nearest(start), nearest(end)]
  const target = spotOf(to)
  const cost = new Float32Array(across * ys.length).fill(Number.POSITIVE_INFINITY)
  const before = new Int32Array(across * ys.length).fill(-1)
  const queue = new Queue()
  cost[from] = 0
  queue.push(from, 0)
  for (let node = queue.pop(); node !== undefined && node !== to; node = queue.pop()) {
    const row = Math.floor(node / across)
    const column = node % across
    for (let down = -1; down <= 1; down++) {
      for (let right = -1; right <= 1; right++) {
        if (row + down < 0 || row + down >= ys.length || column + right < 0 || column + right >= across)
          continue
        const next = node + down * across + right
        const length = Math.hypot(xs[column + right]! - xs[column]!, ys[row + down]! - ys[row]!)
        const reached = cost[node]! + length * (1 + toll[next]!)
        if (!(reached < cost[next]! - 1e-3)) continue
        cost[next] = reached
        before[next] = node
        const spot = spotOf(next)
        queue.push(next, reached + Math.hypot(spot.x - target.x, spot.y - target.y))
      }
    }
  }
  if (before[to]! < 0) return undefined
  const way: Spot[] = []
  for (let node = to; node >= 0; node = before[node]!) way.push(spotOf(node))
  return way.reverse()
}

/** Position of the first of these ascending numbers that is not below. */
function firstFrom(numbers: readonly number[], least: number): number {
  let low = 0
  for (let high = numbers.length; low < high; ) {
    const middle = (low + high) >> 1
    if (numbers[middle]! < least) low = middle + 1
    else high = middle
  }
  return low
}

function nearestOf(numbers: readonly number[], value: number): number {
  const at = Math.min(firstFrom(numbers, value), numbers.length - 1)
  return at > 0 && value - numbers[at - 1]! < numbers[at]! - value ? at - 1 : at
}

/** The way with as few corners as what stands about allows. */
function pulled(way: readonly Spot[], isFree: (a: Spot, b: Spot) => boolean): Spot[] {
  const out = [way[0]!]
  for (let at = 0; at < way.length - 1; ) {
    let next = way.length - 1
    while (next > at + 1 && !isFree(way[at]!, way[next]!)) next--
    out.push(way[next]!)
    at = next
  }
  return out
}

function towards(a: Spot, b: Spot, by: number): Spot {
  const length = Math.hypot(b.x - a.x, b.y - a.y) || 1
  return { x: a.x + ((b.x - a.x) * by) / length, y: a.y + ((b.y - a.y) * by) / length }
}

/** A way without what lies within `clear` of its start. */
function trimmed(points: readonly Spot[], clear: number): Spot[] {
  const [start] = points
  const out = points.findIndex(({ x, y }) => Math.hypot(x - start!.x, y - start!.y) > clear)
  if (out < 1) return [...points]
  // halving finds where the way leaves the rim
  let [inside, outside] = [points[out - 1]!, points[out]!]
  for (let i = 0; i < 24; i++) {
    const middle = { x: (inside.x + outside.x) / 2, y: (inside.y + outside.y) / 2 }
    if (Math.hypot(middle.x - start!.x, middle.y - start!.y) > clear) outside = middle
    else inside = middle
  }
  return [outside, ...points.slice(out)]
}

function rounded(corners: readonly Spot[], clear: number, hits: (spot: Spot) => boolean): Curve {
  // the ends begin at the rims of their marks
  const points = trimmed([...trimmed(corners, clear)].reverse(), clear).reverse()
  const at = ({ x, y }: Spot) => `${short(x)} ${short(y)}`
  let path = `M${at(points[0]!)}`
  const samples: Spot[] = []
  let last = points[0]!
  for (let i = 1; i < points.length - 1; i++) {
    const [before, corner, after] = [points[i - 1]!, points[i]!, points[i + 1]!]
    const room = Math.min(
      Math.hypot(corner.x - before.x, corner.y - before.y) / 2,
      Math.hypot(after.x - corner.x, after.y - corner.y) / 2,
    )
    let turn: Spot[] = [corner]
    let [enter, exit] = [corner, corner]
    for (const radius of [ROUND, ROUND / 2, ROUND / 4]) {
      const by = Math.min(radius, room)
      const [a, b] = [towards(corner, before, by), towards(corner, after, by)]
      const bend = Array.from({ length: 9 }, (_, k) => bent(a, corner, b, k / 8))
      if (bend.some(hits)) continue
      ;[enter, exit, turn] = [a, b, bend]
      break
    }
    samples.push(...steps(last, enter), ...turn)
    path += `L${at(enter)}Q${at(corner)} ${at(exit)}`
    last = exit
  }
  const end = points[points.length - 1]!
  samples.push(...steps(last, end))
  return { path: `${path}L${at(end)}`, samples }
}

function bent(a: Spot, b: Spot, c: Spot, t: number): Spot {
  const of = (p: number, q: number, r: number) => (1 - t) * (1 - t) * p + 2 * t * (1 - t) * q + t * t * r
  return { x: of(a.x, b.x, c.x), y: of(a.y, b.y, c.y) }
}

/** A binary heap: the least first. */
class Queue {
  readonly #nodes: number[] = []
  readonly #ranks: number[] = []

  push(node: number, rank: number): void {
    let at = this.#nodes.length
    while (at > 0) {
      const above = (at - 1) >> 1
      if (this.#ranks[above]! <= rank) break
      this.#put(at, this.#nodes[above]!, this.#ranks[above]!)
      at = above
    }
    this.#put(at, node, rank)
  }

  pop(): number | undefined {
    const top = this.#nodes[0]
    const node = this.#nodes.pop()
    const rank = this.#ranks.pop()
    if (node === undefined || rank === undefined || this.#nodes.length === 0) return top
    let at = 0
    for (;;) {
      let below = 2 * at + 1
      if (below >= this.#nodes.length) break
      if (below + 1 < this.#nodes.length && this.#ranks[below + 1]! < this.#ranks[below]!) below++
      if (this.#ranks[below]! >= rank) break
      this.#put(at, this.#nodes[below]!, this.#ranks[below]!)
      at = below
    }
    this.#put(at, node, rank)
    return top
  }

  #put(at: number, node: number, rank: number): void {
    this.#nodes[at] = node
    this.#ranks[at] = rank
  }
}
