import { describe, expect, it } from 'vitest'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { wWing, wxyzWing, xyWing, xyzWing } from '../../../src/logic/techniques/wings.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

// Every board here is made for the pattern: marks are full but for what is named.

describe('xy-wing', () => {
  const board = limitedBoard({ marks: { r1c1: '12', r1c5: '13', r5c1: '23' } })

  it('takes the shared digit from cells that see both pincers', () => {
    const [step, ...more] = allSteps(board, xyWing)
    expect(more).toEqual([])
    expect(said(step!)).toBe('r5c5-3')
    expect(step!.pattern).toEqual({ shape: 'wing', pivot: 0, pincers: [4, 36], digit: 3 })
    expect(verifyStep(board, step!)).toEqual({ proven: true })
  })

  it('needs three different pairs and a pivot that sees both', () => {
    expect(allSteps(limitedBoard({ marks: { r1c1: '12', r1c5: '13', r5c1: '13' } }), xyWing)).toEqual([])
    expect(allSteps(limitedBoard({ marks: { r1c1: '12', r2c5: '13', r5c1: '23' } }), xyWing)).toEqual([])
  })

  it('finds every wing on a board, one for each pivot', () => {
    const marks = { r1c1: '12', r1c5: '13', r5c1: '23', r9c9: '45', r9c2: '46', r2c9: '56' }
    const steps = allSteps(limitedBoard({ marks }), xyWing)
    expect(steps.map((step) => said(step))).toEqual(['r5c5-3', 'r2c2-6'])
  })
})

describe('xyz-wing', () => {
  it('takes z from cells that see the pivot and both pincers', () => {
    const board = limitedBoard({ marks: { r1c1: '123', r1c5: '13', r2c2: '23' } })
    const [step, ...more] = allSteps(board, xyzWing)
    expect(more).toEqual([])
    expect(said(step!)).toBe('r1c2-3 r1c3-3')
    expect(verifyStep(board, step!)).toEqual({ proven: true })
  })
})

describe('wxyz-wing', () => {
  it('takes the digit that two of four cells could hold', () => {
    const board = limitedBoard({ marks: { r1c1: '1234', r1c5: '14', r1c9: '24', r2c2: '34' } })
    const steps = allSteps(board, wxyzWing)
    expect(steps.map((step) => said(step))).toEqual(['r1c2-4 r1c3-4'])
    expect(verifyStep(board, steps[0]!)).toEqual({ proven: true })
  })

  it('leaves three cells that do the same to the XYZ-wing', () => {
    const board = limitedBoard({ marks: { r1c1: '123', r1c5: '13', r2c2: '23', r1c9: '14' } })
    for (const step of allSteps(board, wxyzWing)) expect(step.premises).toHaveLength(4)
    expect(allSteps(board, wxyzWing).map((step) => said(step))).not.toContain('r1c2-3 r1c3-3')
  })
})

describe('w-wing', () => {
  const marks = { r1c1: '12', r6c5: '12' }

  it('joins two equal pairs by a house with two places', () => {
    const board = limitedBoard({ marks, places: { 1: { 'row 9': 'r9c1 r9c5' } } })
    const steps = allSteps(board, wWing)
    expect(steps.map((step) => said(step))).toEqual(['r1c5-2 r6c1-2'])
    expect(verifyStep(board, steps[0]!)).toEqual({ proven: true })
  })

  it('takes a house whose places see one cell or the other in groups', () => {
    const board = limitedBoard({
      marks: { r1c1: '12', r6c5: '12' },
      places: { 1: { 'box 7': 'r7c1 r8c1 r9c1' } },
    })
    // all places see one cell: a locked candidate, no wing
    expect(allSteps(board, wWing)).toEqual([])
    const grouped = limitedBoard({
      marks: { r8c4: '12', r2c9: '12' },
      places: { 1: { 'box 9': 'r8c7 r8c8 r9c9' } },
    })
    const steps = allSteps(grouped, wWing)
    expect(steps.map((step) => said(step))).toEqual(['r2c4-2 r8c9-2'])
    expect(verifyStep(grouped, steps[0]!)).toEqual({ proven: true })
  })
})
