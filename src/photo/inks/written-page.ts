import type { CellScores } from '../digits/digit-reader.js'

/** Handwriting to print among the figures that the reader learnt from: what its chances take for granted. */
const LEARNT_ODDS = 0.25
/** No single figure tells more than this either way. */
const SUREST = 0.995
/** Shares of a page's figures that may be written by hand. */
const SHARES = [0.03, 0.06, 0.12, 0.25, 0.5, 0.75, 0.95] as const
/** Nats that all figures together must speak for a page with handwriting: few pages that are photographed have any. */
const MUST_SPEAK = 4
/**
 * A typeface that the reader does not know, or a blurred picture, makes all figures look a little like handwriting.
 * What is seen in this share of them, those that look least so, is the page's own and taken off the others, up to so
 * many nats: somebody may have written more than a solver usually has. (Drawn pages: of 402 printed ones that are hard
 * to read 3 instead of 11 passed for written in, of 259 others none instead of 2, of 180 half-solved ones all as
 * before.)
 */
const LEAST_LIKE_A_HAND = 0.3
const MOST_OF_THE_PAGE = 4
/** More likely a figure than none. */
const FIGURE = 0.5

/**
 * Has somebody written in this page? A reader that sees one figure at a time takes a typeface it does not know, or
 * blurred print, for handwriting now and then, but then hardly ever surely, and not in many cells. All figures are
 * weighed together: the likelihood of a page on which the most fitting share of figures is written, against one without
 * any.
 */
export function isWrittenIn(scores: readonly CellScores[]): boolean {
  const figures = scores.filter(({ digits }) => digits[0]! <= FIGURE)
  if (figures.length === 0) return false
  const nats = figures.map(natsForHand).sort((a, b) => a - b)
  const usual = nats[Math.floor(nats.length * LEAST_LIKE_A_HAND)]! - LEAST_NATS
  const ratios = nats.map((own) => Math.exp(own - Math.min(usual, MOST_OF_THE_PAGE)))
  const speaks = SHARES.map((share) =>
    ratios.reduce((sum, ratio) => sum + Math.log(1 - share + share * ratio), 0),
  )
  return Math.max(...speaks) > MUST_SPEAK
}

/** One in so many figures on pages that nobody seems to have written in is written all the same. */
const WRITTEN_ALONE = 200

/** How likely a figure is handwriting on a page on which nothing else is. */
export function writtenAlone(score: CellScores): number {
  const odds = Math.exp(natsForHand(score)) / WRITTEN_ALONE
  return odds / (1 + odds)
}

/** How much likelier the reader's word is for a written figure than for a printed one. */
function natsForHand({ handwritten }: Pick<CellScores, 'handwritten'>): number {
  const chance = Math.min(SUREST, Math.max(1 - SUREST, handwritten))
  return Math.log(chance / (1 - chance) / LEARNT_ODDS)
}

/** The least that it can say. */
const LEAST_NATS = natsForHand({ handwritten: 0 })
