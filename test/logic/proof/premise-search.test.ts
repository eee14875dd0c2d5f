import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Candidate } from '../../../src/grid/board.js'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { alternativesOf, PremiseSearch } from '../../../src/logic/proof/premise-search.js'
import type { Premise } from '../../../src/logic/steps/step.js'

const SEED = 20240611
const SMALL = boxedGeometry(2, 2)

/** Is there a choice of one alternative a premise such that no two chosen candidates clash? Tried one by one. */
function hasWayOut(premises: readonly Premise[], denied: Candidate, value: boolean): boolean {
  const clash = (a: Candidate, b: Candidate) =>
    a.cell === b.cell ? a.digit !== b.digit : a.digit === b.digit && layoutOf(SMALL).arePeers(a.cell, b.cell)
  const same = (a: Candidate, b: Candidate) => a.cell === b.cell && a.digit === b.digit
  const choose = (index: number, chosen: readonly Candidate[]): boolean => {
    const premise = premises[index]
    if (!premise) return true
    return alternativesOf(premise).some(
      (choice) =>
        (value || !same(choice, denied)) &&
        !chosen.some((other) => clash(choice, other)) &&
        choose(index + 1, [...chosen, choice]),
    )
  }
  return choose(0, value ? [denied] : [])
}

const digits = fc.subarray([1, 2, 3, 4], { minLength: 1 })
const premise: fc.Arbitrary<Premise> = fc.oneof(
  fc.record({ kind: fc.constant('cell' as const), cell: fc.nat(15), digits }),
  fc.tuple(fc.nat(11), fc.integer({ min: 1, max: 4 }), digits).map(([house, digit, positions]) => ({
    kind: 'house' as const,
    house,
    digit,
    cells: positions.map((position) => layoutOf(SMALL).houses[house]!.cells[position - 1]!),
  })),
)

describe('PremiseSearch', () => {
  it('finds a way out exactly when trying every choice finds one', () => {
    fc.assert(
      fc.property(
        fc.array(premise, { minLength: 1, maxLength: 7 }),
        fc.nat(15),
        fc.integer({ min: 1, max: 4 }),
        fc.boolean(),
        (premises, cell, digit, value) => {
          const candidate = { cell, digit }
          const found = new PremiseSearch(SMALL, premises, [candidate]).find([{ candidate, value }], 10_000)
          expect(found !== 'none').toBe(hasWayOut(premises, candidate, value))
        },
      ),
      { seed: SEED, numRuns: 3000 },
    )
  })

  it('finds the same with a premise left out as without it', () => {
    fc.assert(
      fc.property(
        fc.array(premise, { minLength: 2, maxLength: 7 }),
        fc.nat(6),
        fc.nat(15),
        fc.integer({ min: 1, max: 4 }),
        fc.boolean(),
        (premises, index, cell, digit, value) => {
          const out = index % premises.length
          const candidate = { cell, digit }
          const fewer = premises.filter((_, i) => i !== out)
          const search = new PremiseSearch(SMALL, premises, [candidate])
          const ends = [true, false].map((left) => {
            search.leaveOut(out, left)
            return search.find([{ candidate, value }], 10_000) === 'none'
          })
          const alone = [fewer, premises].map(
            (some) =>
              new PremiseSearch(SMALL, some, [candidate]).find([{ candidate, value }], 10_000) === 'none',
          )
          expect(ends).toEqual(alone)
        },
      ),
      { seed: SEED, numRuns: 1500 },
    )
  })

  it('goes on with the other premises when refuting one alternative forces the last', () => {
    const cells = { 39: [2, 4], 34: [2, 7], 7: [2, 7], 1: [6, 7], 28: [2, 6] }
    const premises = Object.entries(cells).map(
      ([cell, candidates]): Premise => ({ kind: 'cell', cell: Number(cell), digits: candidates }),
    )
    const candidate = { cell: 39, digit: 4 }
    const found = new PremiseSearch(STANDARD, premises).find([{ candidate, value: false }], 10_000)
    expect(found).toContainEqual({ cell: 39, digit: 2 })
  })
})
