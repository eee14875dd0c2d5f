import fc from 'fast-check'
import { expect, it } from 'vitest'
import { mapInOrder } from '../../src/batch/map-in-order.js'

const later = (turns: number) =>
  new Promise<void>((resolve) => {
    const turn = (left: number): void => void (left === 0 ? resolve() : setImmediate(() => turn(left - 1)))
    turn(turns)
  })

it('keeps the order however long each takes, and reads no further ahead than its width', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.nat({ max: 6 }), { maxLength: 30 }),
      fc.integer({ min: 1, max: 5 }),
      async (turns, width) => {
        let running = 0
        let most = 0
        const results: number[] = []
        const outcomes = mapInOrder([...turns.entries()], width, async ([index, wait]) => {
          most = Math.max(most, ++running)
          await later(wait)
          running--
          return index
        })
        for await (const index of outcomes) results.push(index)
        expect(results).toEqual(turns.map((_, index) => index))
        expect(most).toBeLessThanOrEqual(width)
      },
    ),
    { seed: 5, numRuns: 60 },
  )
})

it('does not start on an endless source before it is asked, and stops with the reader', async () => {
  let read = 0
  function* endless() {
    for (;;) yield read++
  }
  for await (const item of mapInOrder(endless(), 3, async (n) => n)) if (item === 4) break
  expect(read).toBeLessThan(12)
})

it('hands a rejection to the reader', async () => {
  const outcomes = mapInOrder([1, 2, 3], 3, async (n) => {
    if (n === 2) throw new Error('two')
    return n
  })
  expect((await outcomes.next()).value).toBe(1)
  await expect(outcomes.next()).rejects.toThrow('two')
})
