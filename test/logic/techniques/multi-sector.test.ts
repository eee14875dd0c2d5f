import { describe, expect, it } from 'vitest'
import { newBoard } from '../../../src/grid/board/make.js'
import type { Board } from '../../../src/grid/board.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { makePuzzle } from '../../../src/grid/puzzle.js'
import { randomTransform, transformBoard, transformCandidate } from '../../../src/grid/symmetry.js'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { solve } from '../../../src/logic/solving/solve.js'
import { multiSectorLockedSet } from '../../../src/logic/techniques/multi-sector.js'
import { cellAt } from '../../support/boards.js'
import { limitedBoard } from '../../support/limited-board.js'
import { publishedPuzzles } from '../../support/published.js'
import { allSteps, randomPuzzle, ruledOut, stuckBoards } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

/**
 * A ring of four boxes: 1 and 2 along rows 2 and 8, 3 and 4 along columns 2 and 8, 5 to 8 within the boxes by turns.
 */
const ring = Object.fromEntries(
  [
    { row: 'r2', column: 'c2', box: '56' },
    { row: 'r2', column: 'c8', box: '78' },
    { row: 'r8', column: 'c2', box: '78' },
    { row: 'r8', column: 'c8', box: '56' },
  ].flatMap(({ row, column, box }) => [
    ...(column === 'c2' ? ['c1', 'c3'] : ['c7', 'c9']).map((c) => [`${row}${c}`, `12${box}`]),
    ...(row === 'r2' ? ['r1', 'r3'] : ['r7', 'r9']).map((r) => [`${r}${column}`, `34${box}`]),
  ]),
)

describe('multi-sector locked set', () => {
  it('clears the houses of a ring through four boxes', () => {
    const board = limitedBoard({ marks: ring })
    const [step, ...more] = allSteps(board, multiSectorLockedSet)
    expect(more).toEqual([])
    expect(step!.premises).toHaveLength(16)
    expect(verifyStep(board, step!)).toEqual({ proven: true })
    const gone = said(step!).split(' ')
    for (const candidate of [
      'r2c2-1',
      'r2c5-2',
      'r8c8-1',
      'r5c2-3',
      'r2c8-4',
      'r1c1-5',
      'r2c2-6',
      'r9c9-5',
      'r3c7-8',
    ])
      expect(gone).toContain(candidate)
    expect(gone).not.toContain('r5c5-1')
    if (step!.pattern.shape !== 'sectors') throw new Error('sectors were expected')
    expect(step!.pattern.houses.flatMap(({ digits }) => digits)).toHaveLength(16)
  })

  it('is not there when one cell of the ring has a digit more', () => {
    expect(allSteps(limitedBoard({ marks: { ...ring, r2c1: '12569' } }), multiSectorLockedSet)).toEqual([])
  })
})

describe('on a published puzzle', () => {
  // Common knowledge among players (from memory): where rows 2, 4, 6 and 8 cross columns 1, 3, 7 and 9.
  it('finds the sixteen cells for which "Easter Monster" is known', () => {
    const { givens, solution } = publishedPuzzles().find(({ source }) => source.includes('Easter Monster'))!
    const { board } = solve(makePuzzle(givens), { preset: 'mark' })
    const cells = ['r2', 'r4', 'r6', 'r8'].flatMap((row) =>
      ['c1', 'c3', 'c7', 'c9'].map((c) => cellAt(row + c)),
    )
    const step = allSteps(board, multiSectorLockedSet).find(
      ({ pattern }) => pattern.shape === 'sectors' && pattern.cells.join() === cells.join(),
    )!
    expect(verifyStep(board, step)).toEqual({ proven: true })
    expect(step.removals.length).toBeGreaterThan(12)
    for (const { cell, digit } of step.removals) expect(solution[cell]).not.toBe(digit)
  })
})

describe('on boards of random puzzles', () => {
  const boards = stuckBoards(25, techniquesUpTo('mark'), { seed: 63_000 })

  it('counts as many sectors as cells, and each is true of the solution', () => {
    let looked = 0
    for (const { board } of boards) {
      for (const { pattern, premises } of allSteps(board, multiSectorLockedSet)) {
        if (pattern.shape !== 'sectors') throw new Error('sectors were expected')
        looked++
        expect(pattern.houses.length).toBeGreaterThan(2)
        expect(pattern.houses.flatMap(({ digits }) => digits)).toHaveLength(pattern.cells.length)
        expect(premises.length).toBeLessThanOrEqual(pattern.cells.length)
        for (const premise of premises)
          expect(premise.kind === 'cell' && pattern.cells).toContain(premise.kind === 'cell' && premise.cell)
      }
    }
    expect(looked).toBeGreaterThan(5)
  }, 60_000)

  const expectSameOfImage = (board: Board, seed: number) => {
    const transform = randomTransform(board.geometry, seed)
    const image = transformBoard(board, transform)
    const moved = [...ruledOut(board, allSteps(board, multiSectorLockedSet))].map((name) => {
      const [cell, digit] = name.split('.').map(Number)
      const to = transformCandidate({ cell: cell!, digit: digit! }, transform)
      return `${to.cell}.${to.digit}`
    })
    const found = [...ruledOut(image, allSteps(image, multiSectorLockedSet))]
    expect(found.sort(), `seed ${seed}`).toEqual(moved.sort())
  }

  it('removes the same from the image of a board', () => {
    for (const { board, seed } of boards.slice(0, 8)) expectSameOfImage(board, seed)
  }, 60_000)

  // Before easier techniques are at rest there are many sets of one size, some of them in two houses only: those with
  // the same removals used to hide each other in the order in which they were met.
  it('removes the same from the image of a board that easier techniques would change', () => {
    for (const [seed, index] of [
      [71_026, 10],
      [71_035, 9],
      [71_037, 17],
      [71_040, 13],
      [71_056, 17],
      [71_069, 40],
    ] as const)
      expectSameOfImage(solve(randomPuzzle(seed), { preset: 'chain' }).steps[index]!.before, seed)
  }, 60_000)

  it('keeps within its bound on larger grids', () => {
    // order 12: rows and columns alone; order 16 and all digits open: nothing is tried
    const board = newBoard(randomPuzzle(1, boxedGeometry(3, 4)))
    for (const step of allSteps(board, multiSectorLockedSet))
      expect(verifyStep(board, step)).toEqual({ proven: true })
    const blank = newBoard(makePuzzle(new Array(256).fill(0), boxedGeometry(4, 4)))
    expect(allSteps(blank, multiSectorLockedSet)).toEqual([])
  }, 60_000)
})
