import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { findClashes } from '../../../src/grid/puzzle.js'
import { solutionCounter } from '../../../src/photo/decide/counter.js'
import { decide, UNSOUND_PAGE_COST } from '../../../src/photo/decide/decide.js'
import { type CellOptions, cellOptions, settledCell } from '../../../src/photo/decide/options.js'
import { soundReadings } from '../../../src/photo/decide/search.js'
import { PRINTED } from '../evidence.js'

function digits(line: string): number[] {
  return [...line].map(Number)
}

/** Scores that are sure of `digit`; `rival` takes its probability from it. */
function scores(digit: number, rivals: Record<number, number> = {}, order = 9): number[] {
  const taken = Object.values(rivals).reduce((sum, p) => sum + p, 0)
  return Array.from({ length: order + 1 }, (_, d) => rivals[d] ?? (d === digit ? 1 - taken : 0))
}

function optionsOf(line: readonly number[], changes: Record<number, CellOptions> = {}): CellOptions[] {
  return line.map((digit, cell) => changes[cell] ?? cellOptions(scores(digit), 9))
}

const count = solutionCounter(STANDARD)

describe('decide', () => {
  it('takes a sure page as it is, with a wide margin', () => {
    const decision = decide(STANDARD, optionsOf(PRINTED), count)
    expect(decision.kind).toBe('sound')
    expect([...decision.digits]).toEqual(PRINTED)
    expect(decision.cost).toBe(0)
    expect(decision.margin).toBeGreaterThan(5)
  })

  it('lets the puzzle overrule a doubtful cell', () => {
    // r1c3 is taken for an 8 at first sight, but column 3 has its 8 in r4c3
    const decision = decide(STANDARD, optionsOf(PRINTED, { 2: cellOptions(scores(8, { 3: 0.3 }), 9) }), count)
    expect([...decision.digits]).toEqual(PRINTED)
    expect(decision.cost).toBeCloseTo(Math.log(0.7 / 0.3), 6)
  })

  it('finds a missed digit because the page would otherwise have several solutions', () => {
    const missed = PRINTED.findIndex((digit, cell) => digit !== 0 && count(PRINTED.with(cell, 0)) === 2)
    const changes = { [missed]: cellOptions(scores(0, { [PRINTED[missed]!]: 0.1 }), 9) }
    const decision = decide(STANDARD, optionsOf(PRINTED, changes), count)
    expect([...decision.digits]).toEqual(PRINTED)
  })

  it('mends several doubtful cells at once', () => {
    const filled = PRINTED.flatMap((digit, cell) => (digit ? [cell] : []))
    const changes: Record<number, CellOptions> = {}
    for (const cell of filled.slice(0, 5)) {
      const wrong = (PRINTED[cell]! % 9) + 1
      changes[cell] = cellOptions(scores(wrong, { [PRINTED[cell]!]: 0.4 }), 9)
    }
    const decision = decide(STANDARD, optionsOf(PRINTED, changes), count)
    expect([...decision.digits]).toEqual(PRINTED)
  })

  it('mends many cells a little in doubt where a page with as many faults is less likely, but does not trust that', () => {
    const filled = PRINTED.flatMap((digit, cell) => (digit ? [cell] : []))
    const blurred = (cells: number, chance: number) => {
      const changes: Record<number, CellOptions> = {}
      for (const cell of filled.slice(0, cells)) {
        const wrong = (PRINTED[cell]! % 9) + 1
        changes[cell] = cellOptions(scores(wrong, { [PRINTED[cell]!]: chance }), 9)
      }
      return decide(STANDARD, optionsOf(PRINTED, changes), count)
    }
    const mended = blurred(6, 0.15)
    expect(mended.cost).toBeGreaterThan(UNSOUND_PAGE_COST)
    expect([...mended.digits]).toEqual(PRINTED)
    expect(mended.margin).toBe(0)
    // as dear in a single cell, it is the page that is at fault
    expect(blurred(1, Math.exp(-mended.cost)).kind).toBe('as-read')
  })

  it('never repairs a page that is itself unsound against clear print', () => {
    const cell = PRINTED.findIndex((digit) => digit !== 0)
    for (const digit of [0, ...Array.from({ length: 9 }, (_, i) => i + 1)]) {
      const misprint = PRINTED.with(cell, digit)
      if (findClashes(STANDARD, misprint).length === 0 && count(misprint) === 1) continue
      const decision = decide(STANDARD, optionsOf(misprint), count)
      expect(decision.kind).toBe('as-read')
      expect([...decision.digits]).toEqual(misprint)
    }
  })

  it('has no margin when all of one digit could as well be another', () => {
    // every 1 looks much like a 7 and every 7 much like a 1: the exchange is as sound as the page
    const options = PRINTED.map((digit) =>
      cellOptions(
        digit === 1 ? scores(1, { 7: 0.4 }) : digit === 7 ? scores(7, { 1: 0.4 }) : scores(digit),
        9,
      ),
    )
    expect(decide(STANDARD, options, count).margin).toBeLessThan(1)
  })

  it('leaves what a person has settled alone', () => {
    const cell = PRINTED.indexOf(0)
    const solutionDigit = Array.from({ length: 9 }, (_, i) => i + 1).find(
      (digit) => count(PRINTED.with(cell, digit)) === 1,
    )!
    const decision = decide(STANDARD, optionsOf(PRINTED, { [cell]: settledCell(solutionDigit) }), count)
    expect(decision.digits[cell]).toBe(solutionDigit)
  })
})

