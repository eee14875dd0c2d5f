import type { GrayImage, Point } from '../image.js'
import { followRule, STRAY } from './follow-rule.js'
import type { GridMap } from './grid-map.js'
import { biweight, LeastSquares } from './least-squares.js'
import type { Axis, RuleKind, RuleReading } from './rule-readings.js'
import { type FieldSample, SmoothField } from './smooth-field.js'

/** The rules of a grid as they run on the picture, and how well each was seen. */
export interface RefinedGrid {
  /** (rows + 1) × (columns + 1) crossings, row by row. */
  readonly points: Point[]
  /** For each rule across, then each rule down: share of its places (inside the picture) where it was seen. */
  readonly across: readonly RuleSupport[]
  readonly down: readonly RuleSupport[]
}

export interface RuleSupport {
  readonly kind: RuleKind
  /** 0..1 over the places inside the picture; 0 when none is. */
  readonly share: number
  /** Share of its places that lie inside the picture. */
  readonly inside: number
  /** Darkness × width, averaged over the places where it was seen: tells thick rules from thin ones. */
  readonly weight: number
}

/** How well rules were seen on the whole. */
export function meanShare(rules: readonly RuleSupport[]): number {
  return rules.reduce((sum, { share }) => sum + share, 0) / Math.max(1, rules.length)
}

/** Where along each cell's side a rule is looked at: away from the crossings, where two rules mix. */
const PLACES = [0.18, 0.34, 0.5, 0.66, 0.82] as const
const BEND_DEGREE = 4

/**
 * How far from its place a rule is looked for, and how far off readings may be that the fields are fitted to, in cells.
 */
interface Pass {
  readonly reach: number
  readonly reaches: readonly [number, number]
}

const PASSES: readonly Pass[] = [
  { reach: 0.25, reaches: [0.2, 0.1] },
  { reach: 0.14, reaches: [0.1, 0.06] },
]
/** Where the map is good already. */
export const LAST_PASS = PASSES.slice(1)

/**
 * Runs along every rule, finds the middle of its dark line at five places a cell, and fits curves to them: first two
 * smooth fields shared by all rules (a page bends as a whole), then for each rule a small cubic of its own (printed
 * boxes may stand apart, frames are thick). A crossing is where its two curves meet. Sub-pixel, because each curve
 * rests on some forty readings.
 */
export function refineGrid(
  image: GrayImage,
  map: GridMap,
  columns: number,
  rows: number,
  passes: readonly Pass[] = PASSES,
): RefinedGrid {
  let { du, dv } = map
  const { plane, extent } = map
  let across: SeenRule[] = []
  let down: SeenRule[] = []
  for (const { reach, reaches } of passes) {
    across = readAll(image, plane, 'across', rows, columns, dv, reach)
    down = readAll(image, plane, 'down', columns, rows, du, reach)
    dv = SmoothField.fit(extent, BEND_DEGREE, samplesOf(across, 'across'), dv, reaches)
    du = SmoothField.fit(extent, BEND_DEGREE, samplesOf(down, 'down'), du, reaches)
  }
  const acrossCurves = across.map(
    ({ readings }, rule) => new RuleCurve(dv, 'across', rule, columns, readings),
  )
  const downCurves = down.map(({ readings }, rule) => new RuleCurve(du, 'down', rule, rows, readings))
  const points: Point[] = []
  for (const curveAcross of acrossCurves) {
    for (const [column, curveDown] of downCurves.entries()) {
      let u = column
      let v = curveAcross.at(u)
      for (let k = 0; k < 3; k++) {
        u = curveDown.at(v)
        v = curveAcross.at(u)
      }
      points.push(plane.apply(u, v))
    }
  }
  return {
    points,
    across: acrossCurves.map((curve, rule) => support(across[rule]!, curve, columns * PLACES.length)),
    down: downCurves.map((curve, rule) => support(down[rule]!, curve, rows * PLACES.length)),
  }
}

/** A rule as it was read. */
interface SeenRule {
  readonly kind: RuleKind
  /** How many of its places lie inside the picture. */
  readonly inside: number
  /** Where it was seen. */
  readonly readings: readonly RuleReading[]
}

