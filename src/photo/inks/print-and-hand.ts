import {
  anyTraitLogLikelihood,
  fitTraits,
  HAND_SPREADS,
  PRINT_SPREADS,
  TRAITS,
  type TraitModel,
  type Traits,
  traitLogLikelihood,
  usualSpreads,
} from './traits.js'

/** A figure of a page, for the comparison of all of them with each other. */
export interface PageFigure {
  /** All traits but likeness, in the order of `TRAITS`. */
  readonly traits: readonly number[]
  /** 0..1: how likely the reader, looking at this cell alone, makes it print. */
  readonly printed: number
  /** Much smaller than the page's print: a pencil mark, which tells nothing about the hand of full figures. */
  readonly small: boolean
}

/** What the comparison makes of a page. */
export interface PrintAndHand {
  /** figure -> log odds that it is print rather than written by hand. */
  readonly odds: readonly number[]
  /** Log likelihood of the page under the two kinds found. */
  readonly fit: number
}

/**
 * The reader's own verdict on a figure weighs this many nats at most: on drawn pages of training typefaces, of the
 * figures that it takes for print with less doubt than this, about one in two thousand is handwriting.
 */
const OWN_VERDICT = 8
const ROUNDS = 40
const STILL = 1e-3
/** Share of what is not print that is neither like the other handwriting: a pencil mark, a blot. */
const ODD_SHARE = 0.15
/**
 * Share of printed figures cut out badly, as where a shadow's edge crosses the cell: only their ink is to be trusted.
 */
const BADLY_CUT = 0.003
const INK_TRAITS = ['darkness', 'redOverBlue', 'greenOverRest'].map((name) =>
  TRAITS.indexOf(name as (typeof TRAITS)[number]),
)
/** Handwriting is a kind of its own from this many figures on. */
const LEAST_HAND = 1.5
/** A hand repeats a printed shape at least this much worse than print does. */
const LESS_ALIKE = 0.1
/** The reader takes a figure for print without a doubt. */
const SURE = 0.95
const LIKENESS = TRAITS.indexOf('likeness')

/**
 * Parts the figures of a page in two kinds: print, which repeats itself in size, place, stroke, ink and shape, and the
 * hand that filled in more, which repeats itself less. A mixture of the two is fitted by expectation and maximisation
 * (Dempster, Laird and Rubin, 1977) from several beginnings; the one that explains the page best stands.
 *
 * @param alike how well two figures of the same digit lie over each other; undefined for figures of different digits
 * @param cellPixels side of a cell on the picture
 */
export function partPrintAndHand(
  figures: readonly PageFigure[],
  alike: (one: number, other: number) => number | undefined,
  cellPixels: number,
): PrintAndHand {
  const prior = figures.map(({ printed }) => {
    const odds = Math.log((printed + 1e-6) / (1 - printed + 1e-6))
    return Math.max(-OWN_VERDICT, Math.min(OWN_VERDICT, odds))
  })
  const pairs = figures.map((_, one) =>
    figures.flatMap((_, other) => {
      const value = one === other ? undefined : alike(one, other)
      return value === undefined ? [] : [{ other, value }]
    }),
  )
  const spreads = {
    print: usualSpreads(PRINT_SPREADS, cellPixels),
    hand: usualSpreads(HAND_SPREADS, cellPixels),
  }
  const partings = beginnings(figures, prior, spreads.print).map((begin) =>
    settle(figures, prior, pairs, spreads, begin),
  )
  const believable = partings.filter(({ odds }) => keepsSurePrint(figures, odds))
  const [asRead] = partings
  return believable.reduce((best, parting) => (parting.fit > best.fit ? parting : best), asRead!)
}

/** The reader is not wrong about most of the figures that it takes for print without a doubt. */
function keepsSurePrint(figures: readonly PageFigure[], odds: readonly number[]): boolean {
  const sure = odds.filter((_, i) => figures[i]!.printed > SURE)
  return 2 * sure.filter((value) => value > 0).length >= sure.length
}

type Pairs = readonly (readonly { readonly other: number; readonly value: number }[])[]

