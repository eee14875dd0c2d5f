import type { CellScores } from '../digits/digit-reader.js'

/** Handwriting to print among the figures that the reader learnt from: what its chances take for granted. */
const LEARNT_ODDS = 0.25
/** No single figure tells more than this either way. */
const SUREST = 0.995
/** Shares of a page's figures that may be written by hand. */
const SHARES = [0.03, 0.06, 0.12, 0.25, 0.5, 0.75, 0.95] as const
/** Nats that all figures together must speak for a page with handwriting: few pages that are photographed have any. */
const MUST_SPEAK = 3
/** More likely a figure than none. */
const FIGURE = 0.5

/**
 * Has somebody written in this page? A reader that sees one figure at a time takes a typeface it does not know, or blurred print,
 * for handwriting now and then, but then hardly ever surely, and not in many cells. All figures are weighed together: the
 * likelihood of a page on which the most fitting share of figures is written, against one without any.
 */
export function isWrittenIn(scores: readonly CellScores[]): boolean {
  const ratios = scores.flatMap(({ digits, handwritten }) =>
    digits[0]! > FIGURE ? [] : [timesLikelier(handwritten)],
  )
  const nats = SHARES.map((share) =>
    ratios.reduce((sum, ratio) => sum + Math.log(1 - share + share * ratio), 0),
  )
  return Math.max(...nats) > MUST_SPEAK
}

/** One in so many figures on pages that nobody seems to have written in is written all the same. */
const WRITTEN_ALONE = 200

/** How likely a figure is handwriting on a page on which nothing else is. */
export function writtenAlone({ handwritten }: CellScores): number {
  const odds = timesLikelier(handwritten) / WRITTEN_ALONE
  return odds / (1 + odds)
}

/** How many times likelier the reader's word is for a written figure than for a printed one. */
function timesLikelier(handwritten: number): number {
  const chance = Math.min(SUREST, Math.max(1 - SUREST, handwritten))
  return chance / (1 - chance) / LEARNT_ODDS
}
