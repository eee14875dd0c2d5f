import { describe, expect, it } from 'vitest'
import { hasCandidate } from '../../../src/grid/board/ask.js'
import type { Board, Candidate } from '../../../src/grid/board.js'
import { digitCount, digitsOf } from '../../../src/grid/digits.js'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { cellPremise } from '../../../src/logic/proof/premise-holds.js'
import { isProvenBy } from '../../../src/logic/proof/trim.js'
import { almostLockedSets } from '../../../src/logic/sets/almost-locked.js'
import { deathBlossom } from '../../../src/logic/techniques/death-blossom.js'
import { factsFor } from '../../support/facts.js'
import { allSteps, ruledOut, stuckBoards } from '../../support/random-boards.js'

type Cells = readonly number[]

/** Sets of a digit and the stem's digit: the stem sees all places of its digit there, the target all of its own. */
function petalsFor(board: Board, stem: Candidate, target: Candidate): Cells[] {
  const { geometry } = board
  const sees = (from: Candidate, cells: Cells): boolean => {
    const places = cells.filter((cell) => hasCandidate(board, cell, from.digit))
    return places.length > 0 && places.every((cell) => layoutOf(geometry).arePeers(cell, from.cell))
  }
  return almostLockedSets(factsFor(board))
    .map(({ cells }) => cells)
    .filter((cells) => sees(stem, cells) && sees(target, cells))
}

/** Is there a choice of two petals or more of which no cell, nor the stem, can be spared? */
function hasBlossom(board: Board, stem: number, target: Candidate): boolean {
  const lists = digitsOf(board.candidates[stem]!).map((digit) =>
    petalsFor(board, { cell: stem, digit }, target),
  )
  const conclusion = { placements: [], removals: [target] }
  const choose = (chosen: readonly Cells[]): boolean => {
    if (chosen.length < lists.length) return lists[chosen.length]!.some((cells) => choose([...chosen, cells]))
    if (new Set(chosen.map((cells) => cells.join())).size < 2) return false
    const premises = [...new Set([stem, ...chosen.flat()])].map((cell) => cellPremise(board, cell))
    return premises.every(
      (dropped) =>
        !isProvenBy(
          board.geometry,
          premises.filter((premise) => premise !== dropped),
          conclusion,
        ),
    )
  }
  return choose([])
}

function byDefinition(board: Board): string[] {
  const targets = digitsOf(board.candidates.reduce((all, set) => all | set, 0)).flatMap((digit) =>
    factsFor(board)
      .cellsWith(digit)
      .map((cell) => ({ cell, digit })),
  )
  return targets
    .filter((target) =>
      factsFor(board).openCells.some(
        (stem) =>
          digitCount(board.candidates[stem]!) > 2 &&
          !hasCandidate(board, stem, target.digit) &&
          hasBlossom(board, stem, target),
      ),
    )
    .map(({ cell, digit }) => `${cell}.${digit}`)
}

describe('death blossom', () => {
  it.each([
    ['9×9', STANDARD, 'pattern', 81_005, 10],
    ['9×9, locked candidates not at rest', STANDARD, 'scan', 82_000, 3],
    ['6×6', boxedGeometry(2, 3), 'scan', 84_000, 20],
  ] as const)(
    'removes all that its definition does: %s',
    (_, geometry, level, seed, count) => {
      let some = 0
      for (const { board } of stuckBoards(count, techniquesUpTo(level), { seed, geometry })) {
        const expected = byDefinition(board)
        some += expected.length
        expect([...ruledOut(board, allSteps(board, deathBlossom))].sort()).toEqual(expected.sort())
      }
      expect(some).toBeGreaterThan(10)
    },
    60_000,
  )
})
