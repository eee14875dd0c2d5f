import { describe, expect, it } from 'vitest'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { findMalformation } from '../../../src/logic/steps/malformation.js'
import type { Step } from '../../../src/logic/steps/step.js'

/** A step that makes sense on a grid of order 4, with the last cell, digit and house there are. */
const STEP = {
  technique: 'naked-single',
  level: 'scan',
  placements: [{ cell: 0, digit: 1 }],
  removals: [
    { cell: 15, digit: 4 },
    { cell: 0, digit: 4 },
  ],
  premises: [
    { kind: 'cell', cell: 15, digits: [1, 4] },
    { kind: 'house', house: 11, digit: 4, cells: [0, 15] },
    { kind: 'cell', cell: 0, digits: [3] },
    { kind: 'house', house: 0, digit: 1, cells: [5] },
  ],
  pattern: { shape: 'single', cell: 0, digit: 1 },
} as const satisfies Step

const FOUR = boxedGeometry(2, 2)
const fault = (change: object, geometry = FOUR) => {
  const found = findMalformation(geometry, { ...STEP, ...change } as Step)
  return found && `${found.kind}: ${found.where} ${found.trouble}`
}
const premise = (change: object | null | undefined | string) => ({ premises: [STEP.premises[0], change] })

describe('a step that makes sense', () => {
  it('has numbers that the geometry has', () => {
    expect(fault({})).toBeUndefined()
    expect(fault({}, STANDARD)).toBeUndefined()
    expect(fault({ assumes: 'one-solution' })).toBeUndefined()
    // other digits in other cells are never the same entry
    const removals = Array.from({ length: 81 * 9 }, (_, i) => ({
      cell: Math.floor(i / 9),
      digit: 1 + (i % 9),
    }))
    expect(fault({ placements: [], removals }, STANDARD)).toBeUndefined()
    expect(fault({ placements: [], removals: [], premises: [] })).toBeUndefined()
  })
})

describe('a step that makes none says where and why', () => {
  it.each<[string, object]>([
    ['assumes unknown-kind', { assumes: 'luck' }],
    ['placements not-a-list', { placements: undefined }],
    ['removals not-a-list', { removals: { length: 1 } }],
    ['placements[0] not-a-cell', { placements: [null] }],
    ['placements[0] not-a-cell', { placements: [{ digit: 1 }] }],
    ['removals[1] not-a-cell', { removals: [STEP.removals[0], { cell: 16, digit: 1 }] }],
    ['removals[0] not-a-cell', { removals: [{ cell: -1, digit: 1 }] }],
    ['removals[0] not-a-cell', { removals: [{ cell: 0.5, digit: 1 }] }],
    ['removals[0] not-a-cell', { removals: [{ cell: '3', digit: 1 }] }],
    ['removals[0] not-a-digit', { removals: [{ cell: 0, digit: 0 }] }],
    ['removals[0] not-a-digit', { removals: [{ cell: 0, digit: 5 }] }],
    ['removals[0] not-a-digit', { removals: [{ cell: 0 }] }],
    ['removals[1] twice', { removals: [STEP.removals[0], STEP.removals[0]] }],
    ['removals[0] twice', { removals: [STEP.placements[0]] }],
    ['premises not-a-list', { premises: undefined }],
    ['premises not-a-list', { premises: 'all' }],
    ['premises[1] unknown-kind', premise(null)],
    ['premises[1] unknown-kind', premise('r1c1')],
    ['premises[1] unknown-kind', premise({ kind: 'box', cell: 0, digits: [1] })],
    ['premises[1] not-a-cell', premise({ kind: 'cell', cell: 16, digits: [1] })],
    ['premises[1].digits not-a-list', premise({ kind: 'cell', cell: 0 })],
    ['premises[1].digits empty', premise({ kind: 'cell', cell: 0, digits: [] })],
    ['premises[1].digits not-a-digit', premise({ kind: 'cell', cell: 0, digits: [1, 5] })],
    ['premises[1].digits twice', premise({ kind: 'cell', cell: 0, digits: [1, 2, 1] })],
    ['premises[1] not-a-house', premise({ kind: 'house', house: 12, digit: 1, cells: [0] })],
    ['premises[1] not-a-house', premise({ kind: 'house', house: -1, digit: 1, cells: [0] })],
    ['premises[1] not-a-digit', premise({ kind: 'house', house: 0, digit: 5, cells: [0] })],
    ['premises[1].cells not-a-list', premise({ kind: 'house', house: 0, digit: 1, cells: '0' })],
    ['premises[1].cells empty', premise({ kind: 'house', house: 0, digit: 1, cells: [] })],
    ['premises[1].cells not-a-cell', premise({ kind: 'house', house: 0, digit: 1, cells: [0, 16] })],
    ['premises[1].cells twice', premise({ kind: 'house', house: 0, digit: 1, cells: [2, 2] })],
  ])('%s: %j', (expected, change) => {
    expect(fault(change)).toBe(`malformed: ${expected}`)
  })

  it.each([null, undefined, 'step', 7])('%j is no step', (step) => {
    expect(findMalformation(FOUR, step as unknown as Step)).toEqual({
      kind: 'malformed',
      where: 'step',
      trouble: 'unknown-kind',
    })
  })
})
