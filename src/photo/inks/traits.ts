/** What figures of one page are compared by; the last one is how well a figure repeats a printed one of its digit. */
export const TRAITS = [
  'height',
  'x',
  'y',
  'stroke',
  'darkness',
  'redOverBlue',
  'greenOverRest',
  'lean',
  'likeness',
] as const

/** One value a trait, in the order of `TRAITS`; `undefined` where a figure has none. */
export type Traits = readonly (number | undefined)[]

/** Values of a trait lie around a middle with a spread, but for a few that something else has spoilt. */
export interface TraitModel {
  readonly middle: Float64Array
  readonly spread: Float64Array
}

/**
 * Usual spreads within one page, measured on drawn pages of training typefaces: figures of one typeface differ little
 * in all of this, those of one hand two to four times as much.
 */
export const PRINT_SPREADS = [0.02, 0.03, 0.02, 0.1, 0.13, 0.05, 0.04, 0.07, 0.05] as const
export const HAND_SPREADS = [0.08, 0.07, 0.05, 0.16, 0.22, 0.07, 0.05, 0.14, 0.12] as const
/** What is added in small cells, in pixels of the picture. */
const PIXEL_SPREADS = [0.5, 0.5, 0.5, 1.2, 0, 0, 0, 0, 0] as const
/** How far values can reach at all. */
const RANGES = [0.9, 0.8, 0.6, 1.5, 3, 1.2, 0.9, 1.2, 1] as const

/** Share of values that shadow, glare, dirt or a figure badly cut out have spoilt: they may lie anywhere. */
const SPOILT = 0.02
/** A page's own spread counts as much as the usual one when this many figures speak for it. */
const USUAL_WEIGHT = 8
/** A page's own spread stays within this many times the usual one. */
const WIDEST = 1.8
/** Density of Student's t with 5 degrees of freedom at 0: heavier tails than the normal law has. */
const T5_AT_ZERO = 0.3796
const LEAST_WEIGHT = 0.5

/** Usual spreads in cells of so many pixels a side. */
export function usualSpreads(shares: readonly number[], cellPixels: number): Float64Array {
  return Float64Array.from(shares, (share, trait) =>
    Math.hypot(share, PIXEL_SPREADS[trait]! / Math.max(10, cellPixels)),
  )
}

/** The middle (weighted median) and spread of each trait of figures that count as much as their weights say. */
export function fitTraits(
  figures: readonly Traits[],
  weights: ArrayLike<number>,
  usual: Float64Array,
): TraitModel {
  const middle = new Float64Array(TRAITS.length)
  const spread = Float64Array.from(usual)
  for (let trait = 0; trait < TRAITS.length; trait++) {
    const values: { value: number; weight: number }[] = []
    figures.forEach((figure, i) => {
      const value = figure[trait]
      if (value !== undefined) values.push({ value, weight: weights[i]! + 1e-6 })
    })
    if (values.length === 0) continue
    const total = values.reduce((sum, { weight }) => sum + weight, 0)
    middle[trait] = weightedMedian(values, total)
    if (total < LEAST_WEIGHT) continue
    const s0 = usual[trait]!
    const squares = values.reduce(
      (sum, { value, weight }) => sum + weight * Math.min((value - middle[trait]!) ** 2, 9 * s0 * s0),
      0,
    )
    const own = Math.sqrt((squares + USUAL_WEIGHT * s0 * s0) / (total + USUAL_WEIGHT))
    spread[trait] = Math.min(WIDEST * s0, own)
  }
  return { middle, spread }
}

function weightedMedian(values: { value: number; weight: number }[], total: number): number {
  values.sort((a, b) => a.value - b.value)
  let sum = 0
  for (const { value, weight } of values) {
    sum += weight
    if (sum >= total / 2) return value
  }
  return values.at(-1)!.value
}

/** Log of the density of a figure's traits, taken as independent. */
export function traitLogLikelihood(figure: Traits, { middle, spread }: TraitModel): number {
  let sum = 0
  figure.forEach((value, trait) => {
    if (value === undefined) return
    const z = (value - middle[trait]!) / spread[trait]!
    const density = T5_AT_ZERO / (1 + (z * z) / 5) ** 3 / spread[trait]!
    sum += Math.log((1 - SPOILT) * density + SPOILT / RANGES[trait]!)
  })
  return sum
}

/** The same where nothing is known of a figure's kind. */
export function anyTraitLogLikelihood(figure: Traits): number {
  return figure.reduce<number>(
    (sum, value, trait) => (value === undefined ? sum : sum - Math.log(RANGES[trait]!)),
    0,
  )
}
