import { describe, expect, it } from 'vitest'
import { hasCandidate } from '../../../src/grid/board/ask.js'
import type { Board } from '../../../src/grid/board.js'
import { boxedGeometry, regionGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { misplaced } from '../../../src/logic/facts/digit-placements.js'
import { housePremise } from '../../../src/logic/proof/premise-holds.js'
import { PremiseSearch } from '../../../src/logic/proof/premise-search.js'
import type { Premise } from '../../../src/logic/steps/step.js'
import { claiming, pointing } from '../../../src/logic/techniques/locked.js'
import { fullHouse, hiddenSingle, nakedSingle } from '../../../src/logic/techniques/singles.js'
import { factsFor } from '../../support/facts.js'
import { stuckBoards } from '../../support/random-boards.js'

/** What all houses together rule out for a digit, by the search that judges proofs. */
function ruledOutByHouses(board: Board, digit: number): number[] {
  const { geometry } = board
  const cells = [...board.candidates.keys()].filter((cell) => hasCandidate(board, cell, digit))
  const premises = layoutOf(geometry)
    .houses.map(({ index }): Premise => housePremise(board, index, digit))
    .filter((premise) => premise.kind === 'house' && premise.cells.some((cell) => cells.includes(cell)))
  const search = new PremiseSearch(geometry, premises)
  return cells.filter(
    (cell) => search.find([{ candidate: { cell, digit }, value: true }], 1_000_000) === 'none',
  )
}

const singles = [fullHouse, hiddenSingle, nakedSingle]
/** Boxes of 2×3 and both diagonals. */
const diagonal = regionGeometry(
  'diagonal 2x3',
  Array.from({ length: 36 }, (_, cell) => 2 * Math.floor(cell / 12) + Math.floor((cell % 6) / 3)),
  { diagonals: true },
)

describe('candidates without a placement of their digit', () => {
  it.each([
    ['9×9, singles at rest', STANDARD, singles, 6301],
    ['9×9, locked candidates at rest', STANDARD, [...singles, pointing, claiming], 6302],
    ['6×6', boxedGeometry(2, 3), singles, 6303],
    ['6×6 with diagonals', diagonal, [nakedSingle], 6304],
  ] as const)('are those that all its houses together rule out: %s', (_, geometry, techniques, seed) => {
    let some = 0
    for (const { board } of stuckBoards(6, techniques, { seed, geometry })) {
      for (let digit = 1; digit <= geometry.order; digit++) {
        const found = misplaced(factsFor(board), digit)
        some += found.length
        expect(found).toEqual(ruledOutByHouses(board, digit))
      }
    }
    expect(some).toBeGreaterThan(0)
  })
})
