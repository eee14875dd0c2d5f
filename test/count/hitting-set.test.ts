import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { NodeBudget } from '../../src/count/budget.js'
import { BranchAllowance, hittingSet } from '../../src/count/hitting-set.js'
import type { Look } from '../../src/limits.js'
import { seededRandom, shuffled } from './puzzles.js'
import { subsets } from './subsets.js'

/** An allowance whose clock says this in turn, and `go` from then on. */
function allowanceOf(left: number, ...looks: Look[]): BranchAllowance {
  return new BranchAllowance(left, { look: () => looks.shift() ?? 'go' } as unknown as NodeBudget)
}

function search(sets: readonly (readonly number[])[], size: number, allowance = allowanceOf(100_000)) {
  const task = hittingSet(sets, 24, size, allowance)
  let pauses = 0
  for (;;) {
    const end = task.next()
    if (end.done) return { found: end.value, left: allowance.left, pauses }
    pauses++
  }
}

it('hittingSet finds the smallest set, as trying all sets does', () => {
  fc.assert(
    fc.property(
      fc.array(fc.uniqueArray(fc.nat(8), { minLength: 1, maxLength: 4 }), { maxLength: 8 }),
      (sets) => {
        const hits = (chosen: readonly number[]) =>
          sets.every((set) => set.some((element) => chosen.includes(element)))
        let smallest = 0
        while (![...subsets([0, 1, 2, 3, 4, 5, 6, 7, 8], smallest)].some(hits)) smallest++
        const { found } = search(sets, smallest)
        expect(hits(found!)).toBe(true)
        expect(found!.length).toBeLessThanOrEqual(smallest)
        if (smallest > 0) expect(search(sets, smallest - 1).found).toBeUndefined()
      },
    ),
    { seed: 27_182, numRuns: 300 },
  )
})

describe('a search for a hitting set', () => {
  it('pays for each branch, and gives up when nothing is left', () => {
    expect(search([], 0)).toEqual({ found: [], left: 99_999, pauses: 0 })
    expect(search([[3]], 1, allowanceOf(2))).toEqual({ found: [3], left: 0, pauses: 0 })
    expect(search([[3]], 1, allowanceOf(1))).toEqual({ found: undefined, left: 0, pauses: 0 })
    expect(search([], 0, allowanceOf(0))).toEqual({ found: undefined, left: 0, pauses: 0 })
  })

  it('lets other work run, and gives up when the time is over', () => {
    expect(search([[3]], 1, allowanceOf(9, 'pause', 'pause'))).toEqual({ found: [3], left: 7, pauses: 2 })
    expect(search([[3]], 1, allowanceOf(9, 'over'))).toEqual({ found: undefined, left: 0, pauses: 0 })
    expect(search([[3, 4]], 1, allowanceOf(9, 'go', 'over'))).toEqual({ found: [3], left: 0, pauses: 0 })
  })

  // Answers do not show whether it begins with small sets, is cut short by sets apart, or asks the same twice.
  it.each([
    [1, [1, 1, 1, 1, 1, 1, 5, 12]],
    [2, [1, 1, 1, 1, 1, 3, 5, 38, 15]],
    [3, [1, 1, 1, 1, 1, 1, 1, 13, 69]],
    [4, [1, 1, 1, 1, 1, 1, 11, 11]],
    [5, [1, 1, 1, 1, 1, 1, 33, 9]],
  ])('is as short as it was, size by size: system %i', (seed, branches) => {
    const random = seededRandom(seed)
    const sets = Array.from({ length: 26 }, () =>
      shuffled([...Array(24).keys()], random).slice(0, 2 + Math.floor(random() * 3)),
    )
    const spent: number[] = []
    for (let size = 0, isFound = false; !isFound; size++) {
      const { found, left } = search(sets, size)
      spent.push(100_000 - left)
      isFound = found !== undefined
    }
    expect(spent).toEqual(branches)
  })
})
