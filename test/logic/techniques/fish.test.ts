import { describe, expect, it } from 'vitest'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import type { Technique } from '../../../src/logic/technique.js'
import { frankenFish, mutantFish } from '../../../src/logic/techniques/box-fish.js'
import { finnedFish } from '../../../src/logic/techniques/finned-fish.js'
import { jellyfish, swordfish, xWing } from '../../../src/logic/techniques/fish.js'
import { cellAt } from '../../support/boards.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

const named = (list: readonly Technique[], name: string) => list.find((technique) => technique.name === name)!
const found = (places: Record<string, string>, technique: Technique) => {
  const board = limitedBoard({ places: { 7: places } })
  const steps = allSteps(board, technique)
  for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  return steps
}

describe('fish of lines', () => {
  it('an X-wing clears the rest of its two columns', () => {
    const [step, ...more] = found({ 'row 2': 'r2c3 r2c7', 'row 8': 'r8c3 r8c7' }, xWing)
    expect(more).toEqual([])
    expect(step!.removals).toHaveLength(14)
    expect(step!.pattern).toMatchObject({ shape: 'fish', base: [1, 7], cover: [11, 15], fins: [] })
  })

  it('an X-wing of columns clears rows', () => {
    const [step] = found({ 'column 3': 'r2c3 r8c3', 'column 7': 'r2c7 r8c7' }, xWing)
    expect(step!.pattern).toMatchObject({ base: [11, 15], cover: [1, 7] })
  })

  it('a swordfish needs no line to be full', () => {
    const places = { 'row 1': 'r1c1 r1c5', 'row 5': 'r5c5 r5c9', 'row 9': 'r9c1 r9c9' }
    expect(found(places, swordfish)).toHaveLength(1)
    expect(found(places, xWing)).toEqual([])
  })

  it('a jellyfish holds no smaller fish', () => {
    const places = {
      'row 1': 'r1c1 r1c2',
      'row 4': 'r4c2 r4c5',
      'row 7': 'r7c5 r7c8',
      'row 9': 'r9c8 r9c1',
    }
    expect(found(places, jellyfish)).toHaveLength(1)
    const twoWings = {
      'row 1': 'r1c1 r1c4',
      'row 2': 'r2c1 r2c4',
      'row 5': 'r5c6 r5c9',
      'row 8': 'r8c6 r8c9',
    }
    expect(found(twoWings, jellyfish)).toEqual([])
  })

  it('a finned X-wing clears what sees the fin', () => {
    const places = { 'row 2': 'r2c2 r2c8', 'row 6': 'r6c2 r6c8 r6c9' }
    const steps = found(places, named(finnedFish, 'finned-x-wing'))
    expect(steps.map((step) => said(step))).toEqual(['r4c8-7 r5c8-7'])
    expect(steps[0]!.pattern).toMatchObject({ fins: [cellAt('r6c9')] })
  })

  it('a sashimi X-wing lacks a corner', () => {
    const places = { 'row 2': 'r2c2 r2c8', 'row 6': 'r6c2 r6c9' }
    const steps = found(places, named(finnedFish, 'sashimi-x-wing'))
    expect(steps.map((step) => said(step))).toContain('r4c8-7 r5c8-7')
    expect(found(places, named(finnedFish, 'finned-x-wing'))).toEqual([])
  })
})

describe('fish with boxes', () => {
  it('a Franken swordfish has a box among its bases or covers', () => {
    // Box 1 and rows 5 and 9 as bases; columns 1, 2 and 7 as covers.
    const places = { 'box 1': 'r1c1 r2c1 r1c2 r3c2', 'row 5': 'r5c1 r5c7', 'row 9': 'r9c2 r9c7' }
    const steps = found(places, named(frankenFish, 'franken-swordfish'))
    const fish = steps.find((step) => String(step.pattern.shape === 'fish' && step.pattern.base) === '4,8,18')
    expect(fish?.pattern).toMatchObject({ cover: [9, 10, 15], fins: [] })
    // Rows 1 to 3 of column 7 are left to see; columns 1 and 2 outside the box and the rows.
    expect(fish?.removals.map(({ cell }) => cell)).toContain(cellAt('r4c1'))
    expect(fish?.removals.map(({ cell }) => cell)).toContain(cellAt('r1c7'))
  })

  it('a mutant fish mixes rows and columns on one side', () => {
    // Row 1 and column 1 as bases, column 9 and row 9 with a box as covers.
    const places = { 'row 1': 'r1c5 r1c9', 'column 2': 'r5c2 r9c2', 'box 9': 'r9c7 r7c9' }
    const steps = found(places, named(mutantFish, 'finned-mutant-swordfish')).concat(
      found(places, named(mutantFish, 'mutant-swordfish')),
    )
    expect(steps.length).toBeGreaterThan(0)
    for (const step of steps) {
      if (step.pattern.shape !== 'fish') throw new Error('a fish was expected')
      const { base, cover } = step.pattern
      expect(base).toHaveLength(3)
      expect(cover).toHaveLength(3)
      expect(base.filter((house) => cover.includes(house))).toEqual([])
    }
  })
})
