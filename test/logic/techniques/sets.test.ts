import { describe, expect, it } from 'vitest'
import { digitsOf } from '../../../src/grid/digits.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { aftermathOf } from '../../../src/logic/sets/aftermath.js'
import { almostLockedSets, looseSets } from '../../../src/logic/sets/almost-locked.js'
import { deathBlossom, setStemBlossom } from '../../../src/logic/techniques/death-blossom.js'
import { alsChain, alsXyWing, alsXz } from '../../../src/logic/techniques/sets.js'
import { sueDeCoq } from '../../../src/logic/techniques/sue-de-coq.js'
import { factsFor } from '../../support/facts.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps, stuckBoards } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

// Boards made for one pattern each: marks are full but for what is named.

describe('almost locked sets', () => {
  it('are the sets of a house with one digit more than cells, without locked sets inside', () => {
    for (const { board } of stuckBoards(20, techniquesUpTo('mark'), { seed: 31 })) {
      // by definition, the slow way
      const expected = new Set<string>()
      for (const { cells } of layoutOf(board.geometry).houses) {
        const open = cells.filter((cell) => board.candidates[cell])
        const digitsIn = (chosen: number[]) =>
          digitsOf(chosen.reduce((set, cell) => set | board.candidates[cell]!, 0)).length
        const subsets = (list: number[]): number[][] =>
          list.length === 0 ? [[]] : subsets(list.slice(1)).flatMap((rest) => [rest, [list[0]!, ...rest]])
        for (const chosen of subsets(open)) {
          if (chosen.length === 0 || chosen.length > 7 || digitsIn(chosen) !== chosen.length + 1) continue
          if (subsets(chosen).some((part) => part.length > 0 && digitsIn(part) <= part.length)) continue
          expected.add(chosen.join())
        }
      }
      const found = almostLockedSets(factsFor(board)).map(({ cells }) => cells.join())
      expect(found.length).toBe(new Set(found).size)
      expect(new Set(found)).toEqual(expected)
      for (const { cells, digits } of looseSets(factsFor(board)))
        expect(digitsOf(digits)).toHaveLength(cells.length + 2)
    }
  })
})

describe('als-xz', () => {
  it('takes z from cells that see it in both sets', () => {
    // row 1: 1 2 3 in two cells; row 5: 1 3 4 in two cells; x = 1 in column 1
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '23', r5c1: '14', r5c6: '43' } })
    const steps = allSteps(board, alsXz)
    expect(steps.map((step) => said(step))).toEqual(['r1c6-3 r2c6-3 r3c6-3 r4c5-3 r5c5-3 r6c5-3'])
    expect(verifyStep(board, steps[0]!)).toEqual({ proven: true })
  })

  it('locks all digits of two sets joined twice', () => {
    const board = limitedBoard({ marks: { r1c1: '13', r1c2: '23', r5c1: '14', r5c2: '24' } })
    const steps = allSteps(board, alsXz)
    const doubly = steps.find(({ pattern }) => pattern.shape === 'sets' && pattern.joins.length === 2)!
    expect(verifyStep(board, doubly)).toEqual({ proven: true })
    // 1 from column 1, 2 from column 2, 3 from row 1 and box 1, 4 from row 5 and box 4
    for (const gone of ['r9c1-1', 'r9c2-2', 'r1c9-3', 'r2c3-3', 'r5c9-4', 'r6c3-4'])
      expect(said(doubly).split(' ')).toContain(gone)
  })
})

describe('als-xy-wing', () => {
  it('joins two sets by a third', () => {
    // r5c5 in the middle sees 1 of r1c5, r2c4 in column 5 and 2 of r5c1, r4c2 in row 5; both outer sets have 9
    const board = limitedBoard({ marks: { r5c5: '12', r1c5: '13', r2c4: '39', r5c1: '24', r4c2: '49' } })
    const steps = allSteps(board, alsXyWing)
    expect(steps.map((step) => said(step))).toEqual(['r2c2-9 r4c4-9'])
    expect(verifyStep(board, steps[0]!)).toEqual({ proven: true })
  })
})

