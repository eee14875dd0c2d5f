import { seededRandom } from '../../src/grid/random.js'

/** Ranks from 1, equal values sharing the mean of theirs. */
export function ranks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!)
  const ranked = new Array<number>(values.length)
  for (let from = 0; from < order.length; ) {
    let to = from
    while (to < order.length && values[order[to]!] === values[order[from]!]) to++
    for (let i = from; i < to; i++) ranked[order[i]!] = (from + to + 1) / 2
    from = to
  }
  return ranked
}

/** Spearman's rank correlation: that of Pearson, of the ranks. */
export function spearman(a: readonly number[], b: readonly number[]): number {
  return pearson(ranks(a), ranks(b))
}

export function pearson(a: readonly number[], b: readonly number[]): number {
  const n = a.length
  const meanA = a.reduce((sum, x) => sum + x, 0) / n
  const meanB = b.reduce((sum, x) => sum + x, 0) / n
  let ab = 0
  let aa = 0
  let bb = 0
  for (let i = 0; i < n; i++) {
    const x = a[i]! - meanA
    const y = b[i]! - meanB
    ab += x * y
    aa += x * x
    bb += y * y
  }
  return ab / Math.sqrt(aa * bb)
}

/** A 95 % interval of Spearman's rho: the middle of 2,000 samples drawn with repetition. */
export function spearmanInterval(a: readonly number[], b: readonly number[]): [number, number] {
  const random = seededRandom(17)
  const draws = Array.from({ length: 2000 }, () => {
    const picked = a.map(() => Math.floor(random() * a.length))
    return spearman(
      picked.map((i) => a[i]!),
      picked.map((i) => b[i]!),
    )
  }).sort((x, y) => x - y)
  return [draws[50]!, draws[1949]!]
}
