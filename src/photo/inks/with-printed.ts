import type { CellScores } from '../digits/digit-reader.js'

/** Keeps digits apart by their shares even where the reader sees no figure at all. */
const LEAST_SHARE = 1e-7

/**
 * Scores with another chance that the cell holds a printed figure; which digit it would be stays as the reader saw it.
 *
 * @param printed 0..1
 */
export function withPrinted({ digits }: CellScores, printed: number): CellScores {
  let most = 0
  for (let digit = 1; digit < digits.length; digit++) most = Math.max(most, digits[digit]!)
  const least = LEAST_SHARE * Math.max(most, LEAST_SHARE)
  const shares = digits.map((share, digit) => (digit === 0 ? 0 : Math.max(share, least)))
  const sum = shares.reduce((total, share) => total + share, 0)
  return {
    digits: shares.map((share, digit) => (digit === 0 ? 1 - printed : (share / sum) * printed)),
    handwritten: 1 - printed,
  }
}

/** What the reader, who sees a cell alone, makes of its print: a figure that a hand wrote is none. */
export function asPrint(score: CellScores): CellScores {
  const { digits, handwritten } = score
  return { ...withPrinted(score, (1 - digits[0]!) * (1 - handwritten)), handwritten }
}
