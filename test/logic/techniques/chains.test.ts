import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/grid/board.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import type { Technique } from '../../../src/logic/technique.js'
import {
  alternatingInferenceChain,
  continuousLoop,
  finnedChain,
  groupedChain,
  xChain,
  xyChain,
} from '../../../src/logic/techniques/chains.js'
import { remotePairs } from '../../../src/logic/techniques/remote-pairs.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

// Boards made for one pattern each: marks are full but for what is named.

function onlyStep(board: Board, technique: Technique) {
  const steps = allSteps(board, technique)
  expect(steps.map((step) => said(step))).toHaveLength(1)
  expect(verifyStep(board, steps[0]!)).toEqual({ proven: true })
  return steps[0]!
}

describe('x-chain', () => {
  it('runs over three houses with two places each', () => {
    // r1c1 and r2c3 share box 1, r8c3 and r8c6 row 8; any two of the houses alone remove nothing
    const board = limitedBoard({
      places: { 4: { 'column 1': 'r5c1 r1c1', 'column 3': 'r2c3 r8c3', 'column 6': 'r8c6 r4c6' } },
    })
    const step = onlyStep(board, xChain)
    expect(said(step)).toBe('r4c2-4 r5c4-4 r5c5-4')
    expect(step.premises.map((premise) => premise.kind)).toEqual(['house', 'house', 'house'])
    expect(step.pattern).toMatchObject({ shape: 'chain', loop: false })
  })
})

describe('xy-chain', () => {
  it('passes a digit along four cells', () => {
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '23', r5c5: '34', r5c9: '41' } })
    const step = onlyStep(board, xyChain)
    expect(said(step)).toBe('r1c9-1 r5c1-1')
    expect(step.premises).toHaveLength(4)
  })

  it('closes to a loop and then removes on every link', () => {
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '23', r5c5: '34', r5c1: '41' } })
    const step = onlyStep(board, xyChain)
    expect(step.pattern).toMatchObject({ shape: 'chain', loop: true })
    const rest = (house: (i: number) => string, digit: number, without: number[]) =>
      [1, 2, 3, 4, 5, 6, 7, 8, 9].filter((i) => !without.includes(i)).map((i) => `${house(i)}-${digit}`)
    const expected = [
      ...rest((i) => `r1c${i}`, 2, [1, 5]),
      ...rest((i) => `r${i}c5`, 3, [1, 5]),
      ...rest((i) => `r5c${i}`, 4, [1, 5]),
      ...rest((i) => `r${i}c1`, 1, [1, 5]),
    ]
    expect(said(step).split(' ').sort()).toEqual(expected.sort())
  })

  it('places a digit when both ends are one candidate', () => {
    // r1c1 not 1 makes it 2, r1c5 3, r5c5 4, r5c1 … and r1c1 cannot be 2 after all
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '23', r5c5: '34', r5c1: '42' } })
    const steps = allSteps(board, xyChain)
    expect(steps.map((step) => said(step))).toContain('r1c1=1')
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  })
})

describe('remote-pairs', () => {
  it('takes both digits from cells that see both ends', () => {
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '12', r5c5: '12', r5c9: '12' } })
    expect(allSteps(board, remotePairs).map((step) => said(step))).toEqual(['r1c9-1 r1c9-2 r5c1-1 r5c1-2'])
  })

  it('tells nothing of an odd number of cells', () => {
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '12', r5c5: '12' } })
    expect(allSteps(board, remotePairs)).toEqual([])
  })
})

describe('alternating-inference-chain', () => {
  it('mixes cells and houses, and ends on two digits in cells that see each other', () => {
    // 1 in column 1: r1c1 or r6c1; r6c5 takes 1 or 2; 2 in column 9: r6c9 or r1c9
    const board = limitedBoard({
      marks: { r6c5: '12' },
      places: { 1: { 'column 1': 'r1c1 r6c1' }, 2: { 'column 9': 'r6c9 r1c9' } },
    })
    const step = onlyStep(board, alternatingInferenceChain)
    expect(said(step)).toBe('r1c1-2 r1c9-1')
  })
})

describe('grouped-alternating-inference-chain', () => {
  it('takes cells of a box and line crossing as one end', () => {
    const board = limitedBoard({
      places: { 6: { 'box 1': 'r1c1 r1c2 r3c3', 'column 8': 'r1c8 r6c8' } },
    })
    // 6 in box 1: r3c3 or row 1; in column 8: r1c8 or r6c8
    const step = onlyStep(board, groupedChain)
    expect(said(step)).toBe('r6c3-6')
  })
})

describe('continuous-loop', () => {
  it('is the X-wing when it is as short as that', () => {
    const board = limitedBoard({ places: { 5: { 'row 2': 'r2c2 r2c6', 'row 7': 'r7c2 r7c6' } } })
    const step = onlyStep(board, continuousLoop)
    expect(step.removals).toHaveLength(14)
    expect(new Set(step.removals.map(({ cell }) => cell % 9))).toEqual(new Set([1, 5]))
  })
})

describe('finned-chain', () => {
  it('lets a cell have a third candidate that the target sees', () => {
    // 1 in r5c1 makes r1c1 2, r1c5 3, r5c5 4 (not 1, which r5c1 has), r9c5 5 and r9c1 1 as well
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '23', r5c5: '134', r9c5: '45', r9c1: '51' } })
    const steps = allSteps(board, finnedChain)
    expect(steps.map((step) => said(step))).toContain('r5c1-1')
    for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  })

  it('leaves out what a plain chain does in as many links', () => {
    const board = limitedBoard({ marks: { r1c1: '12', r1c5: '23', r5c5: '34', r9c5: '45', r9c1: '51' } })
    expect(allSteps(board, finnedChain).map((step) => said(step))).not.toContain('r5c1-1')
  })
})
