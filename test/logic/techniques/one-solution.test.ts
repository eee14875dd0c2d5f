import { describe, expect, it } from 'vitest'
import { openCount } from '../../../src/grid/board/ask.js'
import { boardFromMarks } from '../../../src/grid/board/make.js'
import type { Board } from '../../../src/grid/board.js'
import { digitSet } from '../../../src/grid/digits.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { makePuzzle } from '../../../src/grid/puzzle.js'
import { CATALOGUE, techniqueNamed, techniquesUpTo } from '../../../src/logic/catalogue.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { isProvenBy } from '../../../src/logic/proof/trim.js'
import { solve } from '../../../src/logic/solving/solve.js'
import type { Technique } from '../../../src/logic/technique.js'
import { avoidableRectangle } from '../../../src/logic/techniques/avoidable-rectangle.js'
import { bugPlusOne, bugPlusSeveral } from '../../../src/logic/techniques/bivalue-grave.js'
import { extendedRectangle } from '../../../src/logic/techniques/extended-rectangle.js'
import { hiddenRectangle, uniqueRectangles } from '../../../src/logic/techniques/rectangles.js'
import { uniqueLoop } from '../../../src/logic/techniques/unique-loops.js'
import { cellAt } from '../../support/boards.js'
import { type Limits, limitedBoard } from '../../support/limited-board.js'
import { allSteps, stuckBoards } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

const type = (n: number) => uniqueRectangles.find(({ name }) => name === `unique-rectangle-type-${n}`)!

const foundOn = (board: Board, technique: Technique) => {
  const steps = allSteps(board, technique)
  for (const step of steps) {
    expect(verifyStep(board, step)).toEqual({ proven: true })
    // Without the assumption, and with a printed digit in the pattern, nothing is left of it.
    const { assumes: _, ...bare } = step
    expect(verifyStep(board, bare)).toMatchObject({ proven: false })
  }
  return steps.map((step) => said(step))
}
const found = (limits: Limits, technique: Technique) => foundOn(limitedBoard(limits), technique)
const corners = (third: string, fourth: string, second = '12') => ({
  r1c1: '12',
  r1c4: second,
  r2c1: third,
  r2c4: fourth,
})

describe('unique rectangles', () => {
  it('type 1: extras in one corner', () => {
    expect(found({ marks: corners('12', '1234') }, type(1))).toEqual(['r2c4-1 r2c4-2'])
    expect(found({ marks: corners('12', '123') }, type(1))).toEqual(['r2c4=3'])
  })

  it('not across four boxes', () => {
    expect(found({ marks: { r1c1: '12', r1c4: '12', r5c1: '12', r5c4: '1234' } }, type(1))).toEqual([])
  })

  it('type 2: one extra digit in a line; type 5: on a diagonal or in three corners', () => {
    expect(found({ marks: corners('123', '123') }, type(2))).toEqual([
      'r2c2-3 r2c3-3 r2c5-3 r2c6-3 r2c7-3 r2c8-3 r2c9-3',
    ])
    expect(found({ marks: corners('123', '12', '123') }, type(5))).toEqual(['r1c2-3 r1c3-3 r2c5-3 r2c6-3'])
    expect(found({ marks: corners('123', '123') }, type(5))).toEqual([])
  })

  it('type 3: the extras and another cell make a pair', () => {
    const steps = found({ marks: { ...corners('123', '124'), r2c8: '34' } }, type(3))
    expect(steps).toEqual([
      ['r2c2', 'r2c3', 'r2c5', 'r2c6', 'r2c7', 'r2c9'].map((cell) => `${cell}-3 ${cell}-4`).join(' '),
    ])
  })

  it('type 4: a digit confined to the two corners with extras', () => {
    const limits = { marks: corners('1234', '1256'), places: { 1: { 'row 2': 'r2c1 r2c4' } } }
    expect(found(limits, type(4))).toEqual(['r2c1-2 r2c4-2'])
  })

  it('type 6: plain diagonal corners and houses that confine a digit', () => {
    const limits = {
      marks: { r1c1: '12', r1c4: '123', r2c1: '124', r2c4: '12' },
      places: { 1: { 'row 1': 'r1c1 r1c4', 'row 2': 'r2c1 r2c4' } },
    }
    expect(found(limits, type(6))).toContain('r1c4-1')
  })

  it('hidden rectangle: one plain corner and two strong links', () => {
    const limits = {
      marks: { r1c1: '12' },
      places: { 1: { 'row 2': 'r2c1 r2c4', 'column 4': 'r1c4 r2c4' } },
    }
    expect(found(limits, hiddenRectangle)).toContain('r2c4-2')
  })

  it('avoidable rectangle: placed corners count unless they are printed', () => {
    const digits = new Array<number>(81).fill(0)
    for (const [name, digit] of [
      ['r1c1', 1],
      ['r1c4', 2],
      ['r2c1', 2],
    ] as const)
      digits[cellAt(name)] = digit
    const marks = new Array<number>(81).fill(digitSet([1, 2, 3, 4, 5, 6, 7, 8, 9]))
    const empty = makePuzzle(new Array(81).fill(0))
    expect(foundOn(boardFromMarks(empty, digits, marks), avoidableRectangle)).toContain('r2c4-1')
    const printed = makePuzzle(digits.map((digit, cell) => (cell === cellAt('r1c1') ? digit : 0)))
    expect(foundOn(boardFromMarks(printed, digits, marks), avoidableRectangle)).toEqual([])
  })
})

