import type { CellScores } from '../digits/digit-reader.js'

/** Keeps digits apart by their shares even where the reader took the figure for none at all. */
const LEAST_SHARE = 1e-7
/** What the reader takes for no print it has not learnt to tell digits of: their shares then differ by their roots only. */
const NOT_PRINT = 0.9

/**
 * Scores with another chance that the cell's figure is print; which digit it would be stays as the reader saw it.
 *
 * @param printed 0..1
 */
export function withPrinted({ digits }: CellScores, printed: number): CellScores {
  const trust = digits[0]! > NOT_PRINT ? 0.5 : 1
  const shares = digits.map((share, digit) => (digit === 0 ? 0 : Math.max(share, LEAST_SHARE) ** trust))
  const sum = shares.reduce((total, share) => total + share, 0)
  return {
    digits: shares.map((share, digit) => (digit === 0 ? 1 - printed : (share / sum) * printed)),
    handwritten: 1 - printed,
  }
}
