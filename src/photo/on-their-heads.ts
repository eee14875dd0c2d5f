import type { CellScores } from './digits/digit-reader.js'

/**
 * What the digit network takes a figure for that stands on its head, in per cent: a row a digit as it reads upright, a column a
 * reading (0: none). Of 3,348 printed figures on drawn pages of training typefaces (`fixtures/train/on-their-heads.ts`).
 */
const TURNED = [
  [0, 85, 2, 1, 1, 1, 8, 3, 1, 0],
  [0, 0, 42, 11, 2, 0, 7, 23, 15, 0],
  [0, 0, 7, 0, 0, 3, 16, 0, 74, 1],
  [0, 1, 1, 0, 6, 1, 5, 61, 3, 24],
  [0, 0, 0, 0, 0, 54, 0, 0, 2, 45],
  [0, 0, 0, 0, 0, 0, 0, 0, 0, 100],
  [1, 13, 22, 0, 63, 0, 1, 0, 0, 0],
  [0, 0, 0, 0, 0, 0, 0, 0, 99, 1],
  [0, 0, 0, 0, 0, 0, 100, 0, 0, 0],
] as const
/** What was never seen may still come about, in per cent. */
const UNSEEN = 1
/** A single figure tells no more than this, in nats: the figures of a typeface err together. */
const MOST_TOLD = 3
/** A reading less likely than this says nothing. */
const READ = 0.8

/**
 * Nats by which one figure, read as it is and standing on its head, speaks for being upright as it is. A 3 on its head looks like an 8, an 8
 * on its head like an 8: so 3 one way and 8 the other is a 3.
 */
export function speaksForUpright(asItIs: CellScores, turned: CellScores): number {
  const here = readingOf(asItIs)
  const there = readingOf(turned)
  if (!here || !there) return 0
  const nats = Math.log((TURNED[here - 1]![there]! + UNSEEN) / (TURNED[there - 1]![here]! + UNSEEN))
  return Math.max(-MOST_TOLD, Math.min(MOST_TOLD, nats))
}

/** The digit that is read here, 0 for none or none surely. */
function readingOf({ digits }: CellScores): number {
  return Math.max(
    0,
    digits.findIndex((share) => share > READ),
  )
}
