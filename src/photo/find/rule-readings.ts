import type { GrayImage } from '../image.js'
import type { Homography } from './homography.js'

/** Rules that run across the grid (`v` whole) or down it (`u` whole). */
export type Axis = 'across' | 'down'

/** How a rule shows: as a line darker or lighter than the ground on both its sides, or only here and there as a line and else as an edge between two grounds. */
export const RULE_KINDS = ['dark', 'light', 'mixed'] as const
export type RuleKind = (typeof RULE_KINDS)[number]

/** Something that may be a rule, seen at one place along it. */
export interface RuleReading {
  readonly rule: number
  /** Where along the rule, in cells. */
  readonly along: number
  /** Where across it the middle of the line (or the edge) is, in cells: near `rule`. */
  readonly place: number
  /** How much the line stands out from the less different of its two sides, as a share of the lighter: 0 none, 1 black on white. */
  readonly depth: number
  /** Width of the line, in cells. */
  readonly width: number
}

/** A line that stands out by less than this share of the paper is not told from noise; where edges count too, more is asked. */
export const FAINTEST: Readonly<Record<RuleKind, number>> = { dark: 0.015, light: 0.015, mixed: 0.05 }

/** Steps a cell is cut into when looking across a rule. */
const STEPS = 40
/** How far from a rule, in cells, paper is looked for. */
const FLANK = 0.2
/** A rule nearer to the picture's edge than this, in cells, shows no paper on one side and cannot be told from an edge. */
const NEEDED_PAPER = 0.12
/** Neighbouring places along the rule that are averaged against noise, in cells. */
const TAPS = [-0.05, 0, 0.05] as const

/**
 * Looks across a rule at one place for every line (or edge) within `reach` of where it is expected.
 * A dark line is darker than the ground on *both* its sides, so the edge of a shaded cell is none.
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
  kind: RuleKind,
): RuleReading[] | undefined {
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
  const found: RuleReading[] = []
  const report = (offset: number, depth: number, breadth: number) => {
    if (depth < FAINTEST[kind]) return
    found.push({ rule, along, place: expected + (offset - middle) / STEPS, depth, width: breadth / STEPS })
  }
  if (kind !== 'light') darkLines(profile, count, flank, false, report)
  if (kind !== 'dark') {
    for (let k = 0; k < count; k++) profile[k] = 255 - profile[k]!
    darkLines(profile, count, flank, true, report)
  }
  if (kind === 'mixed') steps(profile, count, flank, report)
  return found
}

let shared = new Float64Array(64)
function scratch(count: number): Float64Array {
  if (shared.length < count) shared = new Float64Array(count)
  return shared
}

/** Offset and width in steps. */
type Report = (offset: number, depth: number, width: number) => void

/** Every place darker than its neighbourhood on both sides. */
function darkLines(
  profile: Float64Array,
  count: number,
  flank: number,
  inverted: boolean,
  report: Report,
): void {
  for (let k = flank; k < count - flank; k++) {
    const here = profile[k]!
    if (here >= profile[k - 1]! || here > profile[k + 1]!) continue
    let left = here
    let right = here
    // up to where it gets darker again: another line begins there
    for (let d = 1; d <= flank && profile[k - d]! >= here; d++)
      if (profile[k - d]! > left) left = profile[k - d]!
    for (let d = 1; d <= flank && profile[k + d]! >= here; d++)
      if (profile[k + d]! > right) right = profile[k + d]!
    const paper = left < right ? left : right
    const deepest = paper - here
    if (deepest <= 0) continue
    // The middle of what is darker than half way between paper and the line's darkest: symmetrical, so blur does not shift it.
    const level = paper - deepest * 0.5
    let first = k
    while (first > k - flank && profile[first - 1]! < level) first--
    let last = k
    while (last < k + flank && profile[last + 1]! < level) last++
    const from = first - (level - profile[first]!) / Math.max(1e-6, profile[first - 1]! - profile[first]!)
    const to = last + (level - profile[last]!) / Math.max(1e-6, profile[last + 1]! - profile[last]!)
    const low = Math.max(from, first - 1)
    const high = Math.min(to, last + 1)
    const lightest = inverted ? 255 - here : paper
    report((low + high) / 2, deepest / Math.max(lightest, 20), high - low)
  }
}

/** Steps between the two places whose difference is the slope of an edge. */
const EDGE_SPAN = 2

/** Every place where brightness changes more steeply than around it. */
function steps(profile: Float64Array, count: number, flank: number, report: Report): void {
  const slope = (k: number) => Math.abs(profile[k + EDGE_SPAN]! - profile[k - EDGE_SPAN]!)
  for (let k = flank; k < count - flank; k++) {
    const here = slope(k)
    if (here < slope(k - 1) || here <= slope(k + 1)) continue
    const before = mean(profile, k - flank, k - EDGE_SPAN)
    const after = mean(profile, k + EDGE_SPAN, k + flank)
    // the profile is inverted here, so the lighter side is the smaller
    report(k, Math.abs(before - after) / Math.max(255 - before, 255 - after, 20), 0)
  }
}

function mean(profile: Float64Array, from: number, to: number): number {
  let sum = 0
  for (let k = from; k <= to; k++) sum += profile[k]!
  return sum / (to - from + 1)
}
