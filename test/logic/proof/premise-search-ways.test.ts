import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Candidate } from '../../../src/grid/board.js'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { alternativesOf, PremiseSearch } from '../../../src/logic/proof/premise-search.js'
import type { Premise } from '../../../src/logic/steps/step.js'
import { cell, at as cellNamed } from '../../support/steps.js'

const SMALL = boxedGeometry(2, 2)
const BUDGET = 100_000
const at = (name: string, digit: number): Candidate => ({ cell: cellNamed(name), digit })
const house = (house: number, digit: number, ...cells: readonly string[]): Premise => ({
  kind: 'house',
  house,
  digit,
  cells: cells.map((name) => cellNamed(name)),
})

function waysOf(search: PremiseSearch, assumptions: Parameters<PremiseSearch['visit']>[0] = []) {
  const ways: (readonly Candidate[])[] = []
  const end = search.visit(assumptions, BUDGET, (trues) => {
    ways.push(trues)
    return false
  })
  return { ways, end }
}

describe('the alternatives of a premise', () => {
  it('are the digits of its cell, or the cells for its digit', () => {
    expect(alternativesOf(cell('r1c2', '47'))).toEqual([at('r1c2', 4), at('r1c2', 7)])
    expect(alternativesOf(house(0, 5, 'r1c1', 'r1c9'))).toEqual([at('r1c1', 5), at('r1c9', 5)])
  })
})

describe('the ways that are visited', () => {
  it('are those in which one alternative of each premise is true', () => {
    const search = new PremiseSearch(STANDARD, [cell('r1c1', '12'), cell('r1c2', '13')])
    const { ways, end } = waysOf(search)
    expect(end).toBe('exhausted')
    expect(ways).toEqual([
      [at('r1c1', 1), at('r1c2', 3)],
      [at('r1c1', 2), at('r1c2', 1)],
      [at('r1c1', 2), at('r1c2', 3)],
    ])
  })

  it('are the same each time, after any other visit', () => {
    const search = new PremiseSearch(STANDARD, [cell('r1c1', '12'), cell('r1c2', '13'), cell('r5c5', '45')])
    const before = waysOf(search)
    expect(before.ways).toHaveLength(6)
    search.visit([], BUDGET, () => true)
    waysOf(search, [{ candidate: at('r1c1', 1), value: true }])
    search.visit([], 1, () => false)
    expect(waysOf(search)).toEqual(before)
  })

  it('end when the visitor has seen enough', () => {
    const search = new PremiseSearch(STANDARD, [cell('r1c1', '123')])
    let seen = 0
    expect(search.visit([], BUDGET, () => ++seen === 2)).toBe('stopped')
    expect(seen).toBe(2)
  })

  it('hold to all that is assumed, true or false', () => {
    const search = new PremiseSearch(STANDARD, [cell('r1c1', '12'), cell('r1c2', '123')], [at('r1c3', 2)])
    expect(
      waysOf(search, [
        { candidate: at('r1c3', 2), value: true },
        { candidate: at('r1c2', 1), value: false },
      ]),
    ).toEqual({ ways: [[at('r1c1', 1), at('r1c2', 3), at('r1c3', 2)]], end: 'exhausted' })
    const candidate = at('r1c1', 1)
    for (const [first, second] of [
      [true, false],
      [false, true],
    ] as const)
      expect(
        search.find(
          [
            { candidate, value: first },
            { candidate, value: second },
          ],
          BUDGET,
        ),
      ).toBe('none')
    // the same said twice is said once
    expect(
      waysOf(search, [
        { candidate, value: true },
        { candidate, value: true },
      ]).ways,
    ).toHaveLength(2)
  })

  it('are none where a premise has no alternative', () => {
    expect(waysOf(new PremiseSearch(STANDARD, [cell('r1c1', '')]))).toEqual({ ways: [], end: 'exhausted' })
    const contradicting = new PremiseSearch(STANDARD, [cell('r1c1', '1'), cell('r1c2', '1')])
    expect(contradicting.find([], BUDGET)).toBe('none')
  })

  it('take only cells that see each other for excluding each other', () => {
    const ways = (one: string, other: string) =>
      waysOf(new PremiseSearch(STANDARD, [cell(one, '1'), cell(other, '1')])).ways.length
    for (const name of ['r1c9', 'r9c1', 'r3c3']) expect(ways('r1c1', name)).toBe(0)
    for (const name of ['r4c4', 'r9c9']) expect(ways('r1c1', name)).toBe(1)
    expect(waysOf(new PremiseSearch(STANDARD, [cell('r1c1', '1'), cell('r1c2', '2')])).ways).toHaveLength(1)
  })

  it('cannot be asked for with a candidate that the search has never heard of', () => {
    const search = new PremiseSearch(STANDARD, [cell('r1c1', '12')], [at('r2c2', 3)])
    expect(() => search.find([{ candidate: at('r2c2', 4), value: true }], BUDGET)).toThrow(/unknown/)
    expect(search.find([{ candidate: at('r2c2', 3), value: true }], BUDGET)).toContainEqual(at('r2c2', 3))
  })

  it('cover every choice of one alternative a premise, each way once (against trying all choices)', () => {
    const digits = fc.subarray([1, 2, 3, 4], { minLength: 1 })
    const premise: fc.Arbitrary<Premise> = fc.oneof(
      fc.record({ kind: fc.constant('cell' as const), cell: fc.nat(15), digits }),
      fc.tuple(fc.nat(11), fc.integer({ min: 1, max: 4 }), digits).map(([index, digit, positions]) => ({
        kind: 'house' as const,
        house: index,
        digit,
        cells: positions.map((position) => layoutOf(SMALL).houses[index]!.cells[position - 1]!),
      })),
    )
    const text = (candidates: readonly Candidate[]) =>
      candidates.map(({ cell: c, digit }) => `${c}=${digit}`).sort()
    const clash = (a: Candidate, b: Candidate) =>
      a.cell === b.cell
        ? a.digit !== b.digit
        : a.digit === b.digit && layoutOf(SMALL).arePeers(a.cell, b.cell)
    fc.assert(
      fc.property(fc.array(premise, { minLength: 1, maxLength: 5 }), (premises) => {
        const { ways } = waysOf(new PremiseSearch(SMALL, premises))
        const found = ways.map((way) => text(way))
        expect(new Set(found.map(String)).size).toBe(found.length)
        for (const way of ways) {
          for (const one of premises)
            expect(text(alternativesOf(one)).some((name) => text(way).includes(name))).toBe(true)
          for (const a of way) for (const b of way) expect(clash(a, b)).toBe(false)
        }
        let choices: Candidate[][] = [[]]
        for (const one of premises)
          choices = choices.flatMap((chosen) =>
            alternativesOf(one).flatMap((choice) =>
              chosen.some((other) => clash(choice, other)) ? [] : [[...chosen, choice]],
            ),
          )
        for (const choice of choices) {
          const names = new Set(text(choice))
          expect(found.some((way) => way.every((name) => names.has(name)))).toBe(true)
        }
      }),
      { seed: 1_105, numRuns: 100 },
    )
  })
})

