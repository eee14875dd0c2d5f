import { describe, expect, it } from 'vitest'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { findClashes } from '../../../src/grid/puzzle.js'
import { solutionCounter } from '../../../src/photo/decide/counter.js'
import { type CellOptions, cellOptions, settledCell } from '../../../src/photo/decide/options.js'
import { soundReadings } from '../../../src/photo/decide/search.js'

const FOUR = boxedGeometry(2, 2)
const PRINTED = [...'1000040000204003'].map(Number)

/** Sure of what is printed, but for these cells: a digit and the chance of another. */
function options(doubts: Readonly<Record<number, readonly [number, number, number]>> = {}): CellOptions[] {
  return PRINTED.map((digit, cell) => {
    const [first, other, chance] = doubts[cell] ?? [digit, digit, 0]
    const scores = [0, 0, 0, 0, 0]
    scores[other] = chance
    scores[first] = 1 - chance
    return cellOptions(scores, 4)
  })
}

/**
 * All that is found, the looks at the clock that it took, what was asked of the counter, and up to which cost it is
 * complete.
 */
function search(page: readonly CellOptions[], costLimit: number, budget = 1000) {
  const asked: number[][] = []
  const count = solutionCounter(FOUR)
  const readings = soundReadings(
    FOUR,
    page,
    (digits) => {
      asked.push(Array.from(digits))
      return count(digits)
    },
    { costLimit, budget },
  )
  const found: string[] = []
  for (let looks = 0; ; looks++) {
    const next = readings.next()
    if (next.done) return { found, looks, asked, complete: next.value }
    if (next.value) found.push(next.value.digits.join(''))
  }
}

// Which readings are found does not show in what order cells are varied, nor how small a contradiction is.
describe('the search for sound readings is as short as it was: readings found, looks, questions', () => {
  const cases: readonly [string, Record<number, [number, number, number]>, number, number, number][] = [
    ['nothing in doubt', {}, 1, 2, 1],
    ['two cells that may be empty', { 0: [0, 1, 0.2], 5: [4, 0, 0.3] }, 1, 8, 4],
    ['a digit that clashes', { 1: [1, 0, 0.3], 6: [2, 0, 0.4], 15: [4, 3, 0.2] }, 1, 5, 1],
    ['digits too many', { 2: [2, 0, 0.3], 3: [3, 0, 0.4], 8: [4, 0, 0.2], 13: [1, 0, 0.1] }, 0, 11, 7],
    ['one digit for another', { 5: [1, 4, 0.2], 10: [4, 2, 0.3], 12: [2, 4, 0.4] }, 2, 14, 9],
  ]
  it.each(cases)('%s', (_, doubts, found, looks, asked) => {
    const result = search(options(doubts), 4)
    expect([result.found.length, result.looks, result.asked.length]).toEqual([found, looks, asked])
  })
})

it('the counter is never asked about digits that clash', () => {
  const { asked } = search(options({ 1: [1, 0, 0.3], 6: [2, 0, 0.4], 15: [4, 3, 0.2] }), 4)
  expect(asked.length).toBeGreaterThan(0)
  for (const digits of asked) expect(findClashes(FOUR, digits)).toEqual([])
})

describe('what is complete', () => {
  it('is all up to the limit, the limit with it', () => {
    const page = options({ 0: [0, 1, 0.2] })
    const cost = page[0]!.costs[1]!
    const printed = PRINTED.join('')
    expect(search(page, cost)).toMatchObject({ found: expect.arrayContaining([printed]), complete: cost })
    expect(search(page, cost - 1e-9).found).not.toContain(printed)
  })

  it('is up to the cheapest that was left when the budget ended', () => {
    const page = options({ 0: [0, 1, 0.2], 5: [4, 0, 0.1] })
    expect(search(page, 5, 1).complete).toBeCloseTo(Math.log(4), 9)
    expect(search(page, 5, 2).complete).toBeCloseTo(Math.log(9), 9)
  })

  it('is all where nothing is left to vary', () => {
    expect(search(PRINTED.map(settledCell), 5, 1)).toMatchObject({
      found: [PRINTED.join('')],
      complete: 5,
    })
  })
})
