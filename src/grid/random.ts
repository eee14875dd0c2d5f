import { argumentError } from '../check-arguments.js'
/** @throws InputError `argument` for what is no whole number: it would count as some seed or other without a word */
export function assertSeed(seed: unknown): void {
  if (!Number.isInteger(seed)) throw argumentError('seed', 'a whole number', seed)
}

/**
 * Numbers in [0, 1) that depend on the seed alone, for transforms and tests that must come back the same. One 32-bit
 * state stepped by a constant and scrambled by two multiplications (the finisher of MurmurHash3, public domain).
 *
 * @throws InputError `argument` for a seed that is no whole number
 */
export function seededRandom(seed: number): () => number {
  assertSeed(seed)
  let state = seed | 0
  return () => {
    state = (state + 0x9e3779b9) | 0
    let x = Math.imul(state ^ (state >>> 16), 0x85ebca6b)
    x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35)
    return ((x ^ (x >>> 16)) >>> 0) / 4294967296
  }
}

/** A new list in random order. */
export function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const list = [...items]
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1))
    const held = list[i]!
    list[i] = list[j]!
    list[j] = held
  }
  return list
}