describe('soundReadings', () => {
  it('yields exactly the sound readings below the limit, cheapest first (against all combinations)', () => {
    const geometry = boxedGeometry(2, 2)
    const countSmall = solutionCounter(geometry)
    const base = digits('1000040000200003')
    const digit = fc.integer({ min: 0, max: 4 })
    let sound = 0
    fc.assert(
      fc.property(
        // up to nine cells in doubt between the printed digit and another, in either order
        fc.uniqueArray(
          fc.record({
            cell: fc.integer({ min: 0, max: 15 }),
            other: digit,
            cost: fc.integer({ min: 1, max: 60 }),
            otherFirst: fc.boolean(),
          }),
          { selector: ({ cell }) => cell, maxLength: 9 },
        ),
        (doubts) => {
          const options = base.map((printed) => settledCell(printed))
          for (const { cell, other, cost, otherFirst } of doubts) {
            if (other === base[cell]) continue
            const possible = otherFirst ? [other, base[cell]!] : [base[cell]!, other]
            options[cell] = cellOptionsOf(possible, [0, cost / 10])
          }
          const limits = { costLimit: 12, budget: 100_000 }
          const found = [...soundReadings(geometry, options, countSmall, limits)].filter(
            (reading) => reading !== undefined,
          )
          const expected = combinations(options)
            .filter(({ cost, digits: d }) => cost <= 12 && countSmall(d) === 1)
            .sort((a, b) => a.cost - b.cost)
          sound += found.length
          expect(found.map(({ cost }) => round(cost))).toEqual(expected.map(({ cost }) => round(cost)))
          expect(new Set(found.map(({ digits: d }) => d.join('')))).toEqual(
            new Set(expected.map(({ digits: d }) => d.join(''))),
          )
        },
      ),
      { seed: 20261125, numRuns: 100 },
    )
    expect(sound).toBeGreaterThan(100)
  })
})

describe('the cost at which a page is called unsound', () => {
  it('is paid, not bent: a repair just above it is refused, one just below is made', () => {
    const cell = PRINTED.findIndex((digit, c) => digit !== 0 && count(PRINTED.with(c, 0)) === 2)
    for (const [cost, kind] of [
      [UNSOUND_PAGE_COST - 0.1, 'sound'],
      [UNSOUND_PAGE_COST + 0.1, 'as-read'],
    ] as const) {
      const options = optionsOf(PRINTED, { [cell]: cellOptionsOf([0, PRINTED[cell]!], [0, cost]) })
      expect(decide(STANDARD, options, count).kind).toBe(kind)
    }
  })
})

function cellOptionsOf(possible: number[], costs: number[]): CellOptions {
  return { digits: Uint8Array.from(possible), costs: Float64Array.from(costs) }
}

function combinations(options: readonly CellOptions[]): { digits: number[]; cost: number }[] {
  let all: { digits: number[]; cost: number }[] = [{ digits: [], cost: 0 }]
  for (const { digits: possible, costs } of options) {
    all = all.flatMap(({ digits: d, cost }) =>
      Array.from(possible, (digit, rank) => ({ digits: [...d, digit], cost: cost + costs[rank]! })),
    )
  }
  return all
}

function round(value: number): number {
  return Math.round(value * 1e6)
}
