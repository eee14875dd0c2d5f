import type { CellScores } from './digits/digit-reader.js'

/**
 * What the digit network takes a figure for that is upside down, in per cent: a row a digit as it reads upright, a
 * column a reading (0: none). Of 3,465 printed figures on drawn pages of training typefaces
 * (`fixtures/train/upside-down.ts`).
 */
const TURNED = [
  [0, 74, 12, 1, 1, 1, 7, 2, 3, 0],
  [0, 0, 43, 1, 0, 0, 8, 24, 24, 0],
  [0, 0, 5, 0, 0, 4, 11, 0, 77, 3],
  [0, 2, 0, 1, 11, 1, 6, 64, 2, 14],
  [0, 0, 0, 0, 0, 51, 0, 0, 1, 47],
  [0, 0, 0, 0, 0, 0, 0, 0, 0, 100],
  [1, 12, 30, 0, 57, 0, 1, 0, 0, 0],
  [0, 0, 0, 1, 0, 0, 0, 0, 97, 2],
  [0, 0, 0, 0, 0, 0, 100, 0, 0, 0],
] as const
/** What was never seen may still come about, in per cent. */
const UNSEEN = 1
/** A single figure tells no more than this, in nats: the figures of a typeface err together. */
const MOST_TOLD = 3
/** A reading less likely than this says nothing. */
const READ = 0.8

/**
 * Nats by which one figure, read as it is and upside down, speaks for being upright as it is. A 3 upside down
 * looks like an 8, an 8 upside down like an 8: so 3 one way and 8 the other is a 3.
 */
export function speaksForUpright(asItIs: CellScores, turned: CellScores): number {
  const here = readingOf(asItIs)
  const there = readingOf(turned)
  if (!here || !there || Math.max(here, there) > TURNED.length) return 0
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
