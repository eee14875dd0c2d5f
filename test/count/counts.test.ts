import { describe, expect, it } from 'vitest'
import { boxedGeometry, countSolutions, makePuzzle } from '../../src/index.js'

describe('all grids of small orders', () => {
  it('order 4 has 288 (common knowledge, small enough to list)', () => {
    const geometry = boxedGeometry(2, 2)
    expect(countSolutions(makePuzzle(new Array(16).fill(0), geometry))).toEqual({
      count: 288,
      complete: true,
    })
  })

  it('order 6 with boxes 2×3 has 28,200,960 (OEIS A291187), counted with the first row fixed, times 6!', () => {
    const geometry = boxedGeometry(2, 3)
    const givens = Array.from({ length: 36 }, (_, cell) => (cell < 6 ? cell + 1 : 0))
    const { count, complete } = countSolutions(makePuzzle(givens, geometry))
    expect(complete).toBe(true)
    expect(count * 720).toBe(28_200_960)
  })
})
