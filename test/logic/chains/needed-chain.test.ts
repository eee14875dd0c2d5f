import { describe, expect, it } from 'vitest'
import { linkNotation } from '../../../src/explain/notation.js'
import type { Conclusion } from '../../../src/grid/board.js'
import { STANDARD } from '../../../src/grid/geometry.js'
import type { LinkKinds } from '../../../src/logic/chains/graph.js'
import { neededPattern } from '../../../src/logic/chains/needed-chain.js'
import { cellPremise, housePremise } from '../../../src/logic/proof/premise-holds.js'
import { cellAt } from '../../support/boards.js'
import { limitedBoard } from '../../support/limited-board.js'

const at = (name: string, digit: number) => ({ cell: cellAt(name), digit })
const removal = (name: string, digit: number): Conclusion => ({ placements: [], removals: [at(name, digit)] })

const ALL: LinkKinds = { cells: true, houses: true, groups: true, setsOf: 7, withinCells: true }

/** The pattern made of all cells whose marks are given, as links are written. */
function overCells(marks: Readonly<Record<string, string>>, conclusion: Conclusion, most = 99, kinds = ALL) {
  const board = limitedBoard({ marks })
  const premises = Object.keys(marks).map((name) => cellPremise(board, cellAt(name)))
  const pattern = neededPattern(STANDARD, kinds, premises, conclusion, most)
  if (pattern.shape !== 'chain') return pattern.shape
  const fins = pattern.links.flatMap((link) => link.fins ?? [])
  return { links: linkNotation(STANDARD, pattern.links), fins }
}

describe('neededPattern', () => {
  it('is the chain itself where there is one', () => {
    const marks = { r1c1: '12', r1c5: '23', r5c5: '31' }
    expect(overCells(marks, removal('r5c1', 1))).toMatchObject({ fins: [] })
  })

  it('lets a link serve twice: out on one side and back on the other', () => {
    const marks = { r1c1: '12', r1c5: '23', r5c5: '34', r5c1: '42' }
    const placement = { placements: [at('r1c1', 1)], removals: [] }
    expect(overCells(marks, placement)).toEqual({
      links: '(1=2)r1c1-(2)r1c5=(4)r5c5-(4)r5c1=(1)r1c1',
      fins: [],
    })
    expect(overCells(marks, placement, 99, { cells: true })).toEqual({
      links: '(1=2)r1c1-(2=3)r1c5-(3=4)r5c5-(4=2)r5c1-(2=1)r1c1',
      fins: [],
    })
  })

  it('has fins where the candidate removed rules them out', () => {
    const marks = { r1c1: '12', r1c5: '23', r5c5: '134', r9c5: '45', r9c1: '51' }
    expect(overCells(marks, removal('r5c1', 1))).toMatchObject({ fins: [at('r5c5', 1)] })
  })

  it('links the parts of a house', () => {
    const board = limitedBoard({ places: { 5: { 'column 9': 'r5c9 r7c9 r8c9', 'column 1': 'r5c1 r9c1' } } })
    const premises = [17, 9].map((house) => housePremise(board, house, 5))
    expect(neededPattern(STANDARD, ALL, premises, removal('r9c8', 5), 99)).toMatchObject({
      shape: 'chain',
      links: [{ by: { house: 17 } }, { kind: 'weak' }, { by: { house: 9 } }],
    })
  })

  it('takes several cells for a set where that is the argument', () => {
    const marks = { r4c8: '59', r4c3: '56', r3c3: '68', r3c8: '589' }
    expect(overCells(marks, removal('r2c8', 9))).toEqual({
      links: '(9)r34c8=(8)r3c8-(8)r3c3=(5)r4c3-(5=9)r4c8',
      fins: [],
    })
  })

  it('leaves the story to the premises where several things met on the way are needed at once, or the chain is too long', () => {
    // 5 in r4c8 goes on to 9 in r2c9; then r3c8 has lost 5, 8 and 9 to three cells
    const marks = { r4c8: '59', r4c3: '56', r3c3: '68', r2c3: '28', r2c9: '29', r3c8: '589' }
    expect(overCells(marks, { placements: [at('r4c8', 9)], removals: [] })).toBe('premises')
    const long = { r1c1: '12', r1c5: '23', r5c5: '34', r5c9: '41' }
    expect(overCells(long, removal('r1c9', 1), 1)).toBe('premises')
    expect(overCells(long, removal('r1c9', 1))).not.toBe('premises')
  })
})
