import { afterEach, describe, expect, it, vi } from 'vitest'
import { StoppedError } from '../src/errors.js'
import { nextTurn, runInSlices, runNow, type Task, type Watch } from '../src/limits.js'

/** Turns of half a millisecond, for as long as the watch allows. */
function* busy(watch: Watch, milliseconds: number): Task<string> {
  for (const end = performance.now() + milliseconds; performance.now() < end; ) {
    for (const turn = performance.now() + 0.5; performance.now() < turn; );
    if (watch.isDue()) yield
  }
  return 'done'
}

const codeOf = async (work: () => unknown): Promise<string> => {
  try {
    await work()
  } catch (error) {
    if (error instanceof StoppedError) return error.code
    throw error
  }
  return 'none'
}

describe('a plain call', () => {
  it('runs to its end without a limit and within a long one', () => {
    expect(runNow({}, (watch) => busy(watch, 5))).toBe('done')
    expect(runNow({ timeLimit: 10_000 }, (watch) => busy(watch, 5))).toBe('done')
  })

  it('keeps its time limit', async () => {
    const begin = performance.now()
    expect(await codeOf(() => runNow({ timeLimit: 20 }, (watch) => busy(watch, 5000)))).toBe('time-limit')
    expect(performance.now() - begin).toBeLessThan(1000)
  })

  it('does not begin with a signal that has fired, nor with a limit that is none', async () => {
    let begun = false
    const begin = (watch: Watch): Task<string> => {
      begun = true
      return busy(watch, 1)
    }
    expect(await codeOf(() => runNow({ signal: AbortSignal.abort() }, begin))).toBe('aborted')
    expect(() => runNow({ timeLimit: -1 }, begin)).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(() => runNow({ timeLimit: Number.NaN }, begin)).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(begun).toBe(false)
  })
})

describe('a call in slices', () => {
  it('lets timers run, and comes to the same answer', async () => {
    let ticks = 0
    const timer = setInterval(() => ticks++, 5)
    expect(await runInSlices({}, (watch) => busy(watch, 200))).toBe('done')
    clearInterval(timer)
    expect(ticks).toBeGreaterThan(0)
  })

  it('stops on a timer, on a signal and at its time limit, and lets the task tidy up', async () => {
    let tidied = 0
    function* tidying(watch: Watch): Task<string> {
      try {
        return yield* busy(watch, 10_000)
      } finally {
        tidied++
      }
    }
    const begin = performance.now()
    expect(await codeOf(() => runInSlices({ signal: AbortSignal.timeout(30) }, tidying))).toBe('aborted')
    expect(await codeOf(() => runInSlices({ timeLimit: 30 }, tidying))).toBe('time-limit')
    expect(await codeOf(() => runInSlices({ signal: AbortSignal.abort() }, tidying))).toBe('aborted')
    expect(performance.now() - begin).toBeLessThan(2000)
    expect(tidied).toBe(2)
  })
})

describe('nextTurn', () => {
  afterEach(() => vi.unstubAllGlobals())

  it.each([
    ['setImmediate', []],
    ['MessageChannel', ['setImmediate']],
    ['setTimeout', ['setImmediate', 'MessageChannel']],
  ])('lets timers through by %s', async (_, missing) => {
    for (const name of missing) vi.stubGlobal(name, undefined)
    let fired = false
    setTimeout(() => {
      fired = true
    }, 2)
    const begin = performance.now()
    while (!fired && performance.now() - begin < 5000) await nextTurn()
    expect(fired).toBe(true)
  })
})