function readAll(
  image: GrayImage,
  plane: GridMap['plane'],
  axis: Axis,
  lastRule: number,
  length: number,
  field: SmoothField,
  reach: number,
): SeenRule[] {
  const places: number[] = []
  for (let cell = 0; cell < length; cell++) for (const t of PLACES) places.push(cell + t)
  const core = { start: 0, end: places.length }
  return Array.from({ length: lastRule + 1 }, (_, rule) => {
    const expected = (along: number) => strayed(field, axis, rule, along)
    const { kind, inside, readings } = followRule(image, plane, { axis, rule, places, core, expected, reach })
    return {
      kind,
      inside: inside.filter(Boolean).length,
      readings: readings.filter((reading) => reading !== undefined),
    }
  })
}

/** Where a rule of a field runs, at a place along it. */
function strayed(field: SmoothField, axis: Axis, rule: number, along: number): number {
  return rule + (axis === 'across' ? field.at(along, rule) : field.at(rule, along))
}

/**
 * What looks like an outermost rule may be one of a double frame or the rim of a title bar; the inner rules know better
 * where it should be.
 */
const OUTERMOST_TRUST = 0.1

function samplesOf(rules: readonly SeenRule[], axis: Axis): FieldSample[] {
  const samples: FieldSample[] = []
  for (let rule = 0; rule < rules.length; rule++) {
    const part = rule === 0 || rule === rules.length - 1 ? OUTERMOST_TRUST : 1
    for (const reading of rules[rule]!.readings) {
      const { along, place } = reading
      const [u, v] = axis === 'across' ? [along, rule] : [rule, along]
      samples.push({ u, v, value: place - rule, weight: trust(reading) * part })
    }
  }
  return samples
}

/** Faint dips say little, and past a quarter of the paper's brightness more darkness says no more. */
function trust({ depth }: RuleReading): number {
  return Math.min(1, depth / 0.25)
}

/** The course of one rule: what all rules share, and a small cubic of its own. */
class RuleCurve {
  private own: Float64Array = new Float64Array(4)

  constructor(
    private readonly field: SmoothField,
    private readonly axis: Axis,
    private readonly rule: number,
    private readonly length: number,
    readings: readonly RuleReading[],
  ) {
    for (const reach of [0.12, 0.07, 0.05]) {
      ownSystem.clear()
      for (const reading of readings) {
        const weight = trust(reading) * biweight(reading.place - this.at(reading.along), reach)
        if (weight === 0) continue
        // `at` has written the terms of this place into `cubic`
        ownSystem.add(cubic, reading.place - strayed(field, axis, rule, reading.along), weight)
      }
      this.own = ownSystem.solve(OWN_PULL) ?? this.own
    }
  }

  at(along: number): number {
    const { own } = this
    fillCubic((2 * along) / this.length - 1)
    return (
      strayed(this.field, this.axis, this.rule, along) +
      own[0]! * cubic[0]! +
      own[1]! * cubic[1]! +
      own[2]! * cubic[2]! +
      own[3]! * cubic[3]!
    )
  }
}

/** A shift of the whole rule is common, a tilt less, a bend of one rule alone rare. */
const OWN_PULL = [0.8, 4, 16, 30] as const
const ownSystem = new LeastSquares(4)
const cubic = new Float64Array(4)

/** Chebyshev polynomials up to the third. */
function fillCubic(x: number): void {
  const c = x < -1 ? -1 : x > 1 ? 1 : x
  cubic[0] = 1
  cubic[1] = c
  cubic[2] = 2 * c * c - 1
  cubic[3] = 4 * c * c * c - 3 * c
}

function support({ kind, inside, readings }: SeenRule, curve: RuleCurve, wanted: number): RuleSupport {
  let seen = 0
  let ink = 0
  for (const reading of readings) {
    if (Math.abs(reading.place - curve.at(reading.along)) > STRAY) continue
    seen++
    ink += reading.depth * reading.width
  }
  return {
    kind,
    share: inside === 0 ? 0 : seen / inside,
    inside: inside / wanted,
    weight: seen === 0 ? 0 : ink / seen,
  }
}
