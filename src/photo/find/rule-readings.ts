import type { GrayImage } from '../image.js'
import { lineSamples } from '../raster/line-samples.js'
import type { Homography } from './homography.js'

/** Rules that run across the grid (`v` whole) or down it (`u` whole). */
export type Axis = 'across' | 'down'

/**
 * How a rule shows: as a line darker or lighter than the ground on both its sides, or only here and there as a line and
 * else as an edge between two grounds.
 */
export const RULE_KINDS = ['dark', 'light', 'mixed'] as const
export type RuleKind = (typeof RULE_KINDS)[number]

/** Something that may be a rule, seen at one place along it. */
export interface RuleReading {
  readonly rule: number
  /** Where along the rule, in cells. */
  readonly along: number
  /** Where across it the middle of the line (or the edge) is, in cells: near `rule`. */
  readonly place: number
  /**
   * How much the line stands out from the less different of its two sides, as a share of the lighter: 0 none, 1 black
   * on white.
   */
  readonly depth: number
  /** Width of the line, in cells. */
  readonly width: number
}

/**
 * A line that stands out by less than this share of the paper is not told apart from noise; where edges count too, more
 * is asked.
 */
export const FAINTEST: Readonly<Record<RuleKind, number>> = { dark: 0.015, light: 0.015, mixed: 0.05 }

/** Steps a cell is cut into when looking across a rule. */
const STEPS = 40
/** How far from a rule, in cells, paper is looked for. */
const FLANK = 0.2
const FLANK_STEPS = Math.round(FLANK * STEPS)
/**
 * A rule nearer to the picture's edge than this, in cells, shows no paper on one side and cannot be told apart from an
 * edge.
 */
const NEEDED_PAPER = 0.12
/** Neighbouring places along the rule that are averaged against noise, so many, and so far apart, in cells. */
const TAPS = 3
const TAP = 0.05
/** Half of the stretch, in cells, over which the directions along and across are measured. */
const AROUND = 0.05
/** Steps between the two places whose difference is the slope of an edge. */
const EDGE_SPAN = 2

/** Numbers that may be sampled past the last profile. */
const MORE = 4

let looks = 0

/**
 * How often a place was looked at since the program began: what finding takes most of its time for, so that a search
 * can be bounded.
 */
export function looksTaken(): number {
  return looks
}

/**
 * Looks across one rule at many places along it: first for the brightness there, then, as often as asked, for lines of
 * a kind. All numbers lie in arrays that are used again for the next rule, since a photo takes thousands of looks.
 */
export class RuleScan {
  /** Which places lie inside the picture, not so near its edge that one side is out of view: 1 or 0. */
  inside = new Uint8Array(0)
  /** What was seen at place `k` are the readings from `starts[k]` to before `starts[k + 1]`. */
  starts = new Int32Array(1)
  /** Of each reading: its place across, its depth and its width, as in `RuleReading`. */
  places = new Float64Array(0)
  depths = new Float64Array(0)
  widths = new Float64Array(0)

  private looked = 0
  private courses: ArrayLike<number> = []
  /** Steps of one profile. */
  private steps = 0
  private profiles = new Float32Array(0)
  private readonly inverted = new Float32Array(256)
  private readonly samples = lineSamples()
  private count = 0

  /**
   * @param along where along the rule to look, in cells
   * @param courses where the rule should be across at each of them, in cells
   * @param reach how far from there it may be, in cells
   */
  look(
    image: GrayImage,
    plane: Homography,
    axis: Axis,
    along: ArrayLike<number>,
    courses: ArrayLike<number>,
    reach: number,
  ): void {
    const half = Math.round(reach * STEPS)
    looks += along.length
    this.looked = along.length
    this.courses = courses
    this.steps = 2 * (half + FLANK_STEPS) + 1
    this.reserve(3 * (2 * half + 1))
    const all = along.length * this.steps
    this.samples.open([image], all + MORE)
    for (let k = 0; k < along.length; k++) {
      this.inside[k] = this.sample(image, plane, axis, along[k]!, courses[k]!, k * this.steps) ? 1 : 0
    }
    this.profiles.set(this.samples.numbers.subarray(0, all))
  }