describe('loops and wider rectangles', () => {
  it('a unique loop of six cells', () => {
    const marks = { r1c1: '12', r1c4: '12', r2c4: '12', r2c7: '12', r3c7: '12', r3c1: '123' }
    expect(found({ marks }, uniqueLoop)).toEqual(['r3c1=3'])
  })

  it('no loop where a house has a third cell or an odd one', () => {
    const marks = { r1c1: '12', r1c4: '12', r5c4: '12', r5c7: '12', r9c7: '12', r9c1: '123' }
    expect(found({ marks }, uniqueLoop)).toEqual([])
  })

  it('an extended rectangle of three digits', () => {
    const marks = { r1c1: '123', r1c4: '12', r1c7: '13', r2c1: '23', r2c4: '123', r2c7: '1239' }
    expect(found({ marks }, extendedRectangle)).toContain('r2c7=9')
  })
})

describe('bivalue universal grave', () => {
  // Made by test/support/random-boards.ts from seed 226.
  const line = '000980020001056007000001060060000000105007900080500000700060000400020501002070004'
  const techniques = [
    'full-house',
    'hidden-single',
    'naked-single',
    'pointing',
    'claiming',
    'naked-pair',
    'hidden-pair',
    'naked-triple',
    'xy-wing',
    'skyscraper',
    'two-string-kite',
  ] as const
  const grave = solve(makePuzzle([...line].map(Number)), { techniques }).board

  it('one extra: it is true, and every open cell takes part', () => {
    const [step, ...more] = allSteps(grave, bugPlusOne)
    expect(more).toEqual([])
    expect(said(step!)).toBe('r4c6=4')
    expect(step!.pattern).toMatchObject({
      cells: { length: openCount(grave) },
      extras: [{ cell: 32, digit: 4 }],
    })
    expect(verifyStep(grave, step!)).toEqual({ proven: true })
    expect(allSteps(grave, bugPlusSeveral)).toEqual([])
  })

  it('several extras: what sees them all goes', () => {
    // Order 4, nothing placed: half the cells hold 1 and 2, half 3 and 4, and the corner's row has two 3s too many.
    const low = ['r1c1', 'r1c2', 'r2c3', 'r2c4', 'r3c1', 'r3c2', 'r4c3', 'r4c4']
    const marks: Record<string, string> = {}
    for (const row of [1, 2, 3, 4]) for (const column of [1, 2, 3, 4]) marks[`r${row}c${column}`] = '34'
    for (const cell of low) marks[cell] = '12'
    const geometry = boxedGeometry(2, 2)
    const board = limitedBoard({ marks: { ...marks, r1c1: '123', r1c2: '123' } }, geometry)
    const steps = allSteps(board, bugPlusSeveral)
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
    expect(steps.map((step) => said(step, geometry))).toContain('r1c3-3 r1c4-3 r2c1-3 r2c2-3')
    expect(allSteps(board, bugPlusOne)).toEqual([])
    expect(allSteps(limitedBoard({ marks }, geometry), bugPlusOne)).toEqual([])
  })
})

describe('steps that assume one solution', () => {
  it('need it: their premises alone prove less, but for those of a whole board', () => {
    const techniques = CATALOGUE.filter(({ assumes }) => assumes)
    let asked = 0
    // from boards with singles left, where cells of one digit stand in patterns, to those that simple techniques leave
    for (const level of ['scan', 'mark'] as const) {
      const rested = level === 'scan' ? [techniqueNamed('full-house')] : techniquesUpTo(level)
      for (const { board } of stuckBoards(70, rested, { seed: 12_300 })) {
        for (const technique of techniques) {
          for (const step of allSteps(board, technique)) {
            if (step.pattern.shape === 'exchange' && step.pattern.cells.length === openCount(board)) continue
            expect(isProvenBy(board.geometry, step.premises, step), said(step)).toBe(false)
            asked++
          }
        }
      }
    }
    expect(asked).toBeGreaterThan(50)
  })
})
