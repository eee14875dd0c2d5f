import { describe, expect, it } from 'vitest'
import { solutionsOf } from '../../../src/count/count-solutions.js'
import type { Board } from '../../../src/grid/board.js'
import { makePuzzle } from '../../../src/grid/puzzle.js'
import { randomTransform, transformBoard, transformCandidate } from '../../../src/grid/symmetry.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { solve } from '../../../src/logic/solving/solve.js'
import type { Step } from '../../../src/logic/steps/step.js'
import { juniorExocet } from '../../../src/logic/techniques/junior-exocet.js'
import { cellAt } from '../../support/boards.js'
import { limitedBoard } from '../../support/limited-board.js'
import { publishedPuzzles } from '../../support/published.js'
import { allSteps, randomPuzzle, ruledOut } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

/** Base r1c12 with 1, 2 and 3; targets r2c4 and r3c7; these digits in two rows of columns 3, 4 and 7 below the band. */
const places = {
  'column 3': 'r1c3 r2c3 r3c3 r5c3 r8c3',
  'column 4': 'r1c4 r2c4 r5c4 r8c4',
  'column 7': 'r1c7 r3c7 r5c7 r8c7',
}
const marks = { r1c1: '123', r1c2: '123' }
const exocet = { marks, places: { 1: places, 2: places, 3: places } }

describe('junior exocet', () => {
  it('leaves the targets the digits of the base', () => {
    const board = limitedBoard(exocet)
    const step = allSteps(board, juniorExocet).find(
      ({ pattern }) =>
        pattern.shape === 'exocet' && pattern.targets.join() === `${cellAt('r2c4')},${cellAt('r3c7')}`,
    )!
    expect(said(step)).toBe(
      [4, 5, 6, 7, 8, 9]
        .map((d) => `r2c4-${d}`)
        .concat([4, 5, 6, 7, 8, 9].map((d) => `r3c7-${d}`))
        .join(' '),
    )
    expect(step.pattern).toMatchObject({
      base: [cellAt('r1c1'), cellAt('r1c2')],
      digits: [1, 2, 3],
      lines: [11, 12, 15],
    })
    // two cells of the base, and three lines for each digit
    expect(step.premises).toHaveLength(11)
    expect(verifyStep(board, step)).toEqual({ proven: true })
    for (const premise of step.premises) {
      const premises = step.premises.filter((other) => other !== premise)
      expect(verifyStep(board, { ...step, premises }).proven).toBe(false)
    }
  })

  it('takes from the base what no target can be', () => {
    const board = limitedBoard({ ...exocet, marks: { ...marks, r2c4: '1245', r3c7: '1245' } })
    const gone = [...ruledOut(board, allSteps(board, juniorExocet))]
    expect(gone).toContain(`${cellAt('r1c1')}.3`)
    expect(gone).toContain(`${cellAt('r1c2')}.3`)
  })

  it('needs every digit of the base held down in the three lines', () => {
    const loose = { ...places, 'column 4': 'r1c4 r2c4 r5c4 r6c4 r8c4' }
    expect(
      allSteps(limitedBoard({ marks, places: { 1: places, 2: places, 3: loose } }), juniorExocet),
    ).toEqual([])
  })

  it('is found on the image of a board wherever it is on the board', () => {
    const board = limitedBoard(exocet)
    const before = ruledOut(board, allSteps(board, juniorExocet))
    for (let seed = 1; seed <= 20; seed++) {
      const transform = randomTransform(board.geometry, seed)
      const image = transformBoard(board, transform)
      const moved = [...before].map((name) => {
        const [cell, digit] = name.split('.').map(Number)
        const to = transformCandidate({ cell: cell!, digit: digit! }, transform)
        return `${to.cell}.${to.digit}`
      })
      expect([...ruledOut(image, allSteps(image, juniorExocet))].sort()).toEqual(moved.sort())
    }
  })
})

describe('on a published puzzle', () => {
  // Common knowledge among players (from memory): base r5c46 with 1, 3 and 6, targets r4c2 and r6c8.
  it('finds the exocet for which "Fata Morgana" is known', () => {
    const { givens, solution } = publishedPuzzles().find(({ source }) => source.includes('Fata Morgana'))!
    const { board } = solve(makePuzzle(givens), { preset: 'mark' })
    const [step] = allSteps(board, juniorExocet)
    checkStep(board, step!)
    expect(step!.pattern).toMatchObject({
      base: [cellAt('r5c4'), cellAt('r5c6')],
      targets: [cellAt('r4c2'), cellAt('r6c8')],
      digits: [1, 3, 6],
    })
    for (const { cell, digit } of step!.removals) expect(solution[cell]).not.toBe(digit)
  })
})

describe('on boards of random puzzles', () => {
  // Rare: of the first few hundred seeds, these have one somewhere along the path.
  it.each([130, 255, 282, 343])('is minimal, proven and true: puzzle %i', (seed) => {
    const puzzle = randomPuzzle(seed)
    const solution = solutionsOf(puzzle, { limit: 1 }).solutions[0]!
    let looked = 0
    for (const { before: board } of solve(puzzle, { preset: 'chain', oneSolution: false }).steps) {
      for (const step of allSteps(board, juniorExocet)) {
        looked++
        checkStep(board, step)
        for (const { cell, digit } of step.removals) expect(solution[cell]).not.toBe(digit)
        if (step.pattern.shape !== 'exocet') throw new Error('an exocet was expected')
        const digits = (cells: readonly number[]) => cells.map((cell) => solution[cell]).sort()
        expect(digits(step.pattern.targets)).toEqual(digits(step.pattern.base))
      }
    }
    expect(looked).toBeGreaterThan(0)
  })
})

function checkStep(board: Board, step: Step): void {
  expect(verifyStep(board, step)).toEqual({ proven: true })
  for (const premise of step.premises) {
    const premises = step.premises.filter((other) => other !== premise)
    expect(verifyStep(board, { ...step, premises }).proven).toBe(false)
  }
}