describe('als-chain', () => {
  it('goes on over four sets', () => {
    // seven cells by twos in three rows, and the last one
    const marks = { r1c1: '12', r1c5: '23', r5c5: '34', r5c9: '45', r9c9: '56', r9c3: '67', r4c3: '71' }
    const board = limitedBoard({ marks })
    const steps = allSteps(board, alsChain)
    expect(steps.map((step) => said(step))).toContain('r1c3-1 r2c3-1 r3c3-1 r4c1-1 r5c1-1 r6c1-1')
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  })
})

describe('sue-de-coq', () => {
  it('basic: four digits in two crossing cells, a pair of each beside them', () => {
    const board = limitedBoard({ marks: { r1c1: '1234', r1c2: '1234', r1c7: '12', r2c3: '34' } })
    const [step, ...more] = allSteps(board, sueDeCoq)
    expect(more).toEqual([])
    expect(verifyStep(board, step!)).toEqual({ proven: true })
    const gone = said(step!).split(' ')
    for (const candidate of ['r1c9-1', 'r1c9-2', 'r3c1-3', 'r3c1-4']) expect(gone).toContain(candidate)
    // 1 and 2 are locked in row 1, not in box 1
    for (const candidate of ['r3c1-1', 'r1c9-3']) expect(gone).not.toContain(candidate)
  })

  it('extended: a digit beside the crossing that the crossing lacks', () => {
    const board = limitedBoard({ marks: { r1c1: '1234', r1c2: '1234', r1c7: '15', r1c8: '25', r2c3: '34' } })
    const steps = allSteps(board, sueDeCoq)
    expect(steps.length).toBeGreaterThan(0)
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
    expect(steps.some((step) => said(step).includes('r1c9-5'))).toBe(true)
  })
})

describe('death-blossom', () => {
  it('has a petal for each digit of the stem', () => {
    const board = limitedBoard({ marks: { r5c5: '123', r5c1: '19', r1c5: '29', r4c4: '39' } })
    const steps = allSteps(board, deathBlossom)
    expect(steps).toEqual([])
    const open = limitedBoard({
      marks: { r5c5: '123', r5c1: '17', r4c1: '79', r1c5: '28', r1c4: '89', r6c4: '39' },
    })
    const found = allSteps(open, deathBlossom)
    for (const step of found) expect(verifyStep(open, step)).toEqual({ proven: true })
    expect(found.map((step) => said(step))).toEqual(['r4c4-9'])
  })
})

describe('death-blossom-with-set-stem', () => {
  it('has petals for so many digits of the stem that too few are left', () => {
    // 9 in r4c789 or r5c1 makes r4c1 a 2 and r5c9 a 3: r5c2 and r5c3 would have 1 alone between them
    const board = limitedBoard({ marks: { r5c2: '123', r5c3: '123', r4c1: '29', r5c9: '39' } })
    const steps = allSteps(board, setStemBlossom)
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
    expect(steps.map((step) => said(step))).toEqual(['r4c7-9 r4c8-9 r4c9-9 r5c1-9'])
  })

  it('starves its stem, which is looser than almost locked', () => {
    let looked = 0
    for (const { board } of stuckBoards(20, techniquesUpTo('mark'), { seed: 33 })) {
      for (const { pattern, removals } of allSteps(board, setStemBlossom)) {
        if (pattern.shape !== 'exclusion') continue
        const { cells } = pattern
        const digits = (marks: readonly number[]) =>
          digitsOf(cells.reduce((set, cell) => set | marks[cell]!, 0)).length
        expect(digits(board.candidates)).toBeGreaterThan(cells.length + 1)
        for (const removal of removals)
          expect(digits(aftermathOf(factsFor(board)).leftBy(removal))).toBeLessThan(cells.length)
        looked++
      }
    }
    expect(looked).toBeGreaterThan(10)
  })
})
