import { describe, expect, it } from 'vitest'
import { HINT_DEPTHS, type HintDepth, hint } from '../../src/explain/hint.js'
import type { MistakeHint } from '../../src/explain/mistake-hint.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { boardFromMarks, newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { cellAt } from '../support/boards.js'
import { PUZZLES } from '../support/puzzles.js'

const puzzle = PUZZLES.xyWing
const start = newBoard(puzzle)
const at = (name: string, digit: number) => ({ cell: cellAt(name), digit })
const placed = (board: Board, name: string, digit: number) =>
  applyTo(board, { placements: [at(name, digit)], removals: [] })

// row 1 begins with a printed 5 and ends with a 2; the last cell of the grid is a 7
const BOARDS = {
  clash: placed(start, 'r1c9', 5),
  'other wrong digit': placed(start, 'r9c9', 1),
  'removed mark': applyTo(start, { placements: [], removals: [at('r9c9', 7)] }),
}

function mistakeAt<Depth extends HintDepth>(board: Board, depth: Depth): MistakeHint<Depth> {
  const answer = hint(board, { depth })
  if (answer.kind !== 'mistake') throw new Error(`no mistake but ${answer.kind}`)
  return answer as MistakeHint<Depth>
}

describe('a hint about a mistake', () => {
  it.each(Object.entries(BOARDS))('says one sentence more at each depth: %s', (_, board) => {
    const all = mistakeAt(board, 'argument').says
    for (const [i, depth] of HINT_DEPTHS.entries()) {
      const answer = mistakeAt(board, depth)
      expect(answer.says).toEqual(all.slice(0, i + 1))
      expect('mistakes' in answer).toBe(depth === 'argument')
    }
  })

  it('says where, then which digit, then where it stands twice, then which of them is wrong', () => {
    expect(mistakeAt(BOARDS.clash, 'argument')).toEqual({
      kind: 'mistake',
      depth: 'argument',
      says: [
        'Before you go on: something is off among the digits of row 1.',
        'There are two 5s in row 1.',
        'They are in r1c1 and r1c9.',
        'The solution has no 5 in r1c9.',
      ],
      houses: [0],
      wrongDigits: [cellAt('r1c9')],
      wrongMarks: [],
      mistakes: [
        {
          kind: 'clash',
          house: 0,
          digit: 5,
          cells: [cellAt('r1c1'), cellAt('r1c9')],
          wrong: [cellAt('r1c9')],
        },
      ],
    })
  })

  it('says of a digit without a clash that it is not the one of the solution', () => {
    expect(mistakeAt(BOARDS['other wrong digit'], 'argument').says).toEqual([
      'Before you go on: something is off among the digits of box 9.',
      "One of them clashes with no other digit, but it is not the solution's.",
      'It is the one in r9c9.',
      'The solution has no 1 in r9c9.',
    ])
  })

  it('says of a removed mark that it is still needed', () => {
    expect(mistakeAt(BOARDS['removed mark'], 'argument').says).toEqual([
      'Before you go on: something is off among the pencil marks of box 9.',
      'One that is still needed was removed.',
      'It was removed from r9c9.',
      'The solution has 7 in r9c9.',
    ])
  })

  it('speaks of clashes first, then of other digits, then of marks', () => {
    const all = [
      at('r9c9', 1), // no clash
      at('r1c9', 5), // a clash
    ].reduce(
      (board, { cell, digit }) => applyTo(board, { placements: [{ cell, digit }], removals: [] }),
      applyTo(start, { placements: [], removals: [at('r9c8', 5)] }),
    )
    const { mistakes, wrongDigits, wrongMarks, says } = mistakeAt(all, 'argument')
    expect(mistakes.map(({ kind }) => kind)).toEqual(['clash', 'not-the-solution', 'removed'])
    expect(wrongDigits).toEqual([cellAt('r1c9'), cellAt('r9c9')])
    expect(wrongMarks).toEqual([cellAt('r9c8')])
    expect(says[1]).toBe('There are two 5s in row 1.')
  })

  it('is not given where nothing is noted so far', () => {
    const blank = boardFromMarks(puzzle, puzzle.givens, new Array(81).fill(undefined))
    expect(hint(blank)).toEqual({ ...hint(puzzle) })
  })
})
