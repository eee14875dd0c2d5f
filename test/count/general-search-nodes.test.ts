import { describe, expect, it } from 'vitest'
import { GeneralSearch } from '../../src/count/general-search.js'
import { layoutOf } from '../../src/grid/layout.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../src/index.js'
import { DIAGONAL_9, JIGSAW_5, JIGSAW_6, JIGSAW_9 } from './geometries.js'
import { fromLine, seededRandom, somePuzzle } from './puzzles.js'

// How long the search is depends on what a node concludes and on which candidate it splits; answers do not show either.
// Where one of the two is changed on purpose, these counts change: compare `npm run bench:count-orders` before and
// after.
const blank = (geometry: Geometry) => new Array<number>(geometry.cellCount).fill(0)
const part = (geometry: Geometry, keep: number) => somePuzzle(seededRandom(1), keep, 0, geometry)
const HARD = '800000000003600000070090200050007000000045700000100030001000068008500010090000400'
const HARDER = '000000003001005600090040070000009050700000008050402000080020090003500100600000000'

/** Nodes until the search has found that many solutions, or all. */
function nodesFor(geometry: Geometry, givens: readonly number[], solutions: number): number[] {
  const search = new GeneralSearch(layoutOf(geometry))
  search.start(givens)
  let found = 0
  while (found < solutions && search.next(20_000) === 'solution') found++
  return [found, search.nodes]
}

describe('the general search is as short as it was: solutions found and nodes', () => {
  it.each([
    ['blank 2×2', boxedGeometry(2, 2), blank(boxedGeometry(2, 2)), 1000, 288, 575],
    ['blank jigsaw of order 5', JIGSAW_5, blank(JIGSAW_5), 100, 100, 241],
    ['blank 2×3', boxedGeometry(2, 3), blank(boxedGeometry(2, 3)), 100, 100, 211],
    ['blank jigsaw of order 6', JIGSAW_6, blank(JIGSAW_6), 100, 100, 229],
    ['blank 3×3', STANDARD, blank(STANDARD), 100, 100, 242],
    ['hard', STANDARD, fromLine(HARD), 2, 1, 73],
    ['harder', STANDARD, fromLine(HARDER), 2, 1, 451],
    ['hard, less a given', STANDARD, fromLine(HARD).with(0, 0), 50, 50, 122],
    ['hard, with a wrong digit', STANDARD, fromLine(HARD).with(0, 1), 2, 0, 37],
    ['blank jigsaw of order 9', JIGSAW_9, blank(JIGSAW_9), 100, 100, 239],
    ['blank with diagonals', DIAGONAL_9, blank(DIAGONAL_9), 100, 100, 242],
    ['blank 3×5', boxedGeometry(3, 5), blank(boxedGeometry(3, 5)), 50, 50, 248],
    ['part of 3×5', boxedGeometry(3, 5), part(boxedGeometry(3, 5), 0.4), 200, 200, 484],
    ['part of 4×4', boxedGeometry(4, 4), part(boxedGeometry(4, 4), 0.4), 200, 200, 431],
  ] as const)('%s', (_, geometry, givens, solutions, found, nodes) => {
    expect(nodesFor(geometry, givens, solutions)).toEqual([found, nodes])
  })
})
