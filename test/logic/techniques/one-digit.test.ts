import { describe, expect, it } from 'vitest'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import type { Technique } from '../../../src/logic/technique.js'
import { emptyRectangle } from '../../../src/logic/techniques/empty-rectangle.js'
import { skyscraper, turbotFish, twoStringKite } from '../../../src/logic/techniques/turbot.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

const found = (places: Record<string, string>, technique: Technique) => {
  const board = limitedBoard({ places: { 3: places } })
  const steps = allSteps(board, technique)
  for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  return steps.map((step) => said(step))
}

describe('two strong links', () => {
  it('a skyscraper: two rows joined by a column', () => {
    const places = { 'row 1': 'r1c2 r1c5', 'row 8': 'r8c2 r8c6' }
    expect(found(places, skyscraper)).toEqual(['r2c6-3 r3c6-3 r7c5-3 r9c5-3'])
    expect(found(places, twoStringKite)).toEqual([])
    expect(found(places, turbotFish)).toEqual([])
  })

  it('a two-string kite: a row and a column joined in a box', () => {
    const places = { 'row 2': 'r2c1 r2c8', 'column 2': 'r3c2 r7c2' }
    expect(found(places, twoStringKite)).toEqual(['r7c8-3'])
  })

  it('a turbot fish: any other way, such as a box and a line', () => {
    const places = { 'box 1': 'r1c1 r3c2', 'column 8': 'r1c8 r6c8' }
    expect(found(places, turbotFish)).toEqual(['r6c2-3'])
  })

  it('an X-wing is none of them', () => {
    const places = { 'row 1': 'r1c2 r1c5', 'row 8': 'r8c2 r8c5' }
    for (const technique of [skyscraper, twoStringKite, turbotFish])
      expect(found(places, technique)).toEqual([])
  })
})

describe('empty rectangle', () => {
  it('with one strong link', () => {
    const places = { 'box 1': 'r2c1 r2c3 r1c2 r3c2', 'column 7': 'r2c7 r8c7' }
    expect(found(places, emptyRectangle)).toEqual(['r8c2-3'])
  })

  it('with a strong link on each arm', () => {
    const places = {
      'box 1': 'r2c1 r2c3 r1c2 r3c2',
      'column 7': 'r2c7 r8c7',
      'row 5': 'r5c2 r5c9',
    }
    const steps = found(places, emptyRectangle)
    expect(steps).toContain('r7c9-3 r8c9-3 r9c9-3')
  })

  it('not when all places of the box lie on one line', () => {
    expect(found({ 'box 1': 'r2c1 r2c2 r2c3', 'column 7': 'r2c7 r8c7' }, emptyRectangle)).toEqual([])
  })
})
