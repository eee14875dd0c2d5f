import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { contradictionOf, isNoted } from '../../src/grid/board/ask.js'
import { applyTo, eraseDigit, noteMarks, restoreCandidates } from '../../src/grid/board/edit.js'
import { boardFromMarks, boardFromParts, newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { allDigits, digitSet, digitsOf } from '../../src/grid/digits.js'
import { boxedGeometry, type Geometry } from '../../src/grid/geometry.js'
import { boardFromJson, boardToJson } from '../../src/grid/json.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { seededRandom, shuffled } from '../../src/grid/random.js'
import { inverse, randomTransform, transformBoard } from '../../src/grid/symmetry.js'
import { parseBoard } from '../../src/grid/text/parse.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import {
  boardAfter,
  boardText,
  differenceFrom,
  type Edit,
  edited,
  ListedBoard,
} from '../support/board-edits.js'
import { anyPuzzle, GEOMETRIES, SEED } from './arbitraries.js'

const property = { seed: SEED, numRuns: 12 }

function anyEdits(geometry: Geometry): fc.Arbitrary<Edit[]> {
  // few cells and digits, so that edits meet
  const cell = fc.integer({ min: 0, max: Math.min(geometry.cellCount, 3 * geometry.order) - 1 })
  const digit = fc.integer({ min: 1, max: Math.min(geometry.order, 4) })
  const kind = fc.constantFrom('place' as const, 'remove' as const, 'restore' as const)
  const edit: fc.Arbitrary<Edit> = fc.oneof(
    { weight: 6, arbitrary: fc.record({ kind, cell, digit }) },
    { weight: 2, arbitrary: fc.record({ kind: fc.constant('erase' as const), cell }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('clear' as const), cell }) },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: fc.constant('note' as const),
        cell,
        marks: fc.integer({ min: 0, max: allDigits(geometry.order) }),
      }),
    },
  )
  return fc.array(edit, { maxLength: 60 })
}

describe.each(GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))('%s', (_, geometry) => {
  const anyHistory = fc
    .tuple(anyPuzzle(geometry), anyEdits(geometry))
    .map(([puzzle, edits]) => ({ puzzle, edits: edits.filter(({ cell }) => !puzzle.givens[cell]) }))

  it('edits that end in the same entries and marks end in the same board', () => {
    fc.assert(
      fc.property(anyHistory, fc.integer(), ({ puzzle, edits }, seed) => {
        const board = boardAfter(puzzle, edits)
        const listed = new ListedBoard(puzzle)
        for (const edit of edits) listed.edit(edit)
        expect(differenceFrom(listed, board)).toBeUndefined()

        const direct = listed.shortestEdits()
        expect(boardAfter(puzzle, direct)).toEqual(board)
        // notes are cleared before removals, all else in any order
        const isClear = ({ kind }: Edit) => kind === 'clear'
        const mixed = shuffled(direct, seededRandom(seed))
        const other = [...mixed.filter(isClear), ...mixed.filter((edit) => !isClear(edit))]
        expect(boardAfter(puzzle, other)).toEqual(board)
        expect(boardFromParts(puzzle, board)).toEqual(board)
      }),
      property,
    )
  })

  it('an entry that is erased, or overwritten, might never have been made', () => {
    fc.assert(
      fc.property(
        anyHistory,
        anyEdits(geometry),
        fc.nat(geometry.cellCount - 1),
        fc.integer({ min: 1, max: geometry.order }),
        fc.integer({ min: 1, max: geometry.order }),
        ({ puzzle, edits }, more, cell, digit, other) => {
          fc.pre(!puzzle.givens[cell])
          // a note goes by the candidates that show, so a person without the entry would have noted something else
          const later = more.filter(
            (edit) => !puzzle.givens[edit.cell] && edit.cell !== cell && edit.kind !== 'note',
          )
          const before = eraseDigit(boardAfter(puzzle, edits), cell)
          const without = later.reduce(edited, before)
          const entered = later.reduce(edited, edited(before, { kind: 'place', cell, digit }))
          expect(eraseDigit(entered, cell)).toEqual(without)
          expect(edited(entered, { kind: 'place', cell, digit: other })).toEqual(
            edited(without, { kind: 'place', cell, digit: other }),
          )
        },
      ),
      property,
    )
  })

  it('a transform takes all of it along, there and back', () => {
    fc.assert(
      fc.property(anyHistory, fc.integer(), ({ puzzle, edits }, seed) => {
        const board = boardAfter(puzzle, edits)
        const transform = randomTransform(geometry, seed)
        const image = transformBoard(board, transform)
        expect(boardText(transformBoard(image, inverse(transform)))).toBe(boardText(board))
        const { cellTo, digitTo } = transform
        for (const [cell, set] of board.removed.entries())
          expect(digitsOf(image.removed[cellTo[cell]!]!)).toEqual(
            digitsOf(set)
              .map((digit) => digitTo[digit]!)
              .sort((a, b) => a - b),
          )
      }),
      property,
    )
  })

  it('saved data holds all of it', () => {
    fc.assert(
      fc.property(anyHistory, ({ puzzle, edits }) => {
        const board = boardAfter(puzzle, edits)
        const saved = JSON.parse(JSON.stringify(boardToJson(board)))
        expect(boardText(boardFromJson(saved))).toBe(boardText(board))
        expect(boardText(parseBoard(JSON.stringify(saved)))).toBe(boardText(board))
      }),
      property,
    )
  })
})