  /**
   * Finds every line (or edge) of a kind at the places looked at. A dark line is darker than the ground on *both* its
   * sides, so the edge of a shaded cell is none.
   */
  read(kind: RuleKind): void {
    const { steps, starts, inverted } = this
    this.count = 0
    for (let k = 0; k < this.looked; k++) {
      starts[k] = this.count
      if (!this.inside[k]) continue
      const from = k * steps
      const course = this.courses[k]!
      if (kind !== 'light') this.darkLines(this.profiles, from, course, false, FAINTEST[kind])
      if (kind === 'dark') continue
      for (let i = 0; i < steps; i++) inverted[i] = 255 - this.profiles[from + i]!
      this.darkLines(inverted, 0, course, true, FAINTEST[kind])
      if (kind === 'mixed') this.edges(inverted, course, FAINTEST[kind])
    }
    starts[this.looked] = this.count
  }

  private reserve(readingsAPlace: number): void {
    const { looked, steps } = this
    if (this.inside.length < looked) {
      this.inside = new Uint8Array(looked)
      this.starts = new Int32Array(looked + 1)
    }
    if (this.profiles.length < looked * steps) this.profiles = new Float32Array(looked * steps)
    const most = looked * readingsAPlace
    if (this.places.length < most) {
      this.places = new Float64Array(most)
      this.depths = new Float64Array(most)
      this.widths = new Float64Array(most)
    }
  }

  /** Samples the profile that begins at `at`, the brightness across the rule; false when the place is out of view. */
  private sample(
    { width, height }: GrayImage,
    plane: Homography,
    axis: Axis,
    along: number,
    course: number,
    at: number,
  ): boolean {
    const across = axis === 'across'
    const e = AROUND
    const p = across ? plane.apply(along, course) : plane.apply(course, along)
    const before = across ? plane.apply(along, course - e) : plane.apply(course - e, along)
    const after = across ? plane.apply(along, course + e) : plane.apply(course + e, along)
    const back = across ? plane.apply(along - e, course) : plane.apply(course, along - e)
    const forth = across ? plane.apply(along + e, course) : plane.apply(course, along + e)
    const stepX = (after.x - before.x) / (2 * e * STEPS)
    const stepY = (after.y - before.y) / (2 * e * STEPS)
    const alongX = (forth.x - back.x) / (2 * e)
    const alongY = (forth.y - back.y) / (2 * e)
    const roomX = Math.abs(stepX) * STEPS * NEEDED_PAPER + 1
    const roomY = Math.abs(stepY) * STEPS * NEEDED_PAPER + 1
    if (!(p.x > roomX && p.x < width - roomX && p.y > roomY && p.y < height - roomY)) return false

    const { steps } = this
    const middle = steps >> 1
    this.samples.line(
      0,
      p.x - middle * stepX - 0.5,
      p.y - middle * stepY - 0.5,
      stepX,
      stepY,
      steps,
      TAPS,
      TAP * alongX,
      TAP * alongY,
      at,
    )
    return true
  }

  private report(course: number, offset: number, depth: number, width: number, faintest: number): void {
    if (depth < faintest) return
    const k = this.count++
    this.places[k] = course + (offset - (this.steps >> 1)) / STEPS
    this.depths[k] = depth
    this.widths[k] = width / STEPS
  }

  /** Every place of the profile from `start` on that is darker than its neighbourhood on both sides. */
  private darkLines(
    profile: Float32Array,
    start: number,
    course: number,
    inverted: boolean,
    faintest: number,
  ): void {
    const flank = FLANK_STEPS
    for (let k = start + flank, end = start + this.steps - flank; k < end; k++) {
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
      // The middle of what is darker than half way between paper and the line's darkest: symmetrical, so blur does not
      // shift it.
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
      this.report(course, (low + high) / 2 - start, deepest / Math.max(lightest, 20), high - low, faintest)
    }
  }

  /**
   * Every place where brightness changes more steeply than around it; the profile is inverted, so the lighter side is
   * the smaller.
   */
  private edges(profile: Float32Array, course: number, faintest: number): void {
    const flank = FLANK_STEPS
    for (let k = flank, end = this.steps - flank; k < end; k++) {
      const here = slope(profile, k)
      if (here < slope(profile, k - 1) || here <= slope(profile, k + 1)) continue
      const before = mean(profile, k - flank, k - EDGE_SPAN)
      const after = mean(profile, k + EDGE_SPAN, k + flank)
      const depth = Math.abs(before - after) / Math.max(255 - before, 255 - after, 20)
      this.report(course, k, depth, 0, faintest)
    }
  }
}

function slope(profile: Float32Array, k: number): number {
  return Math.abs(profile[k + EDGE_SPAN]! - profile[k - EDGE_SPAN]!)
}

function mean(profile: Float32Array, from: number, to: number): number {
  let sum = 0
  for (let k = from; k <= to; k++) sum += profile[k]!
  return sum / (to - from + 1)
}
