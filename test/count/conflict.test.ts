import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkUniqueness, countUpToTwo, makePuzzle, type Puzzle, smallestConflict } from '../../src/index.js'
import { MANY_GEOMETRIES } from './geometries.js'
import { fromLine, seededRandom, somePuzzle } from './puzzles.js'
import { subsets } from './subsets.js'

const SEED = 27_182

function conflictAt(givens: Record<number, number>) {
  const cells = new Array<number>(81).fill(0)
  for (const [cell, digit] of Object.entries(givens)) cells[Number(cell)] = digit
  const verdict = checkUniqueness(makePuzzle(cells))
  if (verdict.kind !== 'none') throw new Error(`expected no solution, found ${verdict.kind}`)
  return verdict.conflict
}

const solvable = (puzzle: Puzzle, cells: readonly number[]) =>
  countUpToTwo(
    puzzle.givens.map((digit, cell) => (cells.includes(cell) ? digit : 0)),
    puzzle.geometry,
  ) > 0

describe('where givens clash', () => {
  it('a digit twice in a house', () => {
    // the first two of three, and of two digits
    expect(conflictAt({ 0: 4, 5: 4, 8: 4, 40: 1, 44: 1 })).toEqual({
      givens: [
        { cell: 0, digit: 4 },
        { cell: 5, digit: 4 },
      ],
      where: { kind: 'digit-twice', house: 0, digit: 4 },
      minimal: true,
      smallest: true,
    })
  })

  it('a cell without candidates', () => {
    // r5c5 sees 1, 2, 3 in its row, 4, 5, 6 in its column and 7, 8, 9 in its box
    const conflict = conflictAt({ 36: 1, 37: 2, 43: 3, 4: 4, 13: 5, 67: 6, 30: 7, 32: 9, 50: 8, 80: 1 })
    expect(conflict.where).toEqual({ kind: 'empty-cell', cell: 40 })
    expect(conflict.givens.map(({ digit }) => digit).sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
    expect(conflict.smallest).toBe(true)
  })

  it('a house without a place for a digit', () => {
    // box 1: its lower two rows are filled without 5, and the 5 of row 1 stands in box 2
    const conflict = conflictAt({ 4: 5, 9: 1, 10: 2, 11: 3, 18: 4, 19: 6, 20: 7, 80: 1 })
    expect(conflict.where).toEqual({ kind: 'no-place', house: 18, digit: 5 })
    expect(conflict.givens).toHaveLength(7)
    expect(conflict.smallest).toBe(true)
  })

  it('deep: only a search shows it', () => {
    const givens = fromLine(
      '..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..',
    )
    // r1c1 is 4 in the one solution; 5 clashes with nothing in sight
    givens[0] = 5
    const conflict = smallestConflict(makePuzzle(givens))!
    expect(conflict).toMatchObject({ where: { kind: 'deep' }, minimal: true, smallest: true })
    expect(conflict.givens).toContainEqual({ cell: 0, digit: 5 })
  })

  it('there is none in a puzzle with solutions', () => {
    expect(smallestConflict(makePuzzle(new Array(81).fill(0)))).toBeUndefined()
  })
})

describe('the conflict found', () => {
  const unsound = fc
    .tuple(fc.constantFrom(...MANY_GEOMETRIES.slice(0, 6)), fc.integer(), fc.integer({ min: 1, max: 2 }))
    .map(([geometry, seed, wrong]) => {
      const random = seededRandom(seed)
      return makePuzzle(somePuzzle(random, 0.3 + 0.2 * random(), wrong, geometry), geometry)
    })
    .filter((puzzle) => countUpToTwo(puzzle.givens, puzzle.geometry) === 0)

  it('contradicts, and does not without any one of its givens', () => {
    fc.assert(
      fc.property(unsound, (puzzle) => {
        const conflict = smallestConflict(puzzle)!
        const cells = conflict.givens.map(({ cell }) => cell)
        for (const { cell, digit } of conflict.givens) expect(puzzle.givens[cell]).toBe(digit)
        expect(conflict.minimal).toBe(true)
        expect(solvable(puzzle, cells)).toBe(false)
        for (const cell of cells)
          expect(
            solvable(
              puzzle,
              cells.filter((other) => other !== cell),
            ),
          ).toBe(true)
      }),
      { seed: SEED, numRuns: 40 },
    )
  })

  it('is the smallest where it says so: no set of one given fewer contradicts', () => {
    let proven = 0
    fc.assert(
      fc.property(unsound, (puzzle) => {
        const conflict = smallestConflict(puzzle)!
        if (!conflict.smallest || conflict.givens.length > 4) return
        proven++
        const givens = [...puzzle.givens.keys()].filter((cell) => puzzle.givens[cell] !== 0)
        for (const cells of subsets(givens, conflict.givens.length - 1))
          expect(solvable(puzzle, cells)).toBe(true)
      }),
      { seed: SEED, numRuns: 40 },
    )
    expect(proven).toBeGreaterThan(20)
  })

  it('is marked as not minimal when the budget ran out on the way', () => {
    const givens = fromLine(
      '..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..',
    )
    givens[0] = 5
    const conflict = smallestConflict(makePuzzle(givens), { nodeBudget: 5 })!
    expect(conflict).toMatchObject({ minimal: false, smallest: false, stopped: 'budget-spent' })
    const puzzle = makePuzzle(givens)
    expect(
      solvable(
        puzzle,
        conflict.givens.map(({ cell }) => cell),
      ),
    ).toBe(false)
  })
})