function settle(
  figures: readonly PageFigure[],
  prior: readonly number[],
  pairs: Pairs,
  spreads: { readonly print: Float64Array; readonly hand: Float64Array },
  begin: readonly number[],
): PrintAndHand {
  let printed = Float64Array.from(begin)
  let odds: number[] = []
  let fit = Number.NEGATIVE_INFINITY
  for (let round = 0; round < ROUNDS; round++) {
    const share = printed
    const traits = figures.map((figure, i): Traits => [...figure.traits, bestLikeness(pairs[i]!, share)])
    const print = fitTraits(traits, share, spreads.print)
    const handWeights = figures.map(({ small }, i) => (small ? 0 : 1 - share[i]!))
    const hand = lessAlike(fitTraits(traits, handWeights, spreads.hand), print)
    const written = handWeights.reduce((sum, weight) => sum + weight, 0)
    const handShare = (written + 0.3) / (figures.length + 2)
    fit = 0
    odds = traits.map((figure, i) => {
      const anything = anyTraitLogLikelihood(figure)
      const likeHand = written < LEAST_HAND ? anything + 1 : traitLogLikelihood(figure, hand)
      const notPrint = logSum(likeHand + Math.log(1 - ODD_SHARE), anything + Math.log(ODD_SHARE))
      const asPrint = likePrint(figure, print) + Math.log(1 - handShare) - softLog(-prior[i]!)
      const asHand = notPrint + Math.log(handShare) - softLog(prior[i]!)
      fit += logSum(asPrint, asHand)
      return asPrint - asHand
    })
    const next = Float64Array.from(odds, (value) => 1 / (1 + Math.exp(-value)))
    const moved = next.reduce((most, value, i) => Math.max(most, Math.abs(value - share[i]!)), 0)
    // half steps at first, so that a hasty first parting does not fix the rest, and late, against going back and forth
    const half = round < 4 || round > ROUNDS / 2
    printed = half ? next.map((value, i) => (value + share[i]!) / 2) : next
    if (moved < STILL) break
  }
  return { odds, fit }
}

function likePrint(figure: Traits, print: TraitModel): number {
  const ink = figure.map((value, trait) => (INK_TRAITS.includes(trait) ? value : undefined))
  const shape = figure.map((value, trait) => (INK_TRAITS.includes(trait) ? undefined : value))
  return logSum(
    traitLogLikelihood(figure, print) + Math.log(1 - BADLY_CUT),
    traitLogLikelihood(ink, print) + anyTraitLogLikelihood(shape) + Math.log(BADLY_CUT),
  )
}

/** How well a figure lies over the most similar printed one of its digit. */
function bestLikeness(pairs: Pairs[number], printed: ArrayLike<number>): number | undefined {
  let best: number | undefined
  for (const { other, value } of pairs) {
    if (printed[other]! > 0.5 && (best === undefined || value > best)) best = value
  }
  return best
}

function lessAlike(hand: TraitModel, print: TraitModel): TraitModel {
  const middle = Float64Array.from(hand.middle)
  middle[LIKENESS] = Math.min(middle[LIKENESS]!, print.middle[LIKENESS]! - LESS_ALIKE)
  return { ...hand, middle }
}

/**
 * Shares of print to begin with: as the reader has it, the reader's sure ones, and the page parted in two by some
 * traits.
 */
function beginnings(
  figures: readonly PageFigure[],
  prior: readonly number[],
  spreads: Float64Array,
): number[][] {
  const asRead = prior.map((odds) => 1 / (1 + Math.exp(-odds)))
  const sure = figures.map(({ printed }) => (printed > SURE ? 0.98 : printed < 0.4 ? 0.02 : 0.3))
  const trait = (name: (typeof TRAITS)[number]) => TRAITS.indexOf(name)
  const bySome = [
    [trait('redOverBlue'), trait('greenOverRest')],
    [trait('darkness'), trait('redOverBlue'), trait('greenOverRest')],
    [trait('height')],
    [trait('stroke'), trait('darkness')],
  ].flatMap((traits) => {
    const places = figures.map((figure) => traits.map((at) => figure.traits[at]! / spreads[at]!))
    const first = partInTwo(places)
    if (!first) return []
    const begin = (print: boolean) =>
      first.map((is, i) => (is === print ? 0.95 : 0.05) * (asRead[i]! < 0.05 ? 0.1 : 1))
    return [begin(true), begin(false)]
  })
  return [asRead, sure, ...bySome]
}

/** Two means, begun from the two places farthest apart; undefined when all are one. */
export function partInTwo(places: readonly (readonly number[])[]): boolean[] | undefined {
  const apart = (a: readonly number[], b: readonly number[]) =>
    a.reduce((sum, value, k) => sum + (value - b[k]!) ** 2, 0)
  const farthest = (from: readonly number[]) =>
    places.reduce((best, place) => (apart(place, from) > apart(best, from) ? place : best))
  if (places.length < 2) return undefined
  let a = farthest(places[0]!)
  let b = farthest(a)
  for (let round = 0; ; round++) {
    const inA = places.map((place) => apart(place, a) <= apart(place, b))
    const ones = places.filter((_, i) => inA[i])
    const others = places.filter((_, i) => !inA[i])
    if (ones.length === 0 || others.length === 0) return undefined
    if (round === 12) return inA
    a = meanPlace(ones)
    b = meanPlace(others)
  }
}

function meanPlace(places: readonly (readonly number[])[]): number[] {
  return places[0]!.map((_, k) => places.reduce((sum, place) => sum + place[k]!, 0) / places.length)
}

function logSum(a: number, b: number): number {
  const most = Math.max(a, b)
  return most + Math.log(Math.exp(a - most) + Math.exp(b - most))
}

/** ln(1 + eˣ) */
function softLog(x: number): number {
  return x > 30 ? x : Math.log1p(Math.exp(x))
}
