import { describe, expect, it } from 'vitest'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { solve } from '../../../src/logic/solving/solve.js'
import { multiColouring, simpleColouring } from '../../../src/logic/techniques/colouring.js'
import { boardOf } from '../../support/boards.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

// Boards made for the pattern: marks are full but for the places named.

describe('simple-colouring', () => {
  it('takes a candidate that sees both colours, resting on the path between them alone', () => {
    const board = limitedBoard({
      places: {
        7: {
          'column 1': 'r6c1 r1c1',
          'row 1': 'r1c1 r1c5',
          'column 5': 'r1c5 r5c5',
          // a branch that nothing rests on
          'box 1': 'r1c1 r2c3',
        },
      },
    })
    const steps = allSteps(board, simpleColouring)
    expect(steps.map((step) => said(step))).toEqual(['r5c2-7 r5c3-7 r6c4-7 r6c6-7'])
    expect(verifyStep(board, steps[0]!)).toEqual({ proven: true })
    // both columns have an end in row 1, which cannot hold the digit twice: row 1 itself need not be a premise
    expect(steps[0]!.premises).toHaveLength(2)
  })

  it('takes all of a colour that stands twice in a house', () => {
    const board = limitedBoard({
      places: {
        7: { 'row 1': 'r1c1 r1c5', 'column 5': 'r1c5 r8c5', 'column 1': 'r1c1 r7c1', 'row 8': 'r8c5 r8c2' },
      },
    })
    const steps = allSteps(board, simpleColouring)
    // r7c1 and r8c2 have the same colour and share box 7; so has r1c5
    expect(steps.map((step) => said(step))).toContain('r1c5-7 r7c1-7 r8c2-7')
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  })
})

describe('links in a ring of odd length', () => {
  // r1c1, r1c5, r4c5, r5c4 and r5c1: going round, the fifth has the colour of the first, which it sees
  const ring = { 'row 1': 'r1c1 r1c5', 'column 1': 'r1c1 r5c1', 'row 5': 'r5c1 r5c4', 'box 5': 'r5c4 r4c5' }
  const board = limitedBoard({
    places: { 7: { ...ring, 'column 5': 'r1c5 r4c5', 'row 8': 'r8c2 r8c7' } },
  })

  it('are not coloured, as every cell would have both colours', () => {
    for (const technique of [simpleColouring, multiColouring]) {
      for (const step of allSteps(board, technique)) expect(verifyStep(board, step)).toEqual({ proven: true })
    }
    expect(allSteps(board, simpleColouring)).toEqual([])
  })

  it('give no step without a proof on a puzzle without a solution', () => {
    const start = boardOf('060100950180507000407200813800400700005608300270050060000301509790005000003060082')
    const { steps } = solve(start, { techniques: ['hidden-single', 'naked-single', 'simple-colouring'] })
    expect(steps.length).toBeGreaterThan(0)
    for (const step of steps) expect(verifyStep(step.before, step), step.technique).toEqual({ proven: true })
  })
})

describe('multi-colouring', () => {
  it('bridges two clusters where a colour of one sees a colour of the other', () => {
    const board = limitedBoard({
      places: { 3: { 'row 2': 'r2c1 r2c7', 'row 8': 'r8c2 r8c8' } },
    })
    const colours = allSteps(board, multiColouring)
    // r2c7 and r8c8 do not see each other, nor do r2c1 and r8c2: no bridge
    expect(colours).toEqual([])
    const bridged = limitedBoard({
      places: { 3: { 'row 2': 'r2c1 r2c7', 'row 8': 'r8c2 r8c7' } },
    })
    const steps = allSteps(bridged, multiColouring)
    expect(steps.map((step) => said(step))).toEqual(['r1c2-3 r3c2-3 r7c1-3 r9c1-3'])
    for (const step of steps) expect(verifyStep(bridged, step)).toEqual({ proven: true })
  })

  it('takes a colour that sees both colours of the other cluster', () => {
    // r2c1 and r6c7 are of one colour; the one sees r8c1, the other r5c8, and these two are opposites
    const board = limitedBoard({
      places: {
        3: {
          'row 2': 'r2c1 r2c7',
          'column 7': 'r2c7 r6c7',
          'row 8': 'r8c1 r8c4',
          'column 4': 'r8c4 r5c4',
          'row 5': 'r5c4 r5c8',
        },
      },
    })
    const steps = allSteps(board, multiColouring)
    expect(steps.map((step) => said(step))).toContain('r2c1-3 r6c7-3')
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  })
})
