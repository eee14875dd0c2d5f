import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { concurrently, type Flow } from '../../../src/batch/threads/concurrently.js'

const later = (turns: number) =>
  new Promise<void>((resolve) => {
    const turn = (left: number): void => void (left === 0 ? resolve() : setImmediate(() => turn(left - 1)))
    turn(turns)
  })

const flow = <T>(how: Partial<Flow<T>>): Flow<T> => ({
  width: 3,
  room: 12,
  weigh: () => 1,
  isOrdered: true,
  ...how,
})

describe('concurrently', () => {
  it.each([true, false])(
    'keeps its bounds, loses nothing and doubles nothing; in order: %s',
    async (isOrdered) => {
      await fc.assert(
        fc.asyncProperty(
          fc.array(fc.nat({ max: 6 }), { maxLength: 40 }),
          fc.integer({ min: 1, max: 5 }),
          fc.integer({ min: 1, max: 20 }),
          async (turns, width, room) => {
            let running = 0
            let most = 0
            let begun = 0
            let mostHeld = 0
            const results: number[] = []
            const items = [...turns.entries()]
            for await (const index of concurrently(
              items,
              flow({ width, room, isOrdered }),
              async ([index, wait]) => {
                most = Math.max(most, ++running)
                mostHeld = Math.max(mostHeld, ++begun - results.length)
                await later(wait)
                running--
                return index
              },
            )) {
              results.push(index)
              if (index % 3 === 0) await later(2)
            }
            const all = turns.map((_, index) => index)
            expect(isOrdered ? results : [...results].sort((a, b) => a - b)).toEqual(all)
            expect(most).toBeLessThanOrEqual(width)
            // one is with the reader while the next is taken
            expect(mostHeld).toBeLessThanOrEqual(room + 1)
          },
        ),
        { seed: 5, numRuns: 80 },
      )
    },
  )

  it('gives work to everybody while the first item takes its time', async () => {
    let release: () => void = () => {}
    const slow = new Promise<void>((resolve) => {
      release = resolve
    })
    let done = 0
    const items = Array.from({ length: 50 }, (_, index) => index)
    const results = concurrently(items, flow({ width: 2, room: 100 }), async (index) => {
      if (index === 0) await slow
      else if (++done === items.length - 1) release()
      return index
    })
    const seen: number[] = []
    for await (const index of results) seen.push(index)
    expect(seen).toEqual(items)
  })

  it('hands out what is done first where no order is asked for', async () => {
    const results = concurrently([5, 0, 2], flow({ isOrdered: false }), async (turns) => {
      await later(turns)
      return turns
    })
    const seen: number[] = []
    for await (const turns of results) seen.push(turns)
    expect(seen).toEqual([0, 2, 5])
  })

  it('stops reading an endless source when it has no room, and with the reader', async () => {
    let read = 0
    let isClosed = false
    function* endless() {
      try {
        for (;;) yield read++
      } finally {
        isClosed = true
      }
    }
    for await (const item of concurrently(endless(), flow({}), async (n) => n)) {
      await later(30)
      expect(read).toBeLessThanOrEqual(item + 14)
      if (item === 20) break
    }
    expect(isClosed).toBe(true)
  })

  it('ends at once when the signal fires, while the source is silent and work goes on', async () => {
    const controller = new AbortController()
    async function* silent() {
      yield 1
      await new Promise(() => {})
    }
    setTimeout(() => controller.abort(), 20)
    const results = concurrently(silent(), flow({ signal: controller.signal }), () => new Promise(() => {}))
    expect((await results.next()).done).toBe(true)
  })

  it('hands a rejection, and what went wrong with the source, to the reader after what came before', async () => {
    const outcomes = concurrently([1, 2, 3], flow({}), async (n) => {
      if (n === 2) throw new Error('two')
      return n
    })
    expect((await outcomes.next()).value).toBe(1)
    await expect(outcomes.next()).rejects.toThrow('two')
    function* broken() {
      yield 1
      throw new Error('source')
    }
    const others = concurrently(broken(), flow({}), async (n) => n)
    expect((await others.next()).value).toBe(1)
    await expect(others.next()).rejects.toThrow('source')
  })
})