describe('the budget counts alternatives tried', () => {
  const needed = (premises: readonly Premise[]) => {
    const search = new PremiseSearch(STANDARD, premises)
    let budget = 0
    while (search.find([], budget) === 'budget-spent') budget++
    return budget
  }

  it('one for each premise that has to be split, none for what follows', () => {
    expect(needed([cell('r1c1', '1')])).toBe(0)
    expect(needed([cell('r1c1', '12')])).toBe(1)
    expect(needed([cell('r1c1', '12'), cell('r1c2', '12')])).toBe(1)
    expect(needed([cell('r1c1', '12'), cell('r5c5', '12')])).toBe(2)
    expect(needed([cell('r1c1', '12'), cell('r1c2', '13'), cell('r1c3', '23')])).toBe(1)
    // nor for what has been ruled out before
    expect(needed([cell('r1c1', '123'), cell('r1c2', '1')])).toBe(1)
  })

  it('the premise with the fewest alternatives first, wherever it stands', () => {
    const three = [cell('r1c1', '12'), cell('r1c2', '12'), cell('r1c3', '12')]
    const wide = cell('r5c5', '123456789')
    for (const premises of [three, [wide, ...three], [...three, wide]]) {
      expect(needed(premises)).toBe(1)
      expect(new PremiseSearch(STANDARD, premises).find([], 1)).toBe('none')
    }
  })

  it('is spent anew by each search', () => {
    const search = new PremiseSearch(STANDARD, [cell('r1c1', '12'), cell('r5c5', '12')])
    for (let i = 0; i < 3; i++) expect(search.find([], 2)).toHaveLength(2)
    expect(search.find([], 1)).toBe('budget-spent')
  })
})

describe('a premise that is left out', () => {
  it('asks for nothing, and asks again when it is back', () => {
    const search = new PremiseSearch(STANDARD, [cell('r1c1', '1'), cell('r1c2', '1'), cell('r1c3', '')])
    expect(search.find([], BUDGET)).toBe('none')
    search.leaveOut(2, true)
    expect(search.find([], BUDGET)).toBe('none')
    search.leaveOut(0, true)
    expect(search.find([], BUDGET)).toEqual([at('r1c2', 1)])
    search.leaveOut(0, false)
    expect(search.find([], BUDGET)).toBe('none')
  })
})
