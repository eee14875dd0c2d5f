import { describe, expect, it } from 'vitest'
import { STANDARD } from '../../../src/grid/geometry.js'
import { solutionCounter } from '../../../src/photo/decide/counter.js'
import { decide, MARGIN_CAP, UNSOUND_PAGE_COST } from '../../../src/photo/decide/decide.js'
import { type CellOptions, settledCell } from '../../../src/photo/decide/options.js'
import { PRINTED } from '../evidence.js'

const count = solutionCounter(STANDARD)
const SETTLED = PRINTED.map((digit) => settledCell(digit))
const FILLED = PRINTED.flatMap((digit, cell) => (digit ? [cell] : []))
/** A given that the puzzle needs: without it there are several solutions. */
const NEEDED = FILLED.filter((cell) => count(PRINTED.with(cell, 0)) === 2)

const either = (first: number, second: number, cost: number): CellOptions => ({
  digits: Uint8Array.of(first, second),
  costs: Float64Array.of(0, cost),
})
/** All cells settled as printed but these. */
const withCells = (changes: Readonly<Record<number, CellOptions>>) =>
  SETTLED.map((settled, cell) => changes[cell] ?? settled)
const missed = (cell: number, cost: number) => ({ [cell]: either(0, PRINTED[cell]!, cost) })

describe('a page that is sound as the pixels have it', () => {
  it('has all the lead there is where no other reading is sound', () => {
    expect(decide(STANDARD, SETTLED, count)).toEqual({
      digits: Uint8Array.from(PRINTED),
      kind: 'sound',
      cost: 0,
      margin: MARGIN_CAP,
      runnerUp: undefined,
    })
  })

  it('leads the next sound reading by its cost, even beyond what an unsound page costs', () => {
    const blank = PRINTED.indexOf(0)
    const given = [1, 2, 3, 4, 5, 6, 7, 8, 9].find((digit) => count(PRINTED.with(blank, digit)) === 1)!
    for (const cost of [1.5, UNSOUND_PAGE_COST + 2]) {
      const decision = decide(STANDARD, withCells({ [blank]: either(0, given, cost) }), count)
      expect(decision).toMatchObject({ kind: 'sound', cost: 0, margin: cost })
      expect([...decision.runnerUp!]).toEqual(PRINTED.with(blank, given))
    }
  })
})

describe('a page that is sound only when cells are read otherwise', () => {
  it('leads the page as the pixels have it by what is left of the cost of an unsound page', () => {
    const decision = decide(STANDARD, withCells(missed(NEEDED[0]!, 3)), count)
    expect(decision).toEqual({
      digits: Uint8Array.from(PRINTED),
      kind: 'sound',
      cost: 3,
      margin: UNSOUND_PAGE_COST - 3,
      runnerUp: undefined,
    })
  })

  it('has no lead at that very cost', () => {
    const decision = decide(STANDARD, withCells(missed(NEEDED[0]!, UNSOUND_PAGE_COST)), count)
    expect(decision).toMatchObject({ kind: 'sound', cost: UNSOUND_PAGE_COST, margin: 0 })
  })

  it('may cost four nats more for each further cell, and is then never ahead', () => {
    const two = (cost: number) =>
      withCells({ ...missed(NEEDED[0]!, cost / 2), ...missed(NEEDED[1]!, cost / 2) })
    expect(decide(STANDARD, two(UNSOUND_PAGE_COST + 3), count)).toMatchObject({ kind: 'sound', margin: 0 })
    const refused = decide(STANDARD, two(UNSOUND_PAGE_COST + 5), count)
    expect(refused).toMatchObject({ kind: 'as-read', cost: 0, margin: 1 })
    expect([...refused.digits]).toEqual(PRINTED.with(NEEDED[0]!, 0).with(NEEDED[1]!, 0))
    expect([...refused.runnerUp!]).toEqual(PRINTED)
  })
})

describe('a page taken for unsound', () => {
  it('leads the repair by what it costs beyond an unsound page', () => {
    const decision = decide(STANDARD, withCells(missed(NEEDED[0]!, UNSOUND_PAGE_COST + 2)), count)
    expect(decision).toEqual({
      digits: Uint8Array.from(PRINTED.with(NEEDED[0]!, 0)),
      kind: 'as-read',
      cost: 0,
      margin: 2,
      runnerUp: Uint8Array.from(PRINTED),
    })
  })

  it('has all the lead there is where there is no repair', () => {
    const page = withCells({ [NEEDED[0]!]: settledCell(0) })
    expect(decide(STANDARD, page, count)).toMatchObject({
      kind: 'as-read',
      margin: MARGIN_CAP,
      runnerUp: undefined,
    })
  })

  it('leads what was not looked at by no more than the cheapest of it', () => {
    // the page itself is all that may be examined; its one repair costs nine nats
    const page = withCells(missed(NEEDED[0]!, UNSOUND_PAGE_COST + 2))
    expect(decide(STANDARD, page, count, 1)).toMatchObject({
      kind: 'as-read',
      margin: 2,
      runnerUp: undefined,
    })
    expect(decide(STANDARD, withCells(missed(NEEDED[0]!, 1)), count, 1)).toMatchObject({
      kind: 'as-read',
      margin: 0,
    })
  })
})

describe('two digits exchanged throughout', () => {
  /** Every 2 may be a 7 at these costs in turn, every 7 a 2; no page with only some of them exchanged is sound. */
  const twins = (twos: readonly number[], sevens: readonly number[], two = 2, seven = 7) => {
    const met = { two: 0, seven: 0 }
    return PRINTED.map((digit) => {
      if (digit === two) return either(two, seven, twos[met.two++ % twos.length]!)
      if (digit === seven) return either(seven, two, sevens[met.seven++ % sevens.length]!)
      return settledCell(digit)
    })
  }

  it('are told apart by the single most telling cell of either', () => {
    expect(decide(STANDARD, twins([2, 5, 3], [4, 1]), count).margin).toBe(5)
    expect(decide(STANDARD, twins([2, 3], [1, 6]), count).margin).toBe(6)
    // the lowest digit and the highest
    expect(decide(STANDARD, twins([2, 5, 3], [4, 1], 1, 9), count).margin).toBe(5)
  })

  it('are told apart by what the figures of either cost more than what they were read as', () => {
    // a 7 that was read as a 2 for the puzzle's sake speaks for the exchange
    const options = twins([2, 5, 3], [4, 4])
    options[PRINTED.indexOf(7)] = either(2, 7, 1)
    const decision = decide(STANDARD, options, count)
    expect(decision).toMatchObject({ cost: 1, margin: 5 })
    options[PRINTED.lastIndexOf(7)] = settledCell(7)
    for (const cell of PRINTED.flatMap((digit, i) => (digit === 2 ? [i] : [])))
      options[cell] = either(2, 7, 1)
    expect(decide(STANDARD, options, count)).toMatchObject({ cost: 1, margin: UNSOUND_PAGE_COST - 1 })
  })

  it('are no rivals where one cell can hold only one of them', () => {
    const options = twins([2], [3])
    options[PRINTED.indexOf(7)] = settledCell(7)
    expect(decide(STANDARD, options, count).margin).toBe(MARGIN_CAP)
  })
})
