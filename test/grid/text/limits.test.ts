import { PassThrough } from 'node:stream'
import { describe, expect, it } from 'vitest'
import { StoppedError } from '../../../src/errors.js'
import { readBoards, readPuzzles } from '../../../src/grid/text/stream.js'

const A = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'

/** Milliseconds from now until the reading stops, and its error. */
async function stopped(
  entries: AsyncIterable<unknown>,
  onEntry: (count: number) => void = () => {},
): Promise<{ error: unknown; at: number; count: number }> {
  let count = 0
  try {
    for await (const _ of entries) onEntry(++count)
  } catch (error) {
    return { error, at: performance.now(), count }
  }
  throw new Error('The reading came to its end.')
}

describe.each([
  ['readPuzzles', readPuzzles],
  ['readBoards', readBoards],
])('%s', (_, read) => {
  it('stops on a silent pipe when the signal fires', async () => {
    const pipe = new PassThrough()
    pipe.write(`${A}\n${A}\n`)
    const controller = new AbortController()
    let fired = 0
    const fire = () => {
      fired = performance.now()
      controller.abort()
    }
    // once all is read that the pipe has
    const { error, at, count } = await stopped(read(pipe, { signal: controller.signal }), (count) => {
      if (count === 2) setTimeout(fire, 30)
    })
    expect(error).toBeInstanceOf(StoppedError)
    expect(error).toMatchObject({ code: 'aborted' })
    expect(count).toBe(2)
    // the promise is 100 ms; the machine of a test may be busy
    expect(at - fired).toBeLessThan(500)
    pipe.destroy()
  })

  it('stops on a silent pipe when the time is over', async () => {
    const pipe = new PassThrough()
    const { error } = await stopped(read(pipe, { timeLimit: 30 }))
    expect(error).toMatchObject({ code: 'time-limit' })
    pipe.destroy()
  })

  it('lets timers run in the midst of long input, so that a signal can fire', async () => {
    function* endless() {
      for (;;) yield `${A}\n`.repeat(50)
    }
    for (const input of [endless(), [`${A}\n`.repeat(200_000)], ['# words\n'.repeat(2_000_000)]]) {
      const controller = new AbortController()
      let fired = 0
      setTimeout(() => {
        fired = performance.now()
        controller.abort()
      }, 20)
      const { error, at } = await stopped(read(input, { signal: controller.signal }))
      expect(error).toMatchObject({ code: 'aborted' })
      expect(at - fired).toBeLessThan(500)
    }
  })

  it('does not begin with a signal that has fired', async () => {
    const { error, count } = await stopped(read([A], { signal: AbortSignal.abort() }))
    expect(error).toMatchObject({ code: 'aborted' })
    expect(count).toBe(0)
  })

  it('closes its source when the loop is left', async () => {
    let isClosed = false
    async function* source() {
      try {
        for (;;) yield `${A}\n`
      } finally {
        isClosed = true
      }
    }
    for await (const _ of read(source(), { timeLimit: 60_000 })) break
    expect(isClosed).toBe(true)
  })

  it('takes a time that grows with the number of bands that make no grid', async () => {
    const secondsFor = async (times: number) => {
      const from = process.cpuUsage()
      for await (const _ of read([' \n1234\n'.repeat(times), '[[1],'])) {
        // only the time matters
      }
      return process.cpuUsage(from).user
    }
    await secondsFor(1000)
    const [few, many] = [await secondsFor(2000), await secondsFor(16_000)]
    expect(many / few).toBeLessThan(30)
  })
})
