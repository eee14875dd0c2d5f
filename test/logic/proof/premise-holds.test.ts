import { describe, expect, it } from 'vitest'
import { applyTo } from '../../../src/grid/board/edit.js'
import { cellPremise, findPremiseFault, housePremise } from '../../../src/logic/proof/premise-holds.js'
import type { Premise } from '../../../src/logic/steps/step.js'
import { boardWithMarks } from '../../support/boards.js'
import { at, cell } from '../../support/steps.js'

/** r1c1 holds a 5; r1c2 has 1, 2 and r1c3 has 2, 3; all other cells keep what the 5 leaves. */
const board = applyTo(boardWithMarks({ r1c2: '12', r1c3: '23' }), {
  placements: [{ cell: at('r1c1'), digit: 5 }],
  removals: [],
})
const house = (index: number, digit: number, ...names: string[]): Premise => ({
  kind: 'house',
  house: index,
  digit,
  cells: names.map((name) => at(name)),
})
const rowTwos = ['r1c2', 'r1c3', 'r1c4', 'r1c5', 'r1c6', 'r1c7', 'r1c8', 'r1c9']

describe('the premise that the board gives', () => {
  it('for a cell is its candidates, or the digit that stands there', () => {
    expect(cellPremise(board, at('r1c2'))).toEqual(cell('r1c2', '12'))
    expect(cellPremise(board, at('r1c1'))).toEqual(cell('r1c1', '5'))
  })

  it('for a house is the places of the digit, or the cell where it stands', () => {
    expect(housePremise(board, 0, 2)).toEqual(house(0, 2, ...rowTwos))
    expect(housePremise(board, 0, 1)).toEqual(house(0, 1, 'r1c2', ...rowTwos.slice(2)))
    expect(housePremise(board, 0, 5)).toEqual(house(0, 5, 'r1c1'))
  })
})

describe('a premise that the board does not bear out', () => {
  it('is none where each names just what is there', () => {
    const premises = [cell('r1c2', '21'), cell('r1c1', '5'), house(0, 2, ...rowTwos.toReversed())]
    expect(findPremiseFault(board, [...premises, house(0, 5, 'r1c1')])).toBeUndefined()
    expect(findPremiseFault(board, [])).toBeUndefined()
  })

  const candidates = (names: readonly string[], digit: number) =>
    names.map((name) => ({ cell: at(name), digit }))
  it.each<[string, Premise, { unmentioned?: object[]; ruledOut?: object[] }]>([
    ['leaves out a candidate', cell('r1c2', '1'), { unmentioned: [{ cell: at('r1c2'), digit: 2 }] }],
    ['names a digit that is gone', cell('r1c2', '123'), { ruledOut: [{ cell: at('r1c2'), digit: 3 }] }],
    [
      'does both',
      cell('r1c2', '13'),
      { unmentioned: [{ cell: at('r1c2'), digit: 2 }], ruledOut: [{ cell: at('r1c2'), digit: 3 }] },
    ],
    [
      'names another digit than the one that stands there',
      cell('r1c1', '6'),
      { unmentioned: [{ cell: at('r1c1'), digit: 5 }], ruledOut: [{ cell: at('r1c1'), digit: 6 }] },
    ],
    ['leaves out a place', house(0, 2, ...rowTwos.slice(1)), { unmentioned: candidates(['r1c2'], 2) }],
    ['names a place that is gone', house(0, 2, 'r1c1', ...rowTwos), { ruledOut: candidates(['r1c1'], 2) }],
    [
      'names a place outside the house',
      house(0, 2, ...rowTwos, 'r2c2'),
      { ruledOut: candidates(['r2c2'], 2) },
    ],
    [
      'names another place than where the digit stands',
      house(0, 5, 'r1c2'),
      { unmentioned: candidates(['r1c1'], 5), ruledOut: candidates(['r1c2'], 5) },
    ],
  ])('%s', (_, premise, { unmentioned = [], ruledOut = [] }) => {
    const good = cell('r1c3', '23')
    expect(findPremiseFault(board, [good, premise, cell('r1c3', '2')])).toEqual({
      kind: 'premise-fails',
      index: 1,
      premise,
      unmentioned,
      ruledOut,
    })
  })
})
