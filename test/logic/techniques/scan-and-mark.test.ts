import { describe, expect, it } from 'vitest'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { claiming, pointing } from '../../../src/logic/techniques/locked.js'
import { fullHouse, hiddenSingle, nakedSingle } from '../../../src/logic/techniques/singles.js'
import {
  hiddenPair,
  hiddenQuad,
  hiddenTriple,
  nakedPair,
  nakedQuad,
  nakedTriple,
} from '../../../src/logic/techniques/subsets.js'
import { boardOf } from '../../support/boards.js'
import { limitedBoard } from '../../support/limited-board.js'
import { allSteps } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

const everything = (board: Parameters<typeof allSteps>[0], technique: Parameters<typeof allSteps>[1]) => {
  const steps = allSteps(board, technique)
  for (const step of steps) expect(verifyStep(board, step)).toEqual({ proven: true })
  return steps.map((step) => said(step))
}

describe('singles', () => {
  it('a full house is the last open cell of a house, reported once', () => {
    const board = boardOf(`12345678.${'.'.repeat(72)}`)
    expect(everything(board, fullHouse)).toEqual(['r1c9=9'])
    expect(everything(board, hiddenSingle)).toEqual([])
    expect(everything(board, nakedSingle)).toEqual(['r1c9=9'])
  })

  it('a hidden single is reported by the box before the lines', () => {
    const board = boardOf(
      `1........ ....1.... ......... ....... .. ........1 ......... ......... .......1. .........`,
    )
    // Box 3 has rows 1 and 2 barred and columns 8 and 9 taken.
    const [step] = allSteps(board, hiddenSingle)
    expect(said(step!)).toBe('r3c7=1')
    expect(step!.pattern).toMatchObject({ shape: 'single', house: 20 })
    expect(verifyStep(board, step!)).toEqual({ proven: true })
  })

  it('a naked single is the only candidate of a cell, on any geometry', () => {
    const board = boardOf('12.. .... .... ..4.', boxedGeometry(2, 2))
    expect(everything(board, nakedSingle)).toEqual(['r1c3=3'])
  })
})

describe('locked candidates', () => {
  it('points from a box into a line', () => {
    const board = limitedBoard({ places: { 5: { 'box 1': 'r2c1 r2c3' } } })
    expect(everything(board, pointing)).toEqual(['r2c4-5 r2c5-5 r2c6-5 r2c7-5 r2c8-5 r2c9-5'])
    expect(everything(board, claiming)).toEqual([])
  })

  it('claims from a line for a box', () => {
    const board = limitedBoard({ places: { 5: { 'column 4': 'r7c4 r9c4' } } })
    expect(everything(board, claiming)).toEqual(['r7c5-5 r7c6-5 r8c5-5 r8c6-5 r9c5-5 r9c6-5'])
    expect(everything(board, pointing)).toEqual([])
  })
})

describe('subsets', () => {
  it('a naked pair in a line and a box takes its digits from both, once', () => {
    const board = limitedBoard({ marks: { r1c1: '12', r1c2: '12' } })
    const [only, ...more] = everything(board, nakedPair)
    expect(more).toEqual([])
    for (const place of ['r1c9-1', 'r1c9-2', 'r3c3-1', 'r3c3-2']) expect(only).toContain(place)
  })

  it('a naked pair that fills up its line still counts in its box', () => {
    const rows = ['.........', '.........', ...[3, 4, 5, 6, 7, 8, 9].map((digit) => `${digit}........`)]
    const [only, ...more] = everything(boardOf(rows.join('')), nakedPair)
    expect(more).toEqual([])
    expect(only).toBe(
      ['r1c2', 'r1c3', 'r2c2', 'r2c3', 'r3c2', 'r3c3'].flatMap((c) => [`${c}-1`, `${c}-2`]).join(' '),
    )
  })

  it('naked triples and quads may be spread thin, and hold no smaller set', () => {
    const triple = limitedBoard({ marks: { r1c1: '12', r1c5: '23', r1c9: '13' } })
    expect(everything(triple, nakedTriple)).toHaveLength(1)
    const padded = limitedBoard({ marks: { r1c1: '12', r1c5: '12', r1c9: '123' } })
    expect(everything(padded, nakedTriple)).toEqual([])
    const quad = limitedBoard({ marks: { r1c1: '12', r2c1: '23', r5c1: '34', r9c1: '14' } })
    expect(everything(quad, nakedQuad)).toHaveLength(1)
  })

  it('a hidden pair keeps its two cells to itself', () => {
    const board = limitedBoard({ places: { 1: { 'row 4': 'r4c2 r4c8' }, 2: { 'row 4': 'r4c2 r4c8' } } })
    expect(everything(board, hiddenPair)).toEqual([
      [3, 4, 5, 6, 7, 8, 9].map((d) => `r4c2-${d}`).join(' ') +
        ' ' +
        [3, 4, 5, 6, 7, 8, 9].map((d) => `r4c8-${d}`).join(' '),
    ])
  })

  it('hidden triples and quads', () => {
    const places = (digits: number[], cells: string) =>
      Object.fromEntries(digits.map((digit) => [digit, { 'box 5': cells }]))
    const triple = limitedBoard({ places: places([1, 2, 3], 'r4c4 r5c5 r6c6') })
    expect(everything(triple, hiddenTriple)).toHaveLength(1)
    expect(everything(triple, hiddenPair)).toEqual([])
    const quad = limitedBoard({ places: places([1, 2, 3, 4], 'r4c4 r5c5 r6c6 r4c6') })
    expect(everything(quad, hiddenQuad)).toHaveLength(1)
  })
})
