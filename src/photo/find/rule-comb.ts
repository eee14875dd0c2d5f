import type { GrayImage } from '../image.js'
import { type GridMap, mapOfMesh } from './grid-map.js'
import type { Homography } from './homography.js'
import { type LineStrips, lineStrips, STRIP_MARGIN, STRIP_STEPS } from './line-strips.js'
import type { MeshCell } from './mesh.js'

/**
 * Where all rules of one direction run, as one law: rule `k`, at `t` along it (-1 at its start, 1 at its end), lies at
 * `offset + pitch × k + spread × s² + (tilt + fan × s) × t + (bow + turn × s) × t²`, with `s` from -1 at the first rule
 * to 1 at the last. In cells of the plane that the grid was expected on: if that plane is a little off, its error is
 * mostly in offset, pitch, tilt, fan and spread; if the page bends, in bow and turn.
 */
interface Comb {
  readonly offset: number
  readonly pitch: number
  readonly spread: number
  readonly tilt: number
  readonly fan: number
  readonly bow: number
  readonly turn: number
}

interface FoundComb {
  readonly comb: Comb
  /** Mean depth of line on the rules above that of the whole strip. */
  readonly worth: number
}

/**
 * How the rules of a grid may show: above 0 as dark lines, below as light ones, 0 as no line (the edge of a coloured
 * ground).
 */
interface RuleSigns {
  readonly frame: number
  readonly boxes: number
  readonly fine: number
}

/** Rules between boxes are heavier, so they count more. */
const HEAVY = 2
const LOOKS: readonly RuleSigns[] = [
  { frame: HEAVY, boxes: HEAVY, fine: 1 },
  { frame: -HEAVY, boxes: -HEAVY, fine: -1 },
  { frame: 0, boxes: -HEAVY, fine: -1 },
  { frame: 0, boxes: -HEAVY, fine: 1 },
]

/**
 * Lays a comb of rules over what lines there are, both ways, near a plane on which a grid is expected: by how much all
 * rules together stand out, not one by one. Corrects a frame that was taken a cell too large (a title bar) and a page
 * that bends.
 *
 * @param boxed every so many rules one parts boxes
 */
export function combMap(
  image: GrayImage,
  plane: Homography,
  order: number,
  boxed: number,
): { readonly map: GridMap; readonly worth: number } | undefined {
  const across = levelled(softened(lineStrips(image, plane, 'across', order)))
  const down = levelled(softened(lineStrips(image, plane, 'down', order)))
  let best: { across: Comb; down: Comb } | undefined
  let most = 0
  for (const signs of LOOKS) {
    const weights = Array.from({ length: order + 1 }, (_, rule) =>
      rule === 0 || rule === order ? signs.frame : rule % boxed === 0 ? signs.boxes : signs.fine,
    )
    const acrossComb = refinedComb(across, weights, STRAIGHT)
    const downComb = refinedComb(down, weights, STRAIGHT)
    const worth = Math.min(acrossComb.worth, downComb.worth)
    if (worth <= most) continue
    most = worth
    best = { across: acrossComb.comb, down: downComb.comb }
  }
  const map = best && mapOfCombs(plane, best.across, best.down, order)
  return map && { map, worth: most }
}

function mapOfCombs(plane: Homography, across: Comb, down: Comb, order: number): GridMap | undefined {
  const cells: MeshCell[] = []
  for (let row = 0; row < order; row++) {
    for (let column = 0; column < order; column++) {
      // each coordinate bends along the other, so the crossing is approached from where both are straight
      let u = down.offset + down.pitch * (column + 0.5)
      let v = across.offset + across.pitch * (row + 0.5)
      for (let round = 0; round < 4; round++) {
        const nextU = placeOf(down, column + 0.5, v, order)
        v = placeOf(across, row + 0.5, u, order)
        u = nextU
      }
      cells.push({ column, row, centre: plane.apply(u, v) })
    }
  }
  return mapOfMesh(cells, { left: 0, top: 0, right: order, bottom: order })
}

function placeOf(comb: Comb, rule: number, along: number, order: number): number {
  const s = (2 * rule) / order - 1
  const t = (2 * along) / order - 1
  return (
    comb.offset +
    comb.pitch * rule +
    comb.spread * s * s +
    (comb.tilt + comb.fan * s) * t +
    (comb.bow + comb.turn * s) * t * t
  )
}

