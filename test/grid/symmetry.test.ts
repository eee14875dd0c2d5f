import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { applyTo } from '../../src/grid/board/edit.js'
import { boxedGeometry, type Geometry } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { findClashes } from '../../src/grid/puzzle.js'
import {
  followedBy,
  inverse,
  lineSwap,
  makeTransform,
  mirroring,
  quarterTurn,
  randomTransform,
  relabelling,
  squareSymmetries,
  transformBoard,
  transformConclusion,
  transformPuzzle,
  transposition,
} from '../../src/grid/symmetry.js'
import { anyBoard, anyPuzzle, boardFacts, DIAGONAL, GEOMETRIES, JIGSAW, SEED } from './arbitraries.js'

const property = { seed: SEED, numRuns: 25 }

const anyConclusion = (geometry: Geometry) => {
  const candidate = fc.record({
    cell: fc.nat(geometry.cellCount - 1),
    digit: fc.integer({ min: 1, max: geometry.order }),
  })
  return fc.record({
    placements: fc.uniqueArray(candidate, { maxLength: 2, selector: ({ cell }) => cell }),
    removals: fc.array(candidate, { maxLength: 6 }),
  })
}

describe.each(GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))('%s', (_, geometry) => {
  const layout = layoutOf(geometry)
  it('sends houses to houses of the same kind of piece, clashes to clashes', () => {
    fc.assert(
      fc.property(anyPuzzle(geometry), fc.integer(), (puzzle, seed) => {
        const transform = randomTransform(geometry, seed)
        for (const house of layout.houses) {
          const image = layoutOf(transform.to).houses[transform.houseTo[house.index]!]!
          expect(house.cells.map((cell) => transform.cellTo[cell]!).sort((a, b) => a - b)).toEqual(
            image.cells,
          )
        }
        const image = transformPuzzle(puzzle, transform)
        const moved = findClashes(geometry, puzzle.givens).map(
          ({ house, digit }) => `${transform.houseTo[house]} ${transform.digitTo[digit]}`,
        )
        const found = findClashes(image.geometry, image.givens).map(({ house, digit }) => `${house} ${digit}`)
        expect(found.sort()).toEqual(moved.sort())
      }),
      property,
    )
  })

  it('can be undone, and chained', () => {
    fc.assert(
      fc.property(anyBoard(geometry), fc.integer(), fc.integer(), (board, seedA, seedB) => {
        const a = randomTransform(geometry, seedA)
        const b = randomTransform(geometry, seedB)
        expect(boardFacts(transformBoard(transformBoard(board, a), inverse(a)))).toEqual(boardFacts(board))
        expect(boardFacts(transformBoard(board, followedBy(a, b)))).toEqual(
          boardFacts(transformBoard(transformBoard(board, a), b)),
        )
      }),
      property,
    )
  })

  it('commutes with deductions: the image of a board after a conclusion is the conclusion on the image', () => {
    fc.assert(
      fc.property(anyBoard(geometry), anyConclusion(geometry), fc.integer(), (board, conclusion, seed) => {
        fc.pre(conclusion.placements.every(({ cell }) => !board.given[cell]))
        const transform = randomTransform(geometry, seed)
        expect(boardFacts(transformBoard(applyTo(board, conclusion), transform))).toEqual(
          boardFacts(applyTo(transformBoard(board, transform), transformConclusion(conclusion, transform))),
        )
      }),
      property,
    )
  })

  it('comes back the same from the same seed', () => {
    expect(randomTransform(geometry, 7).cellTo).toEqual(randomTransform(geometry, 7).cellTo)
    expect(randomTransform(geometry, 7).digitTo).not.toEqual(randomTransform(geometry, 8).digitTo)
  })
})

describe('single transforms', () => {
  it('four quarter turns and two mirrorings are nothing', () => {
    for (const geometry of [boxedGeometry(3, 3), boxedGeometry(2, 3)]) {
      let turned = quarterTurn(geometry)
      for (let i = 0; i < 3; i++) turned = followedBy(turned, quarterTurn(turned.to))
      const nothing = Array.from({ length: geometry.cellCount }, (_, cell) => cell)
      expect(turned.cellTo).toEqual(nothing)
      expect(turned.to).toBe(geometry)
      expect(followedBy(mirroring(geometry), mirroring(geometry)).cellTo).toEqual(nothing)
    }
    expect(quarterTurn(boxedGeometry(3, 3)).cellTo[0]).toBe(8)
    expect(transposition(boxedGeometry(2, 3)).to.name).toBe('3x2')
  })

  it('refuses what would break a house', () => {
    const standard = boxedGeometry(3, 3)
    expect(() => lineSwap(standard, [0, 1, 3, 2, 4, 5, 6, 7, 8])).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(() => lineSwap(standard, [0, 1, 1, 2, 4, 5, 6, 7, 8])).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(() => relabelling(standard, [1, 0, 2, 3, 4, 5, 6, 7, 8, 9])).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(() => makeTransform(standard, JIGSAW, mirroring(standard).cellTo)).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(() => transposition(JIGSAW)).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(squareSymmetries(DIAGONAL)).toHaveLength(8)
  })

  it('draws every move of order 4 about equally often', () => {
    const geometry = boxedGeometry(2, 2)
    const seen = new Map<string, number>()
    for (let seed = 0; seed < 12_800; seed++) {
      const key = randomTransform(geometry, seed).cellTo.join()
      seen.set(key, (seen.get(key) ?? 0) + 1)
    }
    expect(seen.size).toBe(128)
    // 100 of each expected; 60 and 140 are four standard deviations away.
    expect(Math.min(...seen.values())).toBeGreaterThan(60)
    expect(Math.max(...seen.values())).toBeLessThan(140)
  })
})
