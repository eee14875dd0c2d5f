import { describe, expect, it } from 'vitest'
import { applyTo } from '../../../src/grid/board/edit.js'
import type { Board, Candidate } from '../../../src/grid/board.js'
import { digitSet } from '../../../src/grid/digits.js'
import { cellPremise, housePremise } from '../../../src/logic/proof/premise-holds.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import {
  conclusionsFrom,
  type Draft,
  draftsOf,
  holdersOf,
  stepOfDraft,
  type Way,
} from '../../../src/logic/uniqueness/conclusions.js'
import { extrasOf } from '../../../src/logic/uniqueness/pattern.js'
import { factsFor } from '../../support/facts.js'
import { type Limits, limitedBoard } from '../../support/limited-board.js'
import { said } from '../../support/said.js'
import { at } from '../../support/steps.js'

const NAMES = ['r1c1', 'r1c4', 'r2c1', 'r2c4']
const CORNERS = NAMES.map((name) => at(name))

/** The rectangle of rows 1 and 2 and columns 1 and 4 with 1 and 2, on a board with these limits. */
function patternOn(board: Board) {
  const allowed = CORNERS.map(() => digitSet([1, 2]))
  return { cells: CORNERS, allowed, extras: extrasOf(board, CORNERS, allowed) }
}
const marks = (
  r1c1: string,
  r1c4: string,
  r2c1: string,
  r2c4: string,
  more: Record<string, string> = {},
) => ({
  marks: { r1c1, r1c4, r2c1, r2c4, ...more },
})
const inShort = ({ placements = [], removals }: Draft) => said({ placements, removals })
const drafted = (limits: Limits, way: Way) => {
  const board = limitedBoard(limits)
  return draftsOf(board, patternOn(board), way)
}
/** `r2c2-3 r2c5-3` for cells of row 2 and these digits. */
const gone = (columns: readonly number[], digits: readonly number[]) =>
  columns.flatMap((column) => digits.map((digit) => `r2c${column}-${digit}`)).join(' ')

describe('what may follow from extras in one cell', () => {
  it.each<[string, Limits, string[]]>([
    ['one extra is true', marks('12', '12', '12', '123'), ['r2c4=3']],
    ['of several one is true', marks('12', '12', '12', '1234'), ['r2c4-1 r2c4-2']],
    ['no more in two cells', marks('12', '12', '123', '123'), []],
  ])('%s', (_, limits, expected) => {
    expect(drafted(limits, 'one-cell').map(inShort)).toEqual(expected)
  })
})

describe('what may follow from extras of one digit', () => {
  it.each<[string, Limits, string[]]>([
    ['in a row', marks('12', '12', '123', '123'), [gone([2, 3, 5, 6, 7, 8, 9], [3])]],
    ['on a diagonal', marks('12', '123', '123', '12'), ['r1c2-3 r1c3-3 r2c5-3 r2c6-3']],
    ['in all four', marks('123', '123', '123', '123'), []],
    ['in one cell', marks('12', '12', '12', '123'), []],
    ['of two digits', marks('12', '12', '123', '124'), []],
  ])('%s', (_, limits, expected) => {
    expect(drafted(limits, 'one-digit').map(inShort)).toEqual(expected)
  })
})

describe('what may follow from extras as a cell of a subset', () => {
  const shared = marks('12', '12', '123', '124', { r2c8: '34' })
  it.each<[string, Limits, string[]]>([
    ['with one other cell', shared, [gone([2, 3, 5, 6, 7, 9], [3, 4])]],
    [
      'with two other cells',
      marks('12', '12', '123', '124', { r2c8: '35', r2c9: '45' }),
      [gone([2, 3, 5, 6, 7], [3, 4, 5])],
    ],
    [
      'with three',
      marks('12', '12', '123', '124', { r2c7: '56', r2c8: '35', r2c9: '46' }),
      [gone([2, 3, 5, 6], [3, 4, 5, 6])],
    ],
    [
      'with four',
      marks('12', '12', '123', '124', { r2c6: '67', r2c7: '56', r2c8: '35', r2c9: '47' }),
      [gone([2, 3, 5], [3, 4, 5, 6, 7])],
    ],
    [
      'no more with five',
      marks('12', '12', '123', '124', { r2c5: '78', r2c6: '67', r2c7: '56', r2c8: '35', r2c9: '48' }),
      [],
    ],
    [
      'with a cell of the same box',
      marks('123', '12', '124', '12', { r3c2: '34' }),
      ['r1c2-3 r1c2-4 r1c3-3 r1c3-4 r2c2-3 r2c2-4 r2c3-3 r2c3-4 r3c1-3 r3c1-4 r3c3-3 r3c3-4'],
    ],
    ['not for one digit', marks('12', '12', '123', '123', { r2c8: '34' }), []],
    ['not in one cell', marks('12', '12', '12', '1234', { r2c8: '34' }), []],
    ['not on a diagonal', marks('123', '12', '12', '124', { r2c8: '34', r1c8: '34' }), []],
  ])('%s', (_, limits, expected) => {
    expect(drafted(limits, 'subset').map(inShort)).toEqual(expected)
  })

  it('needs those other cells for premises', () => {
    const [draft] = drafted(shared, 'subset')
    expect(draft!.more).toEqual([cellPremise(limitedBoard(shared), at('r2c8'))])
  })

  it('does not count a cell that holds a digit', () => {
    const board = applyTo(limitedBoard(marks('12', '12', '123', '124')), {
      placements: [{ cell: at('r2c8'), digit: 9 }],
      removals: [],
    })
    expect(draftsOf(board, patternOn(board), 'subset')).toEqual([])
  })

  it('is nothing where no other cell of the house has the digits', () => {
    const columns = [2, 3, 5, 6, 7, 9].map((column) => [`r2c${column}`, '56789'] as const)
    const bare = marks('12', '12', '123', '124', { r2c8: '34', ...Object.fromEntries(columns) })
    expect(drafted(bare, 'subset')).toEqual([])
  })
})

