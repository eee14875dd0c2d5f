import { describe, expect, it } from 'vitest'
import { hasCandidate } from '../../../src/grid/board/ask.js'
import type { Board } from '../../../src/grid/board.js'
import { digitsOf } from '../../../src/grid/digits.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { aftermathOf } from '../../../src/logic/sets/aftermath.js'
import { almostLockedSets } from '../../../src/logic/sets/almost-locked.js'
import {
  alignedPairExclusion,
  alignedTripleExclusion,
} from '../../../src/logic/techniques/aligned-exclusion.js'
import { deathBlossom } from '../../../src/logic/techniques/death-blossom.js'
import { factsFor } from '../../support/facts.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps, ruledOut, stuckBoards } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

// Boards made for one pattern each: marks are full but for what is named.

describe('aligned pair exclusion', () => {
  it('takes a digit that goes with nothing in the other cell', () => {
    // 1 in r1c1 goes with no 1 in r2c2, no 3 (r1c3 has only 1 and 3) and no 4 (r3c3 has only 1 and 4)
    const board = limitedBoard({ marks: { r1c1: '1259', r2c2: '134', r1c3: '13', r3c3: '14' } })
    const steps = allSteps(board, alignedPairExclusion)
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
    // reported once, though any of the three cells may be called the partner and the others its sets
    const [step, ...more] = steps.filter(({ removals }) => removals.some(({ cell }) => cell === 0))
    expect(more).toEqual([])
    expect(said(step!)).toBe('r1c1-1')
    expect(step!.premises.map((premise) => premise.kind === 'cell' && premise.cell).sort()).toEqual([
      10, 2, 20,
    ])
    if (step!.pattern.shape !== 'exclusion') throw new Error('an exclusion was expected')
    const { cells, excluded } = step!.pattern
    expect(cells).toContain(0)
    // every digit of the partner, each with the 1
    const partner = cells.find((cell) => cell !== 0)!
    const others = excluded.map(({ candidates }) => candidates.find(({ cell }) => cell === partner)!.digit)
    expect(others.sort()).toEqual(digitsOf(board.candidates[partner]!))
  })

  it('takes larger almost locked sets too', () => {
    // 1 and 4 would leave r3c12 with 5 alone
    const board = limitedBoard({ marks: { r1c1: '129', r2c2: '134', r1c3: '13', r3c1: '145', r3c2: '145' } })
    const steps = allSteps(board, alignedPairExclusion)
    expect(steps.map((step) => said(step))).toContain('r1c1-1')
  })

  it('has nothing to say where a digit goes with one of the other', () => {
    expect(
      allSteps(
        limitedBoard({ marks: { r1c1: '1259', r2c2: '1346', r1c3: '13', r3c3: '14' } }),
        alignedPairExclusion,
      ),
    ).toEqual([])
  })
})

const boards = stuckBoards(30, techniquesUpTo('mark'), { seed: 61_000 }).map(({ board }) => board)

/**
 * Do two candidates leave some almost locked set, or a house or cell they share, with too little? By definition, the
 * slow way.
 */
function goTogether(
  board: Board,
  a: { cell: number; digit: number },
  b: { cell: number; digit: number },
): boolean {
  const { geometry } = board
  const layout = layoutOf(geometry)
  if (a.digit === b.digit && layout.arePeers(a.cell, b.cell)) return false
  if (a.digit === b.digit) return true
  const sees = (cells: readonly number[], { cell, digit }: typeof a) =>
    cells.every((other) => !hasCandidate(board, other, digit) || layout.arePeers(other, cell))
  return !almostLockedSets(factsFor(board)).some(
    ({ cells, digits }) =>
      [a, b].every(({ digit }) => digits & (1 << (digit - 1))) && sees(cells, a) && sees(cells, b),
  )
}

describe('on random boards', () => {
  it('two candidates exclude each other as the definition says', () => {
    for (const board of boards.slice(0, 6)) {
      const open = [...board.candidates.keys()].filter((cell) => board.candidates[cell])
      for (const cell of open) {
        for (const digit of digitsOf(board.candidates[cell]!)) {
          const left = aftermathOf(factsFor(board)).leftBy({ cell, digit })
          for (const other of open) {
            if (other === cell) continue
            const expected = digitsOf(board.candidates[other]!).filter((d) =>
              goTogether(board, { cell, digit }, { cell: other, digit: d }),
            )
            expect(digitsOf(left[other]!)).toEqual(expected)
          }
        }
      }
    }
  })

  it('a removed candidate goes with no candidate of its partner, and every such candidate is removed', () => {
    let removed = 0
    for (const board of boards) {
      const steps = allSteps(board, alignedPairExclusion)
      for (const { removals, pattern } of steps) {
        if (pattern.shape !== 'exclusion') continue
        for (const removal of removals) {
          const partner = pattern.cells.find((cell) => cell !== removal.cell)!
          expect(aftermathOf(factsFor(board)).leftBy(removal)[partner]).toBe(0)
          removed++
        }
      }
    }
    expect(removed).toBeGreaterThan(50)
  })

  it('a triple tells what no two of its cells do, and some need a cell of three candidates', () => {
    let removed = 0
    let watched = 0
    for (const board of boards) {
      for (const { removals, pattern } of allSteps(board, alignedTripleExclusion)) {
        if (pattern.shape !== 'exclusion') continue
        for (const removal of removals) {
          const partners = pattern.cells.filter((cell) => cell !== removal.cell)
          for (const partner of partners)
            expect(aftermathOf(factsFor(board)).leftBy(removal)[partner]).not.toBe(0)
          removed++
        }
        for (const { candidates, by } of pattern.excluded) {
          if (candidates.length < 3) continue
          watched++
          expect(by).toHaveLength(1)
          const digits = candidates.map(({ digit }) => digit).sort((a, b) => a - b)
          expect(digitsOf(board.candidates[by[0]!]!)).toEqual(digits)
        }
      }
    }
    expect(removed).toBeGreaterThan(50)
    expect(watched).toBeGreaterThan(0)
  })

  it('blossoms whose stem sees the target are excluded pairs', () => {
    let looked = 0
    for (const board of boards) {
      const pairs = ruledOut(board, allSteps(board, alignedPairExclusion))
      for (const { pattern, removals } of allSteps(board, deathBlossom)) {
        const stem = pattern.shape === 'sets' && pattern.stem !== undefined ? pattern.stem : -1
        for (const { cell, digit } of removals) {
          if (!layoutOf(board.geometry).arePeers(cell, stem)) continue
          looked++
          expect(pairs.has(`${cell}.${digit}`)).toBe(true)
        }
      }
    }
    expect(looked).toBeGreaterThan(5)
  })
})
