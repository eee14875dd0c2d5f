/**
 * What each cell could hold, cheapest first. The cost of an option is how much less likely the pixels make it than the
 * cell's own first choice: `ln(P(first) / P(option))`, in nats, so costs of independent cells add up.
 */
export interface CellOptions {
  /** 0 (no printed digit) or a digit, the pixels' first choice at index 0. */
  readonly digits: Uint8Array
  /** Costs in nats, ascending from 0. */
  readonly costs: Float64Array
}

/**
 * No reader is surer than this about a single cell: beyond it a score says more about the training than about the
 * print.
 */
const SMALLEST_PROBABILITY = 1e-6

/**
 * @param scores P(no printed digit), P(1), P(2), … for one cell; entries beyond `order` are dropped.
 */
export function cellOptions(scores: ArrayLike<number>, order: number): CellOptions {
  const kept = Array.from({ length: order + 1 }, (_, digit) => ({
    digit,
    probability: Math.max(scores[digit] ?? 0, SMALLEST_PROBABILITY),
  })).sort((a, b) => b.probability - a.probability || a.digit - b.digit)
  const best = kept[0]!.probability
  return {
    digits: Uint8Array.from(kept, (option) => option.digit),
    costs: Float64Array.from(kept, (option) => Math.log(best / option.probability)),
  }
}

/** The options of a cell that a person has settled: nothing else is possible. */
export function settledCell(digit: number): CellOptions {
  return { digits: Uint8Array.of(digit), costs: Float64Array.of(0) }
}