describe('removals and digits', () => {
  const geometry = boxedGeometry(2, 2)
  const puzzle = makePuzzle(new Array(16).fill(0), geometry)
  const start = newBoard(puzzle)
  const at = (cell: number, digit: number) => ({ cell, digit })
  const place = (board: Board, cell: number, digit: number) =>
    applyTo(board, { placements: [at(cell, digit)], removals: [] })
  const remove = (board: Board, cell: number, digit: number) =>
    applyTo(board, { placements: [], removals: [at(cell, digit)] })
  const marks = (board: Board, cell: number) => digitsOf(board.candidates[cell]!)

  it('a removal of what a digit rules out already shows when the digit goes', () => {
    const board = remove(place(start, 0, 1), 1, 1)
    expect(marks(eraseDigit(board, 0), 1)).toEqual([2, 3, 4])
    expect(board).toEqual(place(remove(start, 1, 1), 0, 1))
  })

  it('a digit placed twice in a house rules out its marks until the last of them goes', () => {
    const board = place(place(start, 0, 1), 3, 1)
    expect(contradictionOf(board)).toMatchObject({ kind: 'digit-twice', digit: 1 })
    expect(marks(eraseDigit(board, 0), 1)).toEqual([2, 3, 4])
    expect(eraseDigit(eraseDigit(board, 0), 3)).toEqual(start)
    expect(place(place(board, 0, 2), 3, 4)).toEqual(place(place(start, 0, 2), 3, 4))
  })

  it('a cell keeps its removals under its digit', () => {
    const struck = remove(remove(start, 5, 2), 5, 3)
    const filled = place(struck, 5, 4)
    expect(marks(filled, 5)).toEqual([])
    expect(eraseDigit(filled, 5)).toEqual(struck)
    expect(marks(eraseDigit(remove(filled, 5, 4), 5), 5)).toEqual([1])
  })

  it('restores what was removed, but not what a digit rules out', () => {
    const board = remove(remove(place(start, 0, 1), 1, 1), 1, 2)
    const restored = restoreCandidates(board, [at(1, 1), at(1, 2)])
    expect(restored).toEqual(place(start, 0, 1))
    expect(marks(restored, 1)).toEqual([2, 3, 4])
  })

  it('refuses to touch what was printed, and cells and digits that there are not', () => {
    const printed = newBoard(makePuzzle([1, ...new Array(15).fill(0)], geometry))
    expect(() => eraseDigit(printed, 0)).toThrow(/given 1/)
    expect(() => noteMarks(printed, 0, 3)).toThrow(/given 1/)
    expect(() => place(printed, 0, 2)).toThrow(/given 1/)
    expect(place(printed, 0, 1)).toEqual(printed)
    expect(remove(printed, 0, 1)).toEqual(printed)
    for (const cell of [-1, 16, 0.5, Number.NaN]) {
      expect(() => eraseDigit(start, cell)).toThrow(/no cell/)
      expect(() => restoreCandidates(start, [at(cell, 1)])).toThrow(/no cell/)
      expect(() => noteMarks(start, cell, 1)).toThrow(/no cell/)
    }
    expect(() => restoreCandidates(start, [at(0, 5)])).toThrow(/no digit 5/)
    expect(() => noteMarks(start, 0, 16)).toThrow(/no set of candidates 16/)
    expect(() => boardFromParts(puzzle, { ...start, noted: start.noted.with(3, 2) })).toThrow(/2 in cell 3/)
    expect(() => boardFromParts(puzzle, { ...start, removed: start.removed.with(3, 16) })).toThrow(
      /16 in cell 3/,
    )
    expect(() => boardFromParts(puzzle, { ...start, removed: [] })).toThrow(/0/)
    expect(eraseDigit(start, 3)).toBe(start)
  })
})