/** Steps of the refinement, halved each round. */
const FIRST_STEPS: Comb = {
  offset: 0.06,
  pitch: 0.015,
  spread: 0.06,
  tilt: 0.08,
  fan: 0.08,
  bow: 0.08,
  turn: 0.08,
}
const COMB_NAMES = Object.keys(FIRST_STEPS) as (keyof Comb)[]
const HALVINGS = 3
const STRAIGHT: Comb = { offset: 0, pitch: 1, spread: 0, tilt: 0, fan: 0, bow: 0, turn: 0 }

function refinedComb(lines: LineStrips, weights: readonly number[], start: Comb): FoundComb {
  let comb = start
  let worth = worthOf(lines, comb, weights)
  for (let halving = 0; halving < HALVINGS; halving++) {
    for (let better = true, round = 0; better && round < MOST_ROUNDS; round++) {
      better = false
      for (const name of COMB_NAMES) {
        for (const step of [FIRST_STEPS[name], -FIRST_STEPS[name]]) {
          const next = { ...comb, [name]: comb[name] + step * 0.5 ** halving }
          const value = worthOf(lines, next, weights)
          if (value <= worth) continue
          worth = value
          comb = next
          better = true
        }
      }
    }
  }
  return { comb, worth }
}

const MOST_ROUNDS = 6

/** Each value with its neighbours, so that a rule a twentieth of a cell beside the comb still counts. */
function softened({ strips, length }: LineStrips): LineStrips {
  return {
    length,
    strips: strips.map((strip) =>
      strip.map((value, k) => 0.5 * value + 0.25 * (strip[k - 1] ?? 0) + 0.25 * (strip[k + 1] ?? 0)),
    ),
  }
}

/** The middle of absolute values is this share of the standard deviation, for normal noise. */
const MEDIAN_SHARE = 0.6745
const LEAST_NOISE = 0.001

/**
 * Depths in units of noise, as the middle of all depths tells it (most places hold no print), on a scale on which ten
 * faint rules count more than one black bar, and yet a heavy rule more than a fine one.
 */
function levelled({ strips, length }: LineStrips): LineStrips {
  const sizes = new Float32Array(strips.length * length)
  strips.forEach((strip, k) => {
    for (let i = 0; i < length; i++) sizes[k * length + i] = Math.abs(strip[i]!)
  })
  sizes.sort()
  const noise = Math.max(LEAST_NOISE, sizes[sizes.length >> 1]! / MEDIAN_SHARE)
  return {
    length,
    strips: strips.map((strip) =>
      strip.map((depth) => Math.sign(depth) * Math.log1p(Math.abs(depth) / noise)),
    ),
  }
}

/** Mean over all sides of all rules, less the price of a bent comb. */
function worthOf({ strips, length }: LineStrips, comb: Comb, weights: readonly number[]): number {
  const cells = strips.length
  const order = weights.length - 1
  let worth = 0
  let total = 0
  for (let rule = -1; rule <= order + 1; rule++) {
    const beyond = rule < 0 || rule > order
    const weight = beyond ? BEYOND : weights[rule]!
    // what does not show as a line must be made up for by what does
    if (!beyond) total += (weight === 0 ? HEAVY : Math.abs(weight)) * cells
    if (weight === 0) continue
    const s = (2 * rule) / order - 1
    const start = comb.offset + comb.pitch * rule + comb.spread * s * s + STRIP_MARGIN
    const tilt = comb.tilt + comb.fan * s
    const bow = comb.bow + comb.turn * s
    let sum = 0
    for (let cell = 0; cell < cells; cell++) {
      const t = (2 * (cell + 0.5)) / order - 1
      const at = Math.round((start + (tilt + bow * t) * t) * STRIP_STEPS)
      if (at < 0 || at >= length) continue
      const depth = strips[cell]![at]!
      sum += beyond ? -Math.abs(depth) : depth
    }
    worth += weight * sum
  }
  return worth / total - priceOf(comb)
}

/** What shows one cell beyond the frame, where the next rule would run, speaks against the comb by this weight. */
const BEYOND = 1

/** Bends this large, in cells, cost `BEND_PRICE`: noise must not be allowed to bend a comb to its liking. */
const USUAL_BENDS = { spread: 0.12, tilt: 0.2, fan: 0.2, bow: 0.25, turn: 0.15 }
const BEND_PRICE = 0.05

function priceOf({ spread, tilt, fan, bow, turn }: Comb): number {
  const usual = USUAL_BENDS
  const bends =
    (spread / usual.spread) ** 2 +
    (tilt / usual.tilt) ** 2 +
    (fan / usual.fan) ** 2 +
    (bow / usual.bow) ** 2 +
    (turn / usual.turn) ** 2
  return BEND_PRICE * bends
}
