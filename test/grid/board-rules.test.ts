import { beforeEach, describe, expect, it } from 'vitest'
import {
  contradictionOf,
  hasCandidate,
  isNoted,
  openCount,
  placesIn,
  puzzleOf,
} from '../../src/grid/board/ask.js'
import { applyTo, eraseDigit, noteMarks, restoreCandidates } from '../../src/grid/board/edit.js'
import { boardFromMarks, boardFromParts, newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { digitSet, digitsOf } from '../../src/grid/digits.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import { makePuzzle } from '../../src/grid/puzzle.js'

const FOUR = boxedGeometry(2, 2)
const EMPTY = new Array<number>(16).fill(0)
const puzzle = makePuzzle(EMPTY.with(0, 1), FOUR)
/** Made anew for each test, so that none can spoil another's. */
let board: Board
beforeEach(() => {
  board = newBoard(puzzle)
})
const all = new Array<number>(16).fill(15)
const at = (cell: number, digit: number) => ({ cell, digit })
const marks = (some: Board) => some.candidates.map((set) => digitsOf(set).join(''))

describe('a board of order 4 with one given', () => {
  it('has the marks that the given leaves', () => {
    expect(marks(board)).toEqual([
      '',
      '234',
      '234',
      '234',
      '234',
      '234',
      '1234',
      '1234',
      '234',
      '1234',
      '1234',
      '1234',
      '234',
      '1234',
      '1234',
      '1234',
    ])
    expect(board.given).toEqual(EMPTY.with(0, 1))
    expect(board.removed).toEqual(EMPTY)
    expect(board.noted).toEqual(new Array(16).fill(1))
    expect(openCount(board)).toBe(15)
    expect(puzzleOf(board)).toEqual(puzzle)
  })

  it('answers for its candidates and places', () => {
    expect([0, 1, 2, 3, 4, 5].map((digit) => hasCandidate(board, 1, digit))).toEqual([
      false,
      false,
      true,
      true,
      true,
      false,
    ])
    expect(digitsOf(placesIn(board, 0, 2))).toEqual([2, 3, 4])
    expect(digitsOf(placesIn(board, 1, 1))).toEqual([3, 4])
    expect(placesIn(board, 0, 1)).toBe(0)
  })

  it('has no candidate of a digit that there is not', () => {
    expect([-31, 0, 1, 4, 5, 33].filter((digit) => hasCandidate(board, 6, digit))).toEqual([1, 4])
  })

  it('leaves a given alone', () => {
    expect(applyTo(board, { placements: [], removals: [at(0, 1), at(0, 2)] })).toEqual(board)
    expect(applyTo(board, { placements: [at(0, 1)], removals: [] })).toEqual(board)
  })

  it('marks only digits that there are, down to the last cell', () => {
    const full = [1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1]
    const last = applyTo(boardFromMarks(puzzle, full.with(14, 0).with(15, 0), all), {
      placements: [at(14, full[14]!)],
      removals: [],
    })
    expect(last.candidates).toEqual(EMPTY.with(15, 1))
  })

  it('is never changed by what is made of it', () => {
    const before = applyTo(board, { placements: [at(5, 3)], removals: [at(1, 4)] })
    const copy = boardFromParts(puzzle, before)
    eraseDigit(before, 5)
    restoreCandidates(before, [at(1, 4)])
    noteMarks(before, 2, 8)
    noteMarks(before, 2, undefined)
    noteMarks(before, 3, 8)
    applyTo(before, { placements: [at(5, 2), at(15, 4)], removals: [at(3, 3)] })
    expect(before).toEqual(copy)
  })

  it('takes placements and removals, and stays as it was', () => {
    const after = applyTo(board, { placements: [at(5, 3)], removals: [at(1, 4), at(15, 2)] })
    expect(after.digits).toEqual(EMPTY.with(0, 1).with(5, 3))
    expect(marks(after)).toEqual([
      '',
      '2',
      '234',
      '234',
      '24',
      '',
      '124',
      '124',
      '234',
      '124',
      '1234',
      '1234',
      '234',
      '124',
      '1234',
      '134',
    ])
    expect(after.removed).toEqual(EMPTY.with(1, 8).with(15, 2))
    expect(marks(board)[1]).toBe('234')
    expect(board.digits[5]).toBe(0)
    expect(openCount(after)).toBe(14)
    expect(puzzleOf(after)).toEqual(puzzle)
  })

  it('has a digit overwritten', () => {
    const twos = applyTo(board, { placements: [at(5, 2)], removals: [at(4, 2)] })
    const threes = applyTo(twos, { placements: [at(5, 3)], removals: [] })
    expect(threes).toEqual(applyTo(board, { placements: [at(5, 3)], removals: [at(4, 2)] }))
    expect(applyTo(twos, { placements: [at(5, 2)], removals: [] })).toEqual(twos)
  })

  it('has a digit erased, and removals restored, as if they had never been', () => {
    const struck = applyTo(board, { placements: [], removals: [at(5, 4), at(6, 3), at(7, 2)] })
    const placed = applyTo(struck, { placements: [at(5, 3), at(7, 3)], removals: [] })
    expect(eraseDigit(placed, 7)).toEqual(applyTo(struck, { placements: [at(5, 3)], removals: [] }))
    expect(eraseDigit(eraseDigit(placed, 7), 5)).toEqual(struck)
    expect(restoreCandidates(struck, [at(5, 4), at(6, 3), at(7, 2)])).toEqual(board)
    expect(eraseDigit(eraseDigit(restoreCandidates(placed, [at(6, 3), at(5, 4)]), 5), 7)).toEqual(
      restoreCandidates(struck, [at(6, 3), at(5, 4)]),
    )
    // a peer of two equal digits has the mark back when both are gone
    const twins = applyTo(board, { placements: [at(6, 3), at(12, 3)], removals: [] })
    expect(digitsOf(eraseDigit(twins, 6).candidates[14]!)).toEqual([1, 2, 4])
    expect(digitsOf(eraseDigit(twins, 6).candidates[10]!)).toEqual([1, 2, 3, 4])
    expect(eraseDigit(board, 3)).toBe(board)
  })

  it('has marks written anew among those that digits leave', () => {
    const placed = applyTo(board, { placements: [at(5, 3)], removals: [at(4, 4)] })
    const noted = noteMarks(placed, 4, digitSet([3, 4]))
    expect(digitsOf(noted.candidates[4]!)).toEqual([4])
    expect(digitsOf(noted.removed[4]!)).toEqual([2])
    expect(digitsOf(eraseDigit(noted, 5).candidates[4]!)).toEqual([3, 4])
    expect(noteMarks(noted, 4, undefined).removed[4]).toBe(0)
  })

  it('shows which cells were noted in', () => {
    const blank = boardFromMarks(puzzle, puzzle.givens, new Array(16).fill(undefined))
    expect(blank.noted).toEqual(EMPTY.with(0, 1))
    expect(isNoted(blank, 0)).toBe(true)
    expect(isNoted(blank, 1)).toBe(false)
    expect(isNoted(applyTo(blank, { placements: [], removals: [at(1, 2)] }), 1)).toBe(true)
    expect(isNoted(noteMarks(blank, 1, 15), 1)).toBe(true)
    expect(noteMarks(noteMarks(blank, 1, 15), 1, undefined)).toEqual(blank)
  })

  it('is made of its parts again; those of a given are its own', () => {
    const after = applyTo(board, { placements: [at(5, 3)], removals: [at(5, 4), at(1, 4)] })
    expect(boardFromParts(puzzle, after)).toEqual(after)
    const parts = { digits: EMPTY, removed: EMPTY.with(0, 15).with(1, 8), noted: EMPTY }
    const made = boardFromParts(puzzle, parts)
    expect(made.digits).toEqual(EMPTY.with(0, 1))
    expect(made.removed).toEqual(EMPTY.with(1, 8))
    expect(made.noted).toEqual(EMPTY.with(0, 1))
    expect(marks(made)[1]).toBe('23')
  })
})

describe('why a board cannot be finished', () => {
  const without = (cells: readonly number[], digits: readonly number[]) =>
    applyTo(board, {
      placements: [],
      removals: cells.flatMap((cell) => digits.map((digit) => at(cell, digit))),
    })

  it('is a cell without candidates, before all else', () => {
    expect(contradictionOf(without([7, 9], [1, 2, 3, 4]))).toEqual({ kind: 'empty-cell', cell: 7 })
  })

  it('is a digit twice in a house', () => {
    const twice = applyTo(board, { placements: [at(6, 1), at(14, 1)], removals: [] })
    expect(contradictionOf(twice)).toEqual({ kind: 'digit-twice', house: 6, digit: 1 })
  })

  it('is a house without a place for a digit, the lowest there is', () => {
    expect(contradictionOf(without([1, 2, 3], [3]))).toEqual({ kind: 'no-place', house: 0, digit: 3 })
    expect(contradictionOf(without([12, 13, 14, 15], [2, 4]))).toEqual({
      kind: 'no-place',
      house: 3,
      digit: 2,
    })
  })

  it('is nothing while nothing shows', () => {
    expect(contradictionOf(board)).toBeUndefined()
    expect(contradictionOf(without([1, 2], [3]))).toBeUndefined()
  })
})

describe('what is no board is refused, with the place', () => {
  const parts = { digits: puzzle.givens, removed: EMPTY, noted: EMPTY }
  it.each<[RegExp, () => unknown]>([
    [/2x2 takes 16 digits.*not 15 and 16/, () => boardFromMarks(puzzle, EMPTY.slice(1), all)],
    [/not 16 and 17/, () => boardFromMarks(puzzle, EMPTY, [...all, 15])],
    [/no digit 5 in cell 3; they go from 0 to 4/, () => boardFromMarks(puzzle, EMPTY.with(3, 5), all)],
    [/no digit -1 in cell 15/, () => boardFromMarks(puzzle, EMPTY.with(15, -1), all)],
    [/no digit 0.5 in cell 3/, () => boardFromMarks(puzzle, EMPTY.with(3, 0.5), all)],
    [/Cell 0 has the given 1, so 2 cannot stand there/, () => boardFromMarks(puzzle, EMPTY.with(0, 2), all)],
    [/no set of candidates 16 in cell 15; .* 0 to 15/, () => boardFromMarks(puzzle, EMPTY, all.with(15, 16))],
    [/no set of candidates -1 in cell 1/, () => boardFromMarks(puzzle, EMPTY, all.with(1, -1))],
    [/not 16 and 1\./, () => boardFromParts(puzzle, { ...parts, removed: [0] })],
    [/not 16 and 2\./, () => boardFromParts(puzzle, { ...parts, noted: [0, 0] })],
    [/no digit 5/, () => boardFromParts(puzzle, { ...parts, digits: EMPTY.with(4, 5) })],
    [/no set of candidates 16/, () => boardFromParts(puzzle, { ...parts, removed: EMPTY.with(4, 16) })],
    [
      /no number of notes 2 in cell 4; they go from 0 to 1/,
      () => boardFromParts(puzzle, { ...parts, noted: EMPTY.with(4, 2) }),
    ],
    [/no cell 16; they go from 0 to 15/, () => applyTo(board, { placements: [at(16, 1)], removals: [] })],
    [/no cell -1;/, () => applyTo(board, { placements: [], removals: [at(-1, 1)] })],
    [
      /no digit 5 in cell 3; they go from 1 to 4/,
      () => applyTo(board, { placements: [], removals: [at(3, 5)] }),
    ],
    [/no digit 0 in cell 3/, () => applyTo(board, { placements: [at(3, 0)], removals: [] })],
    [
      /Cell 0 has the given 1, so 2 cannot be placed/,
      () => applyTo(board, { placements: [at(0, 2)], removals: [] }),
    ],
    [/Cell 0 has the given 1, so it cannot be erased/, () => eraseDigit(board, 0)],
    [/Cell 0 has the given 1, so it cannot be noted in/, () => noteMarks(board, 0, 1)],
    [/no set of candidates 16 in cell 1/, () => noteMarks(board, 1, 16)],
    [/no cell 16/, () => eraseDigit(board, 16)],
    [/no digit 5/, () => restoreCandidates(board, [at(1, 5)])],
  ])('%s', (message, make) => {
    expect(make).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(make).toThrow(message)
  })

  it('but sets of candidates under digits do not matter', () => {
    const wild = all.with(0, 99).with(5, -3)
    const made = boardFromMarks(puzzle, EMPTY.with(5, 3), wild)
    expect(made).toEqual(boardFromMarks(puzzle, EMPTY.with(5, 3), all))
    expect(digitsOf(eraseDigit(made, 5).candidates[5]!)).toEqual(digitsOf(digitSet([2, 3, 4])))
  })
})