describe('nothing noted and all struck out', () => {
  const geometry = boxedGeometry(2, 2)
  const puzzle = makePuzzle([1, ...new Array(15).fill(0)], geometry)
  const blank = new Array<number | undefined>(16).fill(undefined)

  it('are two values', () => {
    const board = boardFromMarks(puzzle, puzzle.givens, blank.with(5, 0).with(6, digitSet([1, 4])))
    expect([1, 5, 6].map((cell) => digitsOf(board.candidates[cell]!))).toEqual([[2, 3, 4], [], [1, 4]])
    expect([1, 5, 6].map((cell) => isNoted(board, cell))).toEqual([false, true, true])
    expect(contradictionOf(board)).toEqual({ kind: 'empty-cell', cell: 5 })
    expect(
      contradictionOf(boardFromMarks(puzzle, puzzle.givens, blank.with(6, digitSet([1, 4])))),
    ).toBeUndefined()
    expect(boardFromMarks(puzzle, puzzle.givens, blank).candidates).toEqual(newBoard(puzzle).candidates)
  })

  it('what the digits leave and the notes lack is removed, and nothing else', () => {
    const digits = puzzle.givens.with(3, 2)
    const board = boardFromMarks(puzzle, digits, blank.with(1, digitSet([3])))
    expect(digitsOf(board.removed[1]!)).toEqual([4])
    expect(digitsOf(eraseDigit(board, 3).candidates[1]!)).toEqual([2, 3])
  })

  it('come back from text and from saved data, with and without what was removed', () => {
    const noted = blank
      .with(5, 0)
      .with(6, digitSet([1, 4]))
      .with(7, digitSet([2]))
    const board = boardFromMarks(puzzle, puzzle.givens.with(1, 2), noted)
    const text = formatPuzzle(board, { style: 'marks' })
    expect(text.split('\n').filter((row) => row.startsWith('|'))).toEqual([
      '| 1  +2 | .  .  |',
      '| .  !  | 14 2? |',
      '| .  .  | .  .  |',
      '| .  .  | .  .  |',
    ])
    expect(formatPuzzle(parseBoard(text), { style: 'marks' })).toBe(text)
    const { removed: _, ...old } = boardToJson(board)
    expect(boardFromJson(old)).toEqual(board)
    expect(boardFromJson({ ...old, candidates: boardToJson(newBoard(puzzle)).candidates })).toEqual(
      applyTo(newBoard(puzzle), { placements: [{ cell: 1, digit: 2 }], removals: [] }),
    )
  })

  it('a text that does not note marks has all that its digits leave', () => {
    const board = parseBoard('1...............')
    expect(board).toEqual(newBoard(puzzle))
  })

  it('notes are written and cleared, and leave alone what a digit rules out', () => {
    const start = boardFromMarks(puzzle, puzzle.givens, blank)
    const noted = noteMarks(start, 6, digitSet([3, 4]))
    expect(digitsOf(noted.candidates[6]!)).toEqual([3, 4])
    expect(noteMarks(noted, 6, undefined)).toEqual(start)
    expect(contradictionOf(noteMarks(noted, 6, 0))).toEqual({ kind: 'empty-cell', cell: 6 })
    const two = applyTo(start, { placements: [{ cell: 7, digit: 2 }], removals: [] })
    expect(digitsOf(eraseDigit(noteMarks(two, 6, digitSet([3, 4])), 7).candidates[6]!)).toEqual([2, 3, 4])
  })

  it('saved data that contradicts itself is refused', () => {
    const saved = boardToJson(newBoard(puzzle))
    expect(() => boardFromJson({ ...saved, removed: [] })).toThrow(/"removed": found 0 cells/)
    expect(() => boardFromJson({ ...saved, removed: saved.removed!.with(1, [9]) })).toThrow(/"removed.1"/)
    expect(() => boardFromJson({ ...saved, removed: saved.removed!.with(1, [2]) })).toThrow(
      /"candidates.1": found \[2,3,4\]; expected \[3,4\]/,
    )
  })
})
