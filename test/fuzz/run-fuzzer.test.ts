import { describe, expect, it } from 'vitest'
import { type Fuzzer, FuzzFault } from './fuzzer.js'
import { runFuzzer } from './run-fuzzer.js'

/** Says what numbers it was given; each case whose first number is below `faulty` is a fault. */
function numbers(name: string, faulty = 0): { fuzzer: Fuzzer; given: number[] } {
  const given: number[] = []
  const fuzzer: Fuzzer = {
    name,
    runCase: (random) => {
      const first = random()
      given.push(first)
      if (first < faulty) throw new FuzzFault(`met ${first}`)
      return { cases: 1, worst: first }
    },
  }
  return { fuzzer, given }
}
const cases = (count: number) => (progress: { case: number }) => progress.case >= count

describe('a fuzz run', () => {
  it('has the same cases for the same seed, and others for another seed or fuzzer', async () => {
    const runs = [numbers('one'), numbers('one'), numbers('one'), numbers('two')]
    const seeds = [7, 7, 8, 7]
    for (const [i, { fuzzer }] of runs.entries()) await runFuzzer(fuzzer, seeds[i]!, cases(20))
    const [first, same, ofAnotherSeed, ofAnotherFuzzer] = runs.map(({ given }) => given)
    expect(new Set(first).size).toBe(20)
    expect(same).toEqual(first)
    expect(ofAnotherSeed).not.toEqual(first)
    expect(ofAnotherFuzzer).not.toEqual(first)
  })

  it('can begin with any case', async () => {
    const { fuzzer, given } = numbers('one')
    await runFuzzer(fuzzer, 7, cases(20))
    const later = numbers('one')
    await runFuzzer(later.fuzzer, 7, cases(13), 12)
    expect(later.given).toEqual([given[12]])
  })

  it('adds up counts, and keeps the largest of those that begin with worst', async () => {
    const { fuzzer, given } = numbers('one')
    const report = await runFuzzer(fuzzer, 7, cases(20))
    expect(report).toMatchObject({ cases: 20, faults: 0, found: [] })
    expect(report.counts).toEqual({ cases: 20, worst: Math.max(...given) })
  })

  it('goes on after a fault, counts all of them and says where the first came up', async () => {
    const { fuzzer, given } = numbers('one', 0.5)
    const report = await runFuzzer(fuzzer, 7, cases(40))
    const at = [...given.keys()].filter((i) => given[i]! < 0.5)
    expect(at.length).toBeGreaterThan(5)
    expect(report.faults).toBe(at.length)
    expect(report.found).toEqual(at.slice(0, 5).map((i) => ({ case: i, message: `met ${given[i]}` })))
  })

  it('takes any other error for a fault, rejections among them', async () => {
    const fuzzer: Fuzzer = { name: 'broken', runCase: () => Promise.reject(new TypeError('no such thing')) }
    const { faults, found } = await runFuzzer(fuzzer, 1, cases(1))
    expect(faults).toBe(1)
    expect(found[0]!.message).toContain('no such thing')
  })
})
