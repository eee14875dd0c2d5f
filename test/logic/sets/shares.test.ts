import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/grid/board.js'
import { digitsOf } from '../../../src/grid/digits.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { runNow } from '../../../src/limits.js'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { linesOf } from '../../../src/logic/facts/lines.js'
import { sectorMatching } from '../../../src/logic/sets/sector-matching.js'
import { sharesOf } from '../../../src/logic/sets/shares.js'
import { everyLockedSet } from '../../support/every-locked-set.js'
import { factsFor } from '../../support/facts.js'
import { stuckBoards } from '../../support/random-boards.js'

/** The candidates of a board that are shown to have a share, as `cell.digit`, and how many candidates there are. */
function sharersOf(board: Board): { sharers: ReadonlySet<string>; candidates: number } {
  const { rows, columns, blocks } = linesOf(board.geometry)
  const digits = digitsOf(board.candidates.reduce((all, set) => all | set, 0))
  const kinds = [rows, columns, blocks].filter((kind) => kind.length > 0)
  const matching = runNow({}, (watch) => sectorMatching(factsFor(board), digits, kinds, watch))!
  const shares = sharesOf(matching)
  const sharers = new Set<string>()
  for (const [place, cell] of matching.cells.entries())
    for (const [number, digit] of digits.entries())
      if (shares[place * digits.length + number]) sharers.add(`${cell}.${digit}`)
  return { sharers, candidates: board.candidates.reduce((sum, set) => sum + digitsOf(set).length, 0) }
}

describe('shares', () => {
  it.each([
    ['order 9', boxedGeometry(3, 3), 'mark', 2],
    ['order 8', boxedGeometry(2, 4), 'scan', 4],
    ['order 6', boxedGeometry(2, 3), 'scan', 20],
  ] as const)(
    'are had by most candidates, and by none that locked cells remove: %s',
    (_, geometry, level, count) => {
      let known = 0
      let all = 0
      for (const { board } of stuckBoards(count, techniquesUpTo(level), { seed: 64_000, geometry })) {
        const { sharers, candidates } = sharersOf(board)
        known += sharers.size
        all += candidates
        for (const name of sharers) {
          const [cell, digit] = name.split('.').map(Number)
          expect(board.candidates[cell!]! & (1 << (digit! - 1))).not.toBe(0)
        }
        for (const { removals } of everyLockedSet(board))
          for (const removal of removals) expect(sharers).not.toContain(removal)
      }
      expect(known).toBeGreaterThan(all / 2)
    },
    120_000,
  )
})
