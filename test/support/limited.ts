import { expect } from 'vitest'
import { StoppedError } from '../../src/index.js'
import type { Limits } from '../../src/limits.js'

/** How a call ended: with an answer, or with the code of the error that stopped it. */
export type End = { readonly answer: unknown } | { readonly stopped: string }

export async function endOf(call: () => unknown): Promise<End> {
  try {
    return { answer: await call() }
  } catch (error) {
    if (error instanceof StoppedError) return { stopped: error.code }
    throw error
  }
}

/**
 * Longer than limits promise, since other programs run on the machine of a test; much shorter than the calls would
 * take.
 */
const PATIENCE = 1_500

/**
 * A call that would take many seconds stops at its time limit, and its asynchronous form on a signal that a timer
 * fires.
 *
 * @param isUnfinished what an answer in time looks like, for calls that answer in part; others must throw
 */
export async function expectToKeepLimits(
  now: (limits: Limits) => unknown,
  inSlices: (limits: Limits) => Promise<unknown>,
  isUnfinished?: (answer: unknown) => boolean,
): Promise<void> {
  const inTime = async (call: () => unknown): Promise<End> => {
    const begin = performance.now()
    const end = await endOf(call)
    expect(performance.now() - begin).toBeLessThan(PATIENCE)
    return end
  }
  for (const form of [now, inSlices]) {
    const end = await inTime(() => form({ timeLimit: 20 }))
    if ('answer' in end && isUnfinished) expect(end.answer).toSatisfy(isUnfinished)
    else expect(end).toEqual({ stopped: 'time-limit' })
    expect(await inTime(() => form({ signal: AbortSignal.abort() }))).toEqual({ stopped: 'aborted' })
  }
  const controller = new AbortController()
  setTimeout(() => controller.abort(), 20)
  expect(await inTime(() => inSlices({ signal: controller.signal }))).toEqual({ stopped: 'aborted' })
}
