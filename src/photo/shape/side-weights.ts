import { sourceFor } from '../cells/cell-patch.js'
import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { median } from '../median.js'
import { lineSamples } from '../raster/line-samples.js'

/**
 * How heavy the grid lines are, a cell's side at a time: darkness × width, in cells, above 0 for lines darker than
 * their ground and below for lighter ones. Blur widens a line and pales it as much, so it does not change this.
 */
export interface SideWeights {
  /** line (0: above the first row) -> column -> weight; not a number outside the picture. */
  readonly across: readonly (readonly number[])[]
  /** line (0: left of the first column) -> row -> weight. */
  readonly down: readonly (readonly number[])[]
}

/**
 * Where along a cell's side a line is looked at: away from the crossings, and from the middle, where figures come near.
 */
const PLACES = [0.12, 0.17, 0.22, 0.27, 0.73, 0.78, 0.83, 0.88] as const
/** Steps a cell is cut into when looking across a line. */
const STEPS = 40
/** A line lies within this, in cells, to both sides of its middle; ground is looked for from there on … */
const LINE = 7 / STEPS
/** … up to here. */
const GROUND = 10 / STEPS
const HALF = Math.round(GROUND * STEPS)
const LENGTH = 2 * HALF + 1
/** Numbers that may be sampled past the last profile. */
const MORE = 4
/** Neighbouring places along the line that are averaged against noise, so far apart, in cells. */
const TAPS = 3
const TAP = 0.03

export function sideWeights(gray: GrayImage, lattice: Lattice): SideWeights {
  const { copy, factor } = sourceFor(gray, lattice)
  const { order } = lattice
  const points = lattice.points.map(({ x, y }) => ({ x: x / factor, y: y / factor }))
  const at = (row: number, column: number) => points[row * (order + 1) + column]!
  const lines = Array.from({ length: order + 1 }, (_, k) => k)
  const cells = lines.slice(0, order)
  return {
    across: lines.map((line) => cells.map((cell) => sideWeight(copy, at(line, cell), at(line, cell + 1)))),
    down: lines.map((line) => cells.map((cell) => sideWeight(copy, at(cell, line), at(cell + 1, line)))),
  }
}

/** The middle one of the weights at all places, so that a figure that comes near does not count. */
function sideWeight(image: GrayImage, a: Point, b: Point): number {
  const { width, height } = image
  const along = { x: b.x - a.x, y: b.y - a.y }
  const step = { x: -along.y / STEPS, y: along.x / STEPS }
  const samples = lineSamples()
  samples.open([image], LENGTH + MORE)
  const weights: number[] = []
  for (const t of PLACES) {
    const middle = { x: a.x + t * along.x - 0.5, y: a.y + t * along.y - 0.5 }
    const [first, last] = [-HALF, HALF].map((k) => ({ x: middle.x + k * step.x, y: middle.y + k * step.y }))
    if (![first!, last!].every(({ x, y }) => x > 0 && y > 0 && x < width - 1 && y < height - 1)) continue
    samples.line(0, first!.x, first!.y, step.x, step.y, LENGTH, TAPS, TAP * along.x, TAP * along.y, 0)
    weights.push(inkOf(samples.numbers))
  }
  return weights.length === 0 ? Number.NaN : median(weights)
}

/** Least brightness that counts as ground. */
const LEAST_GROUND = 20

/** Darkness against the ground on both sides, added up over the width of the line. */
function inkOf(profile: Float32Array): number {
  const edge = HALF - Math.round(LINE * STEPS)
  const before = mean(profile, 0, edge)
  const after = mean(profile, LENGTH - edge, LENGTH)
  let ink = 0
  for (let k = edge; k < LENGTH - edge; k++) {
    const ground = before + ((after - before) * (k - edge + 0.5)) / (LENGTH - 2 * edge)
    ink += (ground - profile[k]!) / Math.max(before, after, LEAST_GROUND)
  }
  return ink / STEPS
}

function mean(numbers: Float32Array, from: number, to: number): number {
  let sum = 0
  for (let k = from; k < to; k++) sum += numbers[k]!
  return sum / (to - from)
}
