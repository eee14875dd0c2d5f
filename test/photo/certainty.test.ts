import { describe, expect, it } from 'vitest'
import { CERTAIN, type Circumstances, checkReasons, marginAsked } from '../../src/photo/certainty.js'
import type { Decision } from '../../src/photo/decide/decide.js'
import { straightLattice } from './evidence.js'

const lattice = straightLattice()
const JUST_MORE = 1e-9

describe('the lead that a reading must have', () => {
  const written = (cells: number, share: number) =>
    Array.from({ length: 81 }, (_, cell) => (cell < cells ? share : 0))

  it.each([
    ['on a clear page', written(0, 0), 0, 1, CERTAIN.margin],
    [
      'with as many misreads as there are on most pages',
      written(0, 0),
      CERTAIN.fewMisreads,
      1,
      CERTAIN.margin,
    ],
    ['with more', written(0, 0), CERTAIN.fewMisreads + JUST_MORE, 1, CERTAIN.marginInDoubt],
    ['with just enough of the grid lines seen', written(0, 0), 0, CERTAIN.wellSeen, CERTAIN.margin],
    ['with fewer', written(0, 0), 0, CERTAIN.wellSeen - JUST_MORE, CERTAIN.marginInDoubt],
    ['with four cells written', written(4, 1), 0, 1, CERTAIN.margin],
    ['with five', written(5, 0.51), 0, 1, CERTAIN.marginAmongHands],
    ['with five that may as well be print', written(5, 0.5), 0, 1, CERTAIN.margin],
    ['with five, and misreads', written(5, 1), 1, 1, CERTAIN.marginAmongHands],
    ['with five, and grid lines unseen', written(5, 1), 0, 0.8, CERTAIN.marginAmongHands],
  ])('%s', (_, handwritten, misreads, support, lead) => {
    expect(marginAsked(handwritten, misreads, { ...lattice, support })).toBe(lead)
  })

  it.each([4, 6, 8])('asks as much as of doubtful pages where the order is %d', (order) => {
    expect(marginAsked(written(0, 0), 0, { ...lattice, order, support: 1 })).toBe(CERTAIN.marginInDoubt)
    expect(marginAsked(written(5, 1), 0, { ...lattice, order, support: 1 })).toBe(CERTAIN.marginAmongHands)
  })

  it('is a hundred to one, and more in doubt', () => {
    expect(Math.exp(CERTAIN.margin)).toBeCloseTo(100, 9)
    expect(CERTAIN.marginInDoubt).toBeGreaterThan(CERTAIN.margin)
  })
})

describe('the reasons to check a reading', () => {
  const decision: Decision = {
    digits: new Uint8Array(81),
    kind: 'sound',
    cost: 0,
    margin: 5,
    runnerUp: undefined,
  }
  const fine: Circumstances = {
    decision,
    margin: 5,
    lattice: { ...lattice, support: CERTAIN.support },
    turnLead: CERTAIN.turnLead,
    misreads: CERTAIN.misreads,
    cellsOutside: 0,
    handwritingDoubts: 0,
    geometrySource: 'order',
    writing: { entries: [], marks: [] },
  }

  it('are none where every measure is just good enough', () => {
    expect(checkReasons(fine)).toEqual([])
  })

  it.each([
    ['not-sound', { decision: { ...decision, kind: 'as-read' } }],
    ['close-rival', { margin: 5 + JUST_MORE }],
    ['hard-to-read', { misreads: CERTAIN.misreads + JUST_MORE }],
    ['grid-cut', { cellsOutside: 1 }],
    ['grid-faint', { lattice: { ...lattice, support: CERTAIN.support - JUST_MORE } }],
    ['turn-unclear', { turnLead: CERTAIN.turnLead - JUST_MORE }],
    ['handwriting', { handwritingDoubts: 1 }],
    ['box-shape', { geometrySource: 'unsure' }],
  ] as const)('%s, alone', (reason, change) => {
    expect(checkReasons({ ...fine, ...change })).toEqual([reason])
  })
})