describe('what may follow from a digit confined to the two cells with extras', () => {
  const places = { 1: { 'row 2': 'r2c1 r2c4' } }
  it.each<[string, Limits, string[]]>([
    ['the other digit leaves them', { ...marks('12', '12', '1234', '1256'), places }, ['r2c1-2 r2c4-2']],
    [
      'in a column',
      { ...marks('12', '123', '12', '124'), places: { 2: { 'column 4': 'r1c4 r2c4' } } },
      ['r1c4-1 r2c4-1'],
    ],
    ['not where it has a third place', marks('12', '12', '1234', '1256'), []],
    [
      'not on a diagonal',
      { ...marks('123', '12', '12', '124'), places: { 1: { 'row 2': 'r2c1 r2c4' } } },
      [],
    ],
    ['not with one cell', { ...marks('12', '12', '12', '123'), places }, []],
    ['not with three', { ...marks('12', '123', '123', '123'), places }, []],
    ['not where the other digit is gone', { ...marks('12', '12', '134', '156'), places }, []],
  ])('%s', (_, limits, expected) => {
    expect(drafted(limits, 'locked-digit').map(inShort)).toEqual(expected)
  })

  it('needs the house for a premise', () => {
    const limits = { ...marks('12', '12', '1234', '1256'), places }
    const [draft] = drafted(limits, 'locked-digit')
    expect(draft!.more).toEqual([housePremise(limitedBoard(limits), 1, 1)])
  })

  it('goes by a house of both cells', () => {
    const aside = { ...marks('12', '12', '1234', '1256'), places: { 1: { 'column 1': 'r2c1 r5c1' } } }
    expect(drafted(aside, 'locked-digit')).toEqual([])
    const third = { ...marks('123', '123', '123', '12'), places: { 1: { 'row 1': 'r1c1 r1c4' } } }
    expect(drafted(third, 'locked-digit')).toEqual([])
  })

  it('needs a pattern in which both cells take the same two digits', () => {
    const limits = { ...marks('12', '12', '1234', '1256'), places }
    const board = limitedBoard(limits)
    const other = {
      ...patternOn(board),
      allowed: [
        [1, 2],
        [1, 2],
        [1, 3],
        [1, 2],
      ].map((digits) => digitSet(digits)),
    }
    expect(draftsOf(board, other, 'locked-digit')).toEqual([])
    const three = { ...patternOn(board), allowed: CORNERS.map(() => digitSet([1, 2, 3])) }
    expect(draftsOf(board, three, 'locked-digit')).toEqual([])
  })
})

describe('the steps of a pattern', () => {
  const limits = {
    ...marks('12', '12', '123', '124', { r2c8: '34' }),
    places: { 1: { 'row 2': 'r2c1 r2c4' } },
  }
  const board = limitedBoard(limits)

  it('are what follows in every way, each proven', () => {
    const steps = conclusionsFrom(factsFor(board), 'hidden-rectangle', patternOn(board))
    expect(steps.map((step) => said(step))).toEqual([gone([2, 3, 5, 6, 7, 9], [3, 4]), 'r2c1-2 r2c4-2'])
    for (const step of steps) {
      expect(step.technique).toBe('hidden-rectangle')
      expect(verifyStep(board, step)).toEqual({ proven: true })
    }
  })

  it('leave out the way that is left out', () => {
    expect(
      conclusionsFrom(factsFor(board), 'hidden-rectangle', patternOn(board), 'subset').map((step) =>
        said(step),
      ),
    ).toEqual(['r2c1-2 r2c4-2'])
    const one = limitedBoard(marks('12', '12', '12', '123'))
    expect(
      conclusionsFrom(factsFor(one), 'hidden-rectangle', patternOn(one)).map((step) => said(step)),
    ).toEqual(['r2c4=3'])
    expect(conclusionsFrom(factsFor(one), 'hidden-rectangle', patternOn(one), 'one-cell')).toEqual([])
  })

  it('are none for a draft that is not proven', () => {
    const removals = [{ cell: at('r9c9'), digit: 1 }]
    expect(stepOfDraft(factsFor(board), 'hidden-rectangle', patternOn(board), { removals })).toBeUndefined()
    // as if one of two extras were the only one
    const two = limitedBoard(marks('12', '12', '12', '1234'))
    const { extras, ...rest } = patternOn(two)
    expect(conclusionsFrom(factsFor(two), 'hidden-rectangle', { ...rest, extras: extras.slice(1) })).toEqual(
      [],
    )
  })
})

it('the holders of extras are their cells, each once', () => {
  const extra = (cell: number, digit: number): Candidate => ({ cell, digit })
  expect(holdersOf([extra(3, 1), extra(3, 2), extra(0, 1), extra(3, 4)])).toEqual([3, 0])
})
