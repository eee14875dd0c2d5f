import type { GrayImage } from '../image.js'
import type { Homography } from './homography.js'
import { biweight, LeastSquares } from './least-squares.js'
import { type Axis, RULE_KINDS, type RuleKind, type RuleReading, readRule } from './rule-readings.js'

/** A reading this far from where its rule runs, in cells, is something else. */
export const STRAY = 0.05

/** A rule followed along the grid. */
export interface FollowedRule {
  readonly kind: RuleKind
  /** How far its middle is from where it was expected, in cells. */
  readonly shift: number
  /** Which places lie inside the picture. */
  readonly inside: readonly boolean[]
  /** For each place what was seen there on the rule's course, standing out about as much as elsewhere; `undefined` when nothing. */
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

/** A dark line seen at this share of its places, and not far from where it was expected, is the rule; nothing else is looked for. */
const CLEAR = 0.85
/** Another kind must be worth this much more than a dark line to be believed. */
const BETTER = 1.25

/** Reads a rule as a dark line or, where that is not convincing, as what shows best: a light line, or an edge between grounds. */
export function followRule(image: GrayImage, plane: Homography, query: RuleQuery): FollowedRule {
  const { start, end } = query.core
  let best: FollowedRule | undefined
  let most = 0
  for (const kind of RULE_KINDS) {
    const followed = follow(image, plane, query, kind)
    let seen = 0
    let inside = 0
    for (let k = start; k < end; k++) {
      if (followed.inside[k]) inside++
      if (followed.readings[k]) seen++
    }
    const worth = seen * nearness(followed.shift, query.reach)
    if (!best || worth > most * BETTER) {
      best = followed
      most = worth
    }
    if (kind === 'dark' && worth >= inside * CLEAR) break
  }
  return best!
}

/** 1 for a course where it was expected, less the farther it is: of lines seen equally often (the two of a double frame, the rim of a title bar, the glow beside an edge) the nearest is meant. */
function nearness(shift: number, reach: number): number {
  return 1 - (0.6 * Math.min(Math.abs(shift), reach)) / reach
}

function follow(image: GrayImage, plane: Homography, query: RuleQuery, kind: RuleKind): FollowedRule {
  const { axis, rule, places, core, expected, reach } = query
  const courses = places.map(expected)
  const seen = places.map((along, k) => readRule(image, plane, axis, rule, along, courses[k]!, reach, kind))
  const [first, last] = [places[core.start]!, places[core.end - 1]!]
  const slant = (k: number) => (2 * (places[k]! - first)) / Math.max(1, last - first) - 1
  let shift = commonStray(seen.slice(core.start, core.end), courses.slice(core.start, core.end), reach)
  let tilt = 0
  let bow = 0
  const course = (k: number) => courses[k]! + shift + tilt * slant(k) + bow * slant(k) ** 2
  const nearest = (k: number) => {
    const place = course(k)
    let best: RuleReading | undefined
    for (const reading of seen[k] ?? []) {
      if (!best || Math.abs(reading.place - place) < Math.abs(best.place - place)) best = reading
    }
    return best
  }
  for (const width of [0.15, 0.1, 0.07]) {
    const system = new LeastSquares(3)
    for (let k = core.start; k < core.end; k++) {
      const reading = nearest(k)
      if (!reading) continue
      const x = slant(k)
      const weight = biweight(reading.place - course(k), width)
      if (weight > 0) system.add([1, x, x * x], reading.place - courses[k]!, weight)
    }
    const solved = system.solve([0.01, 0.01, 1])
    if (!solved) break
    shift = solved[0]!
    tilt = solved[1]!
    bow = solved[2]!
  }
  const close = places.map((_, k) => {
    const reading = nearest(k)
    return reading && Math.abs(reading.place - course(k)) < STRAY ? reading : undefined
  })
  const depths = close.slice(core.start, core.end).flatMap((reading) => (reading ? [reading.depth] : []))
  depths.sort((a, b) => a - b)
  const least = (depths[depths.length >> 1] ?? 0) * 0.3
  return {
    kind,
    shift,
    inside: seen.map((lines) => lines !== undefined),
    readings: close.map((reading) => (reading && reading.depth >= least ? reading : undefined)),
  }
}

const BINS_A_CELL = 50

/** The stray from the expected course that most places share, so that digits and specks beside a faint rule do not mislead. */
function commonStray(
  seen: readonly (RuleReading[] | undefined)[],
  courses: readonly number[],
  reach: number,
): number {
  const half = Math.ceil(reach * BINS_A_CELL)
  const votes = new Float64Array(2 * half + 1)
  seen.forEach((lines, k) => {
    for (const { place } of lines ?? []) {
      const bin = Math.round((place - courses[k]!) * BINS_A_CELL) + half
      // a rule bends or tilts a little along its way, so a vote counts for its neighbours too
      for (let d = -2; d <= 2; d++) {
        const at = bin + d
        if (at >= 0 && at < votes.length) votes[at] = votes[at]! + 3 - Math.abs(d)
      }
    }
  })
  const worth = (bin: number) => votes[bin]! * nearness((bin - half) / BINS_A_CELL, reach)
  let best = half
  for (let bin = 0; bin < votes.length; bin++) if (worth(bin) > worth(best)) best = bin
  return (best - half) / BINS_A_CELL
}
