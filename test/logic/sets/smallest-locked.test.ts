import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/grid/board.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { runNow } from '../../../src/limits.js'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { smallestLockedCells } from '../../../src/logic/sets/locked-cells.js'
import { everyLockedSet } from '../../support/every-locked-set.js'
import { factsFor } from '../../support/facts.js'
import { stuckBoards } from '../../support/random-boards.js'

const foundOn = (board: Board) =>
  runNow({}, (watch) => smallestLockedCells(factsFor(board), watch))
    .map(({ cells, sectors, removals }) => ({
      cells,
      removals: removals.map(({ cell, digit }) => `${cell}.${digit}`).sort(),
      houses: new Set(sectors.map(({ house }) => house)).size,
    }))
    .sort((a, b) => (a.cells.join() < b.cells.join() ? -1 : 1))

const expectedOn = (board: Board) =>
  everyLockedSet(board).sort((a, b) => (a.cells.join() < b.cells.join() ? -1 : 1))

describe('the smallest locked sets', () => {
  it.each([
    ['order 9', boxedGeometry(3, 3), 'mark', 2],
    ['order 8', boxedGeometry(2, 4), 'scan', 4],
    ['order 6', boxedGeometry(2, 3), 'scan', 20],
  ] as const)(
    'are those that trying every way to count the digits finds: %s',
    (_, geometry, level, count) => {
      let sets = 0
      for (const { board } of stuckBoards(count, techniquesUpTo(level), { seed: 63_000, geometry })) {
        const found = foundOn(board)
        expect(found).toEqual(expectedOn(board))
        sets += found.length
      }
      expect(sets).toBeGreaterThan(1)
    },
    120_000,
  )
})
