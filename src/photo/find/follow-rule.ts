import type { GrayImage } from '../image.js'
import type { Homography } from './homography.js'
import { biweight, LeastSquares } from './least-squares.js'
import { type Axis, RULE_KINDS, type RuleKind, type RuleReading, RuleScan } from './rule-readings.js'

/** A reading this far from where its rule runs, in cells, is something else. */
export const STRAY = 0.05

/** A rule followed along the grid. */
export interface FollowedRule {
  readonly kind: RuleKind
  /** How far its middle is from where it was expected, in cells. */
  readonly shift: number
  /** Which places lie inside the picture. */
  readonly inside: readonly boolean[]
  /**
   * For each place what was seen there on the rule's course, standing out about as much as elsewhere; `undefined` when
   * nothing.
   */
  readonly readings: readonly (RuleReading | undefined)[]
}

export interface RuleQuery {
  readonly axis: Axis
  readonly rule: number
  /** Where along the rule to look. */
  readonly places: readonly number[]
  /** The places between these positions of `places` decide on the course; the others are only held against it. */
  readonly core: { readonly start: number; readonly end: number }
  readonly expected: (along: number) => number
  readonly reach: number
}

/**
 * A dark line seen at this share of its places, and not far from where it was expected, is the rule; nothing else is
 * looked for.
 */
const CLEAR = 0.85
/** Another kind must be worth this much more than a dark line to be believed. */
const BETTER = 1.25

/**
 * Reads a rule as a dark line or, where that is not convincing, as what shows best: a light line, or an edge between
 * grounds.
 */
export function followRule(image: GrayImage, plane: Homography, query: RuleQuery): FollowedRule {
  const { axis, places, core, expected, reach } = query
  const courses = new Float64Array(places.length)
  for (let k = 0; k < courses.length; k++) courses[k] = expected(places[k]!)
  scan.look(image, plane, axis, places, courses, reach)
  const inside: boolean[] = []
  for (let k = 0; k < places.length; k++) inside.push(scan.inside[k] === 1)
  let insideCore = 0
  for (let k = core.start; k < core.end; k++) insideCore += scan.inside[k]!
  let best: FollowedRule | undefined
  let most = 0
  for (const kind of RULE_KINDS) {
    scan.read(kind)
    const { shift, readings } = follow(query, courses)
    let seen = 0
    for (let k = core.start; k < core.end; k++) if (readings[k]) seen++
    const worth = seen * nearness(shift, reach)
    if (!best || worth > most * BETTER) {
      best = { kind, shift, inside, readings }
      most = worth
    }
    if (kind === 'dark' && worth >= insideCore * CLEAR) break
  }
  return best!
}

/** One scan and its helpers serve all rules, one after another. */
const scan = new RuleScan()
const system = new LeastSquares(3)
const row = new Float64Array(3)
const PULL = [0.01, 0.01, 1] as const

/**
 * 1 for a course where it was expected, less the farther it is: of lines seen equally often (the two of a double frame,
 * the rim of a title bar, the glow beside an edge) the nearest is meant.
 */
function nearness(shift: number, reach: number): number {
  return 1 - (0.6 * Math.min(Math.abs(shift), reach)) / reach
}

/** Finds the course that most of the scan's readings in the core agree on, and the readings that lie on it. */
function follow(
  { rule, places, core, reach }: RuleQuery,
  courses: Float64Array,
): { readonly shift: number; readonly readings: readonly (RuleReading | undefined)[] } {
  const count = places.length
  const [first, last] = [places[core.start]!, places[core.end - 1]!]
  const length = Math.max(1, last - first)
  let shift = commonStray(core.start, core.end, courses, reach)
  let tilt = 0
  let bow = 0
  for (const width of [0.15, 0.1, 0.07]) {
    system.clear()
    for (let k = core.start; k < core.end; k++) {
      const x = (2 * (places[k]! - first)) / length - 1
      const course = courses[k]! + shift + tilt * x + bow * x * x
      const at = nearest(k, course)
      if (at < 0) continue
      const weight = biweight(scan.places[at]! - course, width)
      if (weight === 0) continue
      row[0] = 1
      row[1] = x
      row[2] = x * x
      system.add(row, scan.places[at]! - courses[k]!, weight)
    }
    const solved = system.solve(PULL)
    if (!solved) break
    shift = solved[0]!
    tilt = solved[1]!
    bow = solved[2]!
  }
  const close = new Int32Array(count).fill(-1)
  const depths: number[] = []
  for (let k = 0; k < count; k++) {
    const x = (2 * (places[k]! - first)) / length - 1
    const course = courses[k]! + shift + tilt * x + bow * x * x
    const at = nearest(k, course)
    if (at < 0 || Math.abs(scan.places[at]! - course) >= STRAY) continue
    close[k] = at
    if (k >= core.start && k < core.end) depths.push(scan.depths[at]!)
  }
  depths.sort((a, b) => a - b)
  const least = (depths[depths.length >> 1] ?? 0) * 0.3
  const readings: (RuleReading | undefined)[] = []
  for (let k = 0; k < count; k++) {
    const at = close[k]!
    const depth = at < 0 ? -1 : scan.depths[at]!
    readings.push(
      depth >= 0 && depth >= least
        ? { rule, along: places[k]!, place: scan.places[at]!, depth, width: scan.widths[at]! }
        : undefined,
    )
  }
  return { shift, readings }
}

/** Of what the scan saw at place `k`, the reading nearest to a course; -1 when there is none. */
function nearest(k: number, course: number): number {
  const { starts, places } = scan
  let best = -1
  let least = Number.POSITIVE_INFINITY
  for (let at = starts[k]!, end = starts[k + 1]!; at < end; at++) {
    const away = Math.abs(places[at]! - course)
    if (away < least) {
      least = away
      best = at
    }
  }
  return best
}

const BINS_A_CELL = 50

/**
 * The stray from the expected course that most places share, so that digits and specks beside a faint rule do not
 * mislead.
 */
function commonStray(start: number, end: number, courses: Float64Array, reach: number): number {
  const half = Math.ceil(reach * BINS_A_CELL)
  const votes = new Float64Array(2 * half + 1)
  for (let k = start; k < end; k++) {
    for (let at = scan.starts[k]!; at < scan.starts[k + 1]!; at++) {
      const bin = Math.round((scan.places[at]! - courses[k]!) * BINS_A_CELL) + half
      // a rule bends or tilts a little along its way, so a vote counts for its neighbours too
      for (let d = -2; d <= 2; d++) {
        const near = bin + d
        if (near >= 0 && near < votes.length) votes[near] = votes[near]! + 3 - Math.abs(d)
      }
    }
  }
  let best = half
  let most = votes[half]!
  for (let bin = 0; bin < votes.length; bin++) {
    const worth = votes[bin]! * nearness((bin - half) / BINS_A_CELL, reach)
    if (worth <= most) continue
    most = worth
    best = bin
  }
  return (best - half) / BINS_A_CELL
}
