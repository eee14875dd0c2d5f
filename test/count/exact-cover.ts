import { DancingLinks } from 'dancing-links'
import { layoutOf } from '../../src/grid/layout.js'
import type { Puzzle } from '../../src/index.js'

const library = new DancingLinks<number>()

/**
 * Up to `limit` solutions of a puzzle on any geometry, found by the general exact-cover library `dancing-links`: one
 * column for each cell and one for each digit in each house, one row for each digit in each cell that the givens allow.
 */
export function solutionsByCover({ geometry, givens }: Puzzle, limit: number): string[] {
  const { order, cellCount } = geometry
  const { houses, housesOf } = layoutOf(geometry)
  const solver = library.createSolver({ columns: cellCount + houses.length * order })
  for (let cell = 0; cell < cellCount; cell++) {
    for (let digit = 1; digit <= order; digit++) {
      if (givens[cell] !== 0 && givens[cell] !== digit) continue
      solver.addSparseConstraint(100 * cell + digit, [
        cell,
        ...housesOf[cell]!.map((house) => cellCount + house * order + digit - 1),
      ])
    }
  }
  return solver
    .find(limit)
    .map((rows) => {
      const digits = new Array<string>(cellCount)
      for (const { data } of rows) digits[Math.floor(data / 100)] = (data % 100).toString(36)
      return digits.join('')
    })
    .sort()
}
