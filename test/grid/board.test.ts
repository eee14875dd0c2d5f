import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { contradictionOf, hasCandidate, openCount, placesIn, puzzleOf } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board, Candidate } from '../../src/grid/board.js'
import {
  allDigits,
  digitBit,
  digitCount,
  digitSet,
  digitsOf,
  firstDigit,
  hasDigit,
  onlyDigit,
} from '../../src/grid/digits.js'
import { STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { findClashes, makePuzzle } from '../../src/grid/puzzle.js'
import { anyBoard, anyPuzzle, boardFacts, GEOMETRIES, SEED } from './arbitraries.js'

const property = { seed: SEED, numRuns: 40 }

describe('digit sets', () => {
  it('are sets', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 16 })), (digits) => {
        const sorted = [...digits].sort((a, b) => a - b)
        const set = digitSet(digits)
        expect(digitsOf(set)).toEqual(sorted)
        expect(digitCount(set)).toBe(digits.length)
        expect(onlyDigit(set)).toBe(digits.length === 1 ? digits[0] : 0)
        if (digits.length > 0) expect(firstDigit(set)).toBe(sorted[0])
        for (let digit = 1; digit <= 16; digit++) {
          expect(hasDigit(set, digit)).toBe(digits.includes(digit))
          expect((set & digitBit(digit)) !== 0).toBe(digits.includes(digit))
        }
      }),
      property,
    )
    expect(digitsOf(allDigits(16))).toEqual(Array.from({ length: 16 }, (_, i) => i + 1))
  })
})

/** A board kept as plain lists of candidates, for comparison. */
function struck(board: Board, candidates: readonly number[][], { cell, digit }: Candidate): number[][] {
  return candidates.map((digits, other) =>
    other === cell
      ? []
      : layoutOf(board.geometry).houses.some(
            (house) => house.cells.includes(cell) && house.cells.includes(other),
          )
        ? digits.filter((d) => d !== digit)
        : digits,
  )
}

describe.each(GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))('%s', (_, geometry) => {
  const layout = layoutOf(geometry)
  const anyCandidate = fc.record({
    cell: fc.nat(geometry.cellCount - 1),
    digit: fc.integer({ min: 1, max: geometry.order }),
  })

  it('a fresh board has the candidates that no given of a peer rules out', () => {
    fc.assert(
      fc.property(anyPuzzle(geometry), (puzzle) => {
        const board = newBoard(puzzle)
        for (let cell = 0; cell < geometry.cellCount; cell += 5) {
          const seen = layout.peersOf[cell]!.map((peer) => puzzle.givens[peer])
          const left = Array.from({ length: geometry.order }, (_, i) => i + 1).filter(
            (digit) => !seen.includes(digit),
          )
          expect(digitsOf(board.candidates[cell]!)).toEqual(puzzle.givens[cell] ? [] : left)
        }
        expect(puzzleOf(board).givens).toEqual(puzzle.givens)
        expect(openCount(board)).toBe(puzzle.givens.filter((digit) => digit === 0).length)
      }),
      property,
    )
  })

  it('applying a conclusion strikes out what it says and what placed digits see, on a new board', () => {
    fc.assert(
      fc.property(
        anyBoard(geometry),
        anyCandidate,
        fc.array(anyCandidate, { maxLength: 5 }),
        (board, placed, removals) => {
          fc.pre(!board.digits[placed.cell])
          const before = boardFacts(board)
          const after = applyTo(board, { placements: [placed], removals })
          let model = Array.from(board.candidates, digitsOf)
          for (const { cell, digit } of removals) model[cell] = model[cell]!.filter((d) => d !== digit)
          model = struck(board, model, placed)
          expect(Array.from(after.candidates, digitsOf)).toEqual(model)
          expect(after.digits[placed.cell]).toBe(placed.digit)
          expect(boardFacts(board)).toEqual(before)
        },
      ),
      { ...property, numRuns: 15 },
    )
  })

  it('finds a contradiction exactly when a cell, a house or a pair of digits shows one', () => {
    fc.assert(
      fc.property(anyBoard(geometry), (board) => {
        const emptyCell = Array.from(board.candidates).some(
          (set, cell) => set === 0 && board.digits[cell] === 0,
        )
        const clash = findClashes(geometry, board.digits).length > 0
        const noPlace = layout.houses.some((house) =>
          Array.from({ length: geometry.order }, (_, i) => i + 1).some(
            (digit) =>
              !house.cells.some((cell) => board.digits[cell] === digit || hasCandidate(board, cell, digit)),
          ),
        )
        expect(contradictionOf(board) !== undefined).toBe(emptyCell || clash || noPlace)
        const found = contradictionOf(board)
        if (found?.kind === 'empty-cell') expect(board.candidates[found.cell]).toBe(0)
        if (found?.kind === 'no-place') expect(placesIn(board, found.house, found.digit)).toBe(0)
      }),
      property,
    )
  })

  it('places of a digit are the positions of the cells that have it as a candidate', () => {
    fc.assert(
      fc.property(
        anyBoard(geometry),
        fc.nat(layout.houses.length - 1),
        anyCandidate,
        (board, house, { digit }) => {
          const cells = layout.houses[house]!.cells
          const positions = cells.flatMap((cell, i) => (hasCandidate(board, cell, digit) ? [i + 1] : []))
          expect(digitsOf(placesIn(board, house, digit))).toEqual(positions)
        },
      ),
      property,
    )
  })
})

describe('makePuzzle and findClashes', () => {
  it('check count and range, and keep a copy', () => {
    const givens = new Array(81).fill(0)
    const puzzle = makePuzzle(givens)
    givens[0] = 5
    expect(puzzle.givens[0]).toBe(0)
    for (const bad of [
      new Array(80).fill(0),
      givens.with(3, 10),
      givens.with(3, -1),
      givens.with(3, 1.5),
      givens.with(3, Number.NaN),
    ]) {
      expect(() => makePuzzle(bad)).toThrow(/81 cells|0 \(empty\) to 9/)
    }
  })

  it('name the house, the digit and all its cells', () => {
    const digits = new Array(81).fill(0).with(0, 5).with(4, 5).with(8, 5)
    expect(findClashes(STANDARD, digits)).toEqual([{ house: 0, digit: 5, cells: [0, 4, 8] }])
    expect(findClashes(STANDARD, digits.with(0, 0).with(8, 0))).toEqual([])
  })
})
