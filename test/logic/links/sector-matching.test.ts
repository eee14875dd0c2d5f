import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/grid/board.js'
import { runNow } from '../../../src/limits.js'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { linesOf } from '../../../src/logic/lines.js'
import { SectorMatching } from '../../../src/logic/links/sector-matching.js'
import { stuckBoards } from '../../support/random-boards.js'

const DIGITS = [1, 2, 3, 4, 5, 6, 7, 8, 9]

function matchingOf(board: Board): SectorMatching {
  const { rows, columns, blocks } = linesOf(board.geometry)
  return runNow({}, (watch) => SectorMatching.of(board, [rows, columns, blocks], watch))!
}

describe('sectors matched to cells', () => {
  it('tell what is locked whatever was asked before, and whether anything is', () => {
    let locked = 0
    let free = 0
    for (const { board } of stuckBoards(10, techniquesUpTo('mark'), { seed: 300 })) {
      const matching = matchingOf(board)
      for (let settled = 0; settled < 3 ** 4; settled++) {
        const kinds = DIGITS.map((_, i) => Math.floor(settled / 3 ** (i % 4)) % 3)
        for (const digit of DIGITS.slice(2)) matching.choose(digit, kinds[digit - 1]!)
        matching.settleAllBut([1, 2])
        for (let last = 0; last < 9; last++) {
          const all = [last % 3, Math.floor(last / 3), ...kinds.slice(2)]
          for (const digit of [1, 2]) matching.choose(digit, all[digit - 1]!)
          const fresh = matchingOf(board)
          for (const digit of DIGITS) fresh.choose(digit, all[digit - 1]!)
          const expected = fresh.lockedCells()
          // where there are many parts it does not say so of nothing
          if (matching.nothingLocked()) {
            expect(expected).toEqual([])
            free++
          }
          expect(matching.lockedCells()).toEqual(expected)
          if (expected.length > 0) locked++
        }
      }
    }
    expect(locked).toBeGreaterThan(50)
    expect(free).toBeGreaterThan(50)
  })
})
