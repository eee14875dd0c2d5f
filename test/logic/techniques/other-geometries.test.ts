import { describe, expect, it } from 'vitest'
import { boxedGeometry, type Geometry, regionGeometry } from '../../../src/grid/geometry.js'
import { CATALOGUE, techniquesUpTo } from '../../../src/logic/catalogue.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { allSteps, stuckBoards } from '../../support/random-boards.js'

/** Techniques see houses, never the number 9: the same finders on grids of other shapes. */
const geometries: [string, Geometry, number][] = [
  ['6×6 with boxes of 2×3', boxedGeometry(2, 3), 12],
  ['8×8 with boxes of 2×4', boxedGeometry(2, 4), 6],
  [
    '9×9 with diagonals',
    regionGeometry(
      'diagonals',
      Array.from({ length: 81 }, (_, cell) => 3 * Math.floor(cell / 27) + Math.floor((cell % 9) / 3)),
      { diagonals: true },
    ),
    6,
  ],
  [
    '6×6 of irregular regions',
    regionGeometry('jigsaw', [
      ...[0, 0, 0, 1, 1, 1],
      ...[0, 0, 1, 1, 1, 2],
      ...[0, 3, 3, 3, 2, 2],
      ...[4, 3, 3, 3, 2, 2],
      ...[4, 4, 4, 5, 5, 2],
      ...[4, 4, 5, 5, 5, 5],
    ]),
    12,
  ],
]

const techniques = CATALOGUE.filter(
  ({ level, assumes }) => (level === 'pattern' || level === 'chain') && !assumes,
)

describe.each(geometries)('%s', (_, geometry, count) => {
  it('every pattern and chain found is proven', () => {
    let steps = 0
    for (const { board } of stuckBoards(count, techniquesUpTo('scan'), { geometry, seed: 400 })) {
      for (const technique of techniques) {
        for (const step of allSteps(board, technique)) {
          steps++
          expect(verifyStep(board, step), JSON.stringify(step)).toEqual({ proven: true })
        }
      }
    }
    expect(steps).toBeGreaterThan(0)
  })
})
