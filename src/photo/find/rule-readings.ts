import type { GrayImage } from '../image.js'
import type { Homography } from './homography.js'

/** Rules that run across the grid (`v` whole) or down it (`u` whole). */
export type Axis = 'across' | 'down'

/** What was seen at one place of a rule. */
export interface RuleReading {
  readonly rule: number
  /** Where along the rule, in cells. */
  readonly along: number
  /** Where across it the middle of the dark line is, in cells: near `rule`. */
  readonly place: number
  /** How much darker than the paper on its lighter-paper side's opposite: 0 none, 1 black. */
  readonly depth: number
  /** Width of the dark line, in cells. */
  readonly width: number
  /** Where the sharpest step in brightness is, and how large, as a share of the lighter side: a frame may be an edge only. */
  readonly edgePlace: number
  readonly edgeStep: number
}

/** Steps a cell is cut into when looking across a rule. */
const STEPS = 40
/** How far from a rule, in cells, paper is looked for. */
const FLANK = 0.2
/** A rule nearer to the picture's edge than this, in cells, shows no paper on one side and cannot be told from an edge. */
const NEEDED_PAPER = 0.12
/** Neighbouring places along the rule that are averaged against noise, in cells. */
const TAPS = [-0.05, 0, 0.05] as const

/**
 * Looks across a rule at one place and finds the darkest line within `reach` of where it is expected: a place darker
 * than the paper on *both* its sides, so an edge of a shaded cell does not count.
 *
 * `undefined` when the place lies outside the picture or so near its edge that one side is out of view.
 *
 * @param expected where the rule should be across, in cells
 */
export function readRule(
  image: GrayImage,
  plane: Homography,
  axis: Axis,
  rule: number,
  along: number,
  expected: number,
  reach: number,
): RuleReading | undefined {
  const across = axis === 'across'
  const p = across ? plane.apply(along, expected) : plane.apply(expected, along)
  const e = 0.05
  const before = across ? plane.apply(along, expected - e) : plane.apply(expected - e, along)
  const after = across ? plane.apply(along, expected + e) : plane.apply(expected + e, along)
  const back = across ? plane.apply(along - e, expected) : plane.apply(expected, along - e)
  const forth = across ? plane.apply(along + e, expected) : plane.apply(expected, along + e)
  const stepX = (after.x - before.x) / (2 * e * STEPS)
  const stepY = (after.y - before.y) / (2 * e * STEPS)
  const alongX = (forth.x - back.x) / (2 * e)
  const alongY = (forth.y - back.y) / (2 * e)

  const flank = Math.round(FLANK * STEPS)
  const half = Math.round(reach * STEPS)
  const count = 2 * (half + flank) + 1
  const middle = half + flank
  const { width, height, data } = image
  const margin = Math.abs(stepX * middle) + Math.abs(alongX * 0.05) + 1
  const marginY = Math.abs(stepY * middle) + Math.abs(alongY * 0.05) + 1
  const inside = p.x > margin && p.x < width - margin && p.y > marginY && p.y < height - marginY
  const roomX = Math.abs(stepX) * STEPS * NEEDED_PAPER + 1
  const roomY = Math.abs(stepY) * STEPS * NEEDED_PAPER + 1
  if (!(p.x > roomX && p.x < width - roomX && p.y > roomY && p.y < height - roomY)) return undefined

  const profile = scratch(count)
  for (let k = 0; k < count; k++) {
    let sum = 0
    for (const tap of TAPS) {
      let x = p.x + (k - middle) * stepX + tap * alongX - 0.5
      let y = p.y + (k - middle) * stepY + tap * alongY - 0.5
      if (!inside) {
        x = x < 0 ? 0 : x > width - 1.001 ? width - 1.001 : x
        y = y < 0 ? 0 : y > height - 1.001 ? height - 1.001 : y
      }
      const x0 = x | 0
      const y0 = y | 0
      const fx = x - x0
      const fy = y - y0
      const at = y0 * width + x0
      const top = data[at]! + (data[at + 1]! - data[at]!) * fx
      const low = data[at + width]! + (data[at + width + 1]! - data[at + width]!) * fx
      sum += top + (low - top) * fy
    }
    profile[k] = sum / TAPS.length
  }
  return darkestLine(profile, count, flank, half, rule, along, expected)
}

let shared = new Float64Array(64)
function scratch(count: number): Float64Array {
  if (shared.length < count) shared = new Float64Array(count)
  return shared
}

function darkestLine(
  profile: Float64Array,
  count: number,
  flank: number,
  half: number,
  rule: number,
  along: number,
  expected: number,
): RuleReading {
  const middle = half + flank
  let bestScore = 0
  let best = -1
  let bestLeft = 0
  let bestRight = 0
  for (let k = flank; k < count - flank; k++) {
    const here = profile[k]!
    if (here > profile[k - 1]! || here > profile[k + 1]!) continue
    let left = here
    let right = here
    for (let d = 1; d <= flank; d++) {
      if (profile[k - d]! > left) left = profile[k - d]!
      if (profile[k + d]! > right) right = profile[k + d]!
    }
    const away = (k - middle) / (half + 1)
    const score = (Math.min(left, right) - here) * (1 - 0.6 * away * away)
    if (score > bestScore) {
      bestScore = score
      best = k
      bestLeft = left
      bestRight = right
    }
  }
  const edge = sharpestStep(profile, count, flank, half, expected)
  if (best < 0) return { rule, along, place: expected, depth: 0, width: 0, ...edge }
  const paper = Math.min(bestLeft, bestRight)
  const deepest = paper - profile[best]!
  // The middle of what is darker than half way between paper and the line's darkest: symmetrical, so blur does not shift it.
  const level = paper - deepest * 0.5
  let first = best
  while (first > best - flank && profile[first - 1]! < level) first--
  let last = best
  while (last < best + flank && profile[last + 1]! < level) last++
  const from = first - (level - profile[first]!) / Math.max(1e-6, profile[first - 1]! - profile[first]!)
  const to = last + (level - profile[last]!) / Math.max(1e-6, profile[last + 1]! - profile[last]!)
  const low = Math.max(from, first - 1)
  const high = Math.min(to, last + 1)
  return {
    rule,
    along,
    place: expected + ((low + high) / 2 - middle) / STEPS,
    depth: deepest / Math.max(paper, 20),
    width: (high - low) / STEPS,
    ...edge,
  }
}

/** Steps between the two places whose difference is the slope of an edge. */
const EDGE_SPAN = 2

function sharpestStep(
  profile: Float64Array,
  count: number,
  flank: number,
  half: number,
  expected: number,
): { edgePlace: number; edgeStep: number } {
  const slope = (k: number) => Math.abs(profile[k + EDGE_SPAN]! - profile[k - EDGE_SPAN]!)
  let best = flank
  for (let k = flank; k < count - flank; k++) if (slope(k) > slope(best)) best = k
  const before = mean(profile, best - flank, best - EDGE_SPAN)
  const after = mean(profile, best + EDGE_SPAN, best + flank)
  return {
    edgePlace: expected + (best - half - flank) / STEPS,
    edgeStep: Math.abs(before - after) / Math.max(before, after, 20),
  }
}

function mean(profile: Float64Array, from: number, to: number): number {
  let sum = 0
  for (let k = from; k <= to; k++) sum += profile[k]!
  return sum / (to - from + 1)
}
