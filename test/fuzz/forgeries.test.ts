import { describe, expect, it } from 'vitest'
import { forgeriesFuzzer } from './forgeries.js'
import { runFuzzer } from './run-fuzzer.js'

describe('forged steps', () => {
  it('are accepted only where what they say is true', async () => {
    const report = await runFuzzer(forgeriesFuzzer, 5, (progress) => progress.case >= 40)
    expect(report.found).toEqual([])
    // some of them are true after all, and these show that the judge is asked
    expect(report.counts.accepted).toBeGreaterThan(50)
    expect(report.counts.acceptedAssumingOneSolution).toBeGreaterThan(5)
  })
})
