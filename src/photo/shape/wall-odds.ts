import { median } from '../median.js'
import type { SideWeights } from './side-weights.js'

/** The side between two neighbouring cells, and what its weight says of it. */
export interface InnerSide {
  readonly cells: readonly [number, number]
  /** Log odds of its being a heavy line, such as bounds a region; 0 where the picture does not show it. */
  readonly odds: number
}

/** Heavy lines are at least this many times as heavy as the others, or nothing tells them apart. */
const HEAVIER = 1.25
/** How far lines of one kind may differ at least, as a share of what the two kinds are apart. */
const LEAST_SPREAD = 0.12
/** One side tells no more than this: a figure or a fold may touch it. */
const MOST_TOLD = 8
/** The two kinds are this much farther apart than their own spreads added up; halves of one kind are by 1.3. */
const APART = 1.7
const ROUNDS = 8
/** From median absolute deviation to standard deviation, of a normal distribution. */
const DEVIATION = 1.4826

/**
 * How likely each side between two cells is a heavy line. Weights of both kinds are taken for normally distributed;
 * where the middles lie is found by going back and forth between them and their sides (k-means, k = 2). Undefined where
 * there are no two kinds.
 */
export function wallOdds(weights: SideWeights, order: number): InnerSide[] | undefined {
  const sides = innerSides(weights, order)
  const seen = sides.flatMap(({ weight }) => (Number.isNaN(weight) ? [] : [Math.abs(weight)]))
  if (seen.length < sides.length / 2) return undefined
  seen.sort((a, b) => a - b)
  let [light, heavy] = [seen[Math.floor(0.2 * seen.length)]!, seen[Math.floor(0.9 * seen.length)]!]
  for (let round = 0; round < ROUNDS; round++) {
    const between = (light + heavy) / 2
    const [lighter, heavier] = [seen.filter((w) => w <= between), seen.filter((w) => w > between)]
    if (lighter.length === 0 || heavier.length === 0) return undefined
    light = median(lighter)
    heavy = median(heavier)
  }
  if (heavy < HEAVIER * light) return undefined
  const between = (light + heavy) / 2
  const spread = (kind: readonly number[], middle: number) =>
    Math.max(LEAST_SPREAD * (heavy - light), DEVIATION * median(kind.map((w) => Math.abs(w - middle))))
  const [lightSpread, heavySpread] = [
    spread(
      seen.filter((w) => w <= between),
      light,
    ),
    spread(
      seen.filter((w) => w > between),
      heavy,
    ),
  ]
  if (heavy - light < APART * (lightSpread + heavySpread)) return undefined
  return sides.map(({ cells, weight }) => {
    if (Number.isNaN(weight)) return { cells, odds: 0 }
    const w = Math.max(light, Math.min(heavy, Math.abs(weight)))
    const odds = (((w - light) / lightSpread) ** 2 - ((w - heavy) / heavySpread) ** 2) / 2
    return { cells, odds: Math.max(-MOST_TOLD, Math.min(MOST_TOLD, odds)) }
  })
}

function innerSides({ across, down }: SideWeights, order: number) {
  const sides: { readonly cells: readonly [number, number]; readonly weight: number }[] = []
  for (let line = 1; line < order; line++) {
    for (let k = 0; k < order; k++) {
      sides.push({ cells: [(line - 1) * order + k, line * order + k], weight: across[line]![k]! })
      sides.push({ cells: [k * order + line - 1, k * order + line], weight: down[line]![k]! })
    }
  }
  return sides
}
