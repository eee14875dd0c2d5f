import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../../src/grid/random.js'
import { textFuzzer } from '../../fuzz/text.js'

// A small part of `npm run fuzz -- text`, always the same: grids in many layouts, whole and damaged. What comes out is
// held to what was written by an oracle that does not ask the reader.
const TEXTS = 120

/** The first number decides on long hostile input, which is for the fuzzer alone. */
function withoutHostile(random: () => number): () => number {
  let isFirst = true
  return () => {
    if (!isFirst) return random()
    isFirst = false
    return 1
  }
}

describe('texts in many layouts, whole and damaged', () => {
  it('give the grids that were written, and errors', async () => {
    const sums: Record<string, number> = {}
    for (let seed = 0; seed < TEXTS; seed++) {
      const { worstMilliseconds, ...counts } = await textFuzzer.runCase(withoutHostile(seededRandom(seed)))
      for (const [name, count] of Object.entries(counts)) sums[name] = (sums[name] ?? 0) + count
    }
    // and hardly any that no damage came near is lost
    expect(sums.grids).toBeGreaterThan(180)
    expect(sums.lostNeighbours).toBeLessThanOrEqual(2)
    expect(sums.refusedSound).toBe(0)
  })
})
