import type { GrayImage, Point } from '../image.js'
import { followRule, STRAY } from './follow-rule.js'
import type { GridMap } from './grid-map.js'
import { biweight, LeastSquares } from './least-squares.js'
import type { Axis, RuleKind, RuleReading } from './rule-readings.js'
import { SmoothField } from './smooth-field.js'

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

/** Where along each cell's side a rule is looked at: away from the crossings, where two rules mix. */
const PLACES = [0.18, 0.34, 0.5, 0.66, 0.82] as const
const BEND_DEGREE = 4

/**
 * Runs along every rule, finds the middle of its dark line at five places a cell, and fits curves to them: first two smooth
 * fields shared by all rules (a page bends as a whole), then for each rule a small cubic of its own (printed boxes may
 * stand apart, frames are thick). A crossing is where its two curves meet. Sub-pixel, because each curve rests on some
 * forty readings.
 */
export function refineGrid(image: GrayImage, map: GridMap, columns: number, rows: number): RefinedGrid {
  let { du, dv } = map
  const { plane, extent } = map
  // What looks like an outermost rule may be one of a double frame or the rim of a title bar; the inner rules know better where it should be.
  const part = (rule: number, last: number) => (rule === 0 || rule === last ? 0.1 : 1)
  let across: SeenRule[] = []
  let down: SeenRule[] = []
  for (const [reach, reaches] of [
    [0.25, [0.2, 0.1]],
    [0.14, [0.1, 0.06]],
  ] as const) {
    across = readAll(image, plane, 'across', rows, columns, (along, rule) => rule + dv.at(along, rule), reach)
    down = readAll(image, plane, 'down', columns, rows, (along, rule) => rule + du.at(rule, along), reach)
    dv = SmoothField.fit(
      extent,
      BEND_DEGREE,
      across
        .flatMap(({ readings }) => readings)
        .map((r) => ({
          u: r.along,
          v: r.rule,
          value: r.place - r.rule,
          weight: trust(r) * part(r.rule, rows),
        })),
      dv,
      reaches,
    )
    du = SmoothField.fit(
      extent,
      BEND_DEGREE,
      down
        .flatMap(({ readings }) => readings)
        .map((r) => ({
          u: r.rule,
          v: r.along,
          value: r.place - r.rule,
          weight: trust(r) * part(r.rule, columns),
        })),
      du,
      reaches,
    )
  }
  const acrossCurves = across.map(({ readings }, rule) =>
    ownCurve(readings, columns, (along) => rule + dv.at(along, rule)),
  )
  const downCurves = down.map(({ readings }, rule) =>
    ownCurve(readings, rows, (along) => rule + du.at(rule, along)),
  )
  const points: Point[] = []
  for (const curveAcross of acrossCurves) {
    for (const curveDown of downCurves) {
      let u = downCurves.indexOf(curveDown)
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
  course: (along: number, rule: number) => number,
  reach: number,
): SeenRule[] {
  const places: number[] = []
  for (let cell = 0; cell < length; cell++) for (const t of PLACES) places.push(cell + t)
  return Array.from({ length: lastRule + 1 }, (_, rule) => {
    const core = { start: 0, end: places.length }
    const expected = (along: number) => course(along, rule)
    const { kind, inside, readings } = followRule(image, plane, { axis, rule, places, core, expected, reach })
    return {
      kind,
      inside: inside.filter(Boolean).length,
      readings: readings.filter((reading) => reading !== undefined),
    }
  })
}

/** Faint dips say little, and past a quarter of the paper's brightness more darkness says no more. */
function trust({ depth }: RuleReading): number {
  return Math.min(1, depth / 0.25)
}

interface RuleCurve {
  at(along: number): number
}

function ownCurve(
  readings: readonly RuleReading[],
  length: number,
  shared: (along: number) => number,
): RuleCurve {
  let own: Float64Array = new Float64Array(4)
  const at = (along: number) => {
    const t = cubicTerms((2 * along) / length - 1)
    return shared(along) + own[0]! * t[0] + own[1]! * t[1] + own[2]! * t[2] + own[3]! * t[3]
  }
  for (const reach of [0.12, 0.07, 0.05]) {
    const system = new LeastSquares(4)
    for (const reading of readings) {
      const residual = reading.place - at(reading.along)
      const weight = trust(reading) * biweight(residual, reach)
      if (weight > 0)
        system.add(
          cubicTerms((2 * reading.along) / length - 1),
          reading.place - shared(reading.along),
          weight,
        )
    }
    // A shift of the whole rule is common, a tilt less, a bend of one rule alone rare.
    own = system.solve([0.2, 1, 2, 2]) ?? own
  }
  return { at }
}

function cubicTerms(x: number): [number, number, number, number] {
  const c = x < -1 ? -1 : x > 1 ? 1 : x
  return [1, c, 2 * c * c - 1, 4 * c * c * c - 3 * c]
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
