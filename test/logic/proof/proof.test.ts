import { describe, expect, it } from 'vitest'
import { cellPremise, housePremise } from '../../../src/logic/proof/premise-holds.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import type { Step } from '../../../src/logic/steps/step.js'
import { boardOf, boardWithMarks, cellAt } from '../../support/boards.js'

const pairBoard = boardWithMarks({ r1c1: '12', r1c2: '12' })
const pair: Step = {
  technique: 'naked-pair',
  level: 'mark',
  placements: [],
  removals: [
    { cell: cellAt('r1c3'), digit: 1 },
    { cell: cellAt('r2c2'), digit: 2 },
  ],
  premises: [cellPremise(pairBoard, 0), cellPremise(pairBoard, 1)],
  pattern: { shape: 'subset', hidden: false, house: 0, cells: [0, 1], digits: [1, 2] },
}

const because = (step: Step, board = pairBoard) => {
  const verdict = verifyStep(board, step)
  return verdict.proven ? 'proven' : verdict.because
}

describe('verifyStep', () => {
  it('proves a naked pair from its two cells', () => {
    expect(verifyStep(pairBoard, pair)).toEqual({ proven: true })
  })

  it('proves a digit placed when nothing else is left for its cell or its house', () => {
    const board = boardWithMarks({ r1c1: '1' })
    const placed: Step = { ...pair, removals: [], placements: [{ cell: 0, digit: 1 }] }
    expect(because({ ...placed, premises: [cellPremise(board, 0)] }, board)).toBe('proven')
    expect(because({ ...placed, premises: [] }, board)).toMatchObject({
      kind: 'missing-link',
      claim: { kind: 'placement', candidate: { cell: 0, digit: 1 } },
    })
    expect(because({ ...placed, premises: [housePremise(board, 0, 1)] }, board)).toMatchObject({
      kind: 'missing-link',
    })
  })

  it('has every claim checked, of several the first that fails', () => {
    const removals = [
      pair.removals[0]!,
      { cell: cellAt('r5c5'), digit: 1 },
      { cell: cellAt('r6c6'), digit: 1 },
    ]
    expect(because({ ...pair, removals })).toMatchObject({
      kind: 'missing-link',
      claim: { candidate: removals[1] },
    })
  })

  it('shows the assignment that a missing premise leaves open', () => {
    const fault = because({ ...pair, premises: pair.premises.slice(1) })
    expect(fault).toMatchObject({
      kind: 'missing-link',
      claim: { kind: 'removal', candidate: { cell: 2, digit: 1 } },
    })
    // r1c3 = 1 and r1c2 = 2 satisfy all that is left.
    expect(fault).toMatchObject({
      assignment: expect.arrayContaining([
        { cell: 2, digit: 1 },
        { cell: 1, digit: 2 },
      ]),
    })
  })

  it('refuses an elimination that the premises do not reach', () => {
    const far = { cell: cellAt('r5c5'), digit: 1 }
    expect(because({ ...pair, removals: [far] })).toMatchObject({ kind: 'missing-link' })
    expect(because({ ...pair, removals: [{ cell: 2, digit: 3 }] })).toMatchObject({ kind: 'missing-link' })
  })

  it('names what a premise leaves out and what it adds', () => {
    const premises = [pair.premises[0]!, { kind: 'cell' as const, cell: 2, digits: [1, 2] }]
    expect(because({ ...pair, premises })).toMatchObject({
      kind: 'premise-fails',
      index: 1,
      unmentioned: [3, 4, 5, 6, 7, 8, 9].map((digit) => ({ cell: 2, digit })),
      ruledOut: [],
    })
    const wide = [pair.premises[0]!, { kind: 'cell' as const, cell: 1, digits: [1, 2, 3] }]
    expect(because({ ...pair, premises: wide })).toMatchObject({
      kind: 'premise-fails',
      unmentioned: [],
      ruledOut: [{ cell: 1, digit: 3 }],
    })
  })

  it('refuses conclusions that change nothing', () => {
    expect(because({ ...pair, removals: [] })).toEqual({ kind: 'no-conclusion' })
    expect(because({ ...pair, removals: [{ cell: 0, digit: 3 }] })).toMatchObject({ kind: 'not-a-candidate' })
    const board = boardOf(`1${'.'.repeat(80)}`)
    const step: Step = { ...pair, removals: [], placements: [{ cell: 0, digit: 1 }], premises: [] }
    expect(because(step, board)).toMatchObject({ kind: 'not-a-candidate' })
  })

  it('refuses what is malformed and says where', () => {
    const bad = (change: object) => because({ ...pair, ...change } as Step)
    expect(bad({ removals: [{ cell: 81, digit: 1 }] })).toMatchObject({
      where: 'removals[0]',
      trouble: 'not-a-cell',
    })
    expect(bad({ removals: [{ cell: 2, digit: 10 }] })).toMatchObject({ trouble: 'not-a-digit' })
    expect(bad({ removals: [pair.removals[0], pair.removals[0]] })).toMatchObject({ trouble: 'twice' })
    expect(bad({ removals: 'all' })).toMatchObject({ trouble: 'not-a-list' })
    expect(bad({ premises: undefined })).toMatchObject({ where: 'premises', trouble: 'not-a-list' })
    expect(bad({ premises: [{ kind: 'oracle' }] })).toMatchObject({ trouble: 'unknown-kind' })
    expect(bad({ premises: [{ kind: 'cell', cell: 0, digits: [] }] })).toMatchObject({ trouble: 'empty' })
    expect(bad({ premises: [{ kind: 'house', house: 27, digit: 1, cells: [0] }] })).toMatchObject({
      trouble: 'not-a-house',
    })
    expect(bad({ assumes: 'luck' })).toMatchObject({ where: 'assumes' })
    expect(because(null as unknown as Step)).toMatchObject({ kind: 'malformed' })
  })

  it('takes placed digits as premises where they stand', () => {
    const board = boardOf(`1${'.'.repeat(80)}`)
    expect(cellPremise(board, 0)).toEqual({ kind: 'cell', cell: 0, digits: [1] })
    expect(housePremise(board, 0, 1)).toEqual({ kind: 'house', house: 0, digit: 1, cells: [0] })
    const step: Step = { ...pair, removals: [{ cell: 40, digit: 5 }], premises: [cellPremise(board, 0)] }
    expect(because(step, board)).toMatchObject({ kind: 'missing-link' })
  })

  it('says when its budget ends before the proof', () => {
    const board = boardOf('.'.repeat(81))
    const premises = Array.from({ length: 9 }, (_, cell) => cellPremise(board, cell))
    const step: Step = { ...pair, removals: [{ cell: 40, digit: 5 }], premises }
    expect(verifyStep(board, step, { budget: 3 })).toMatchObject({ because: { kind: 'budget-spent' } })
    expect(because(step, board)).toMatchObject({ kind: 'missing-link' })
    expect(() => verifyStep(board, step, { budget: -1 })).toThrow(/budget/)
  })

  it('checks one-solution steps by the exchange rule', () => {
    const board = boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '123' })
    const cells = ['r1c1', 'r1c4', 'r2c1', 'r2c4'].map((name) => cellAt(name))
    const step: Step = {
      technique: 'unique-rectangle-type-1',
      level: 'pattern',
      placements: [],
      removals: [1, 2].map((digit) => ({ cell: cellAt('r2c4'), digit })),
      premises: cells.slice(0, 3).map((cell) => cellPremise(board, cell)),
      assumes: 'one-solution',
      pattern: { shape: 'exchange', cells, digits: [1, 2], extras: [], links: [] },
    }
    expect(because(step, board)).toBe('proven')
    const { assumes: _, ...bare } = step
    expect(because(bare, board)).toMatchObject({ kind: 'missing-link' })
    expect(because({ ...step, premises: step.premises.slice(1) }, board)).toMatchObject({
      kind: 'not-exchangeable',
    })
    expect(because({ ...step, removals: [{ cell: cellAt('r2c4'), digit: 3 }] }, board)).toMatchObject({
      kind: 'not-exchangeable',
    })
    // The same marks over four boxes: swapping would break the boxes.
    const wide = boardWithMarks({ r1c1: '12', r1c4: '12', r4c1: '12', r4c4: '123' })
    const four = ['r1c1', 'r1c4', 'r4c1', 'r4c4'].map((name) => cellAt(name))
    const forged: Step = {
      ...step,
      removals: [{ cell: cellAt('r4c4'), digit: 1 }],
      premises: four.slice(0, 3).map((cell) => cellPremise(wide, cell)),
      pattern: { shape: 'exchange', cells: four, digits: [1, 2], extras: [], links: [] },
    }
    expect(because(forged, wide)).toMatchObject({ kind: 'not-exchangeable' })
  })

  it('has one budget for all conclusions of a step', () => {
    const marks = { r1c1: '123', r1c2: '123', r1c3: '123' }
    const board = boardWithMarks(marks)
    const removals = [1, 2, 3].map((digit) => ({ cell: cellAt('r1c9'), digit }))
    const premises = [0, 1, 2].map((cell) => cellPremise(board, cell))
    const triple: Step = { ...pair, removals, premises }
    const least = (step: Step): number => {
      for (let budget = 0; ; budget++) if (verifyStep(board, step, { budget }).proven) return budget
    }
    const each = removals.map((removal) => least({ ...triple, removals: [removal] }))
    expect(Math.min(...each)).toBeGreaterThan(0)
    const all = least(triple)
    expect(all).toBe(each.reduce((sum, own) => sum + own))
    expect(verifyStep(board, triple, { budget: all - 1 })).toEqual({
      proven: false,
      because: { kind: 'budget-spent', claim: { kind: 'removal', candidate: removals[2] } },
    })
  })
})
