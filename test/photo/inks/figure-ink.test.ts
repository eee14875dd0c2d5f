import { describe, expect, it } from 'vitest'
import { CELL_SIZE } from '../../../src/photo/digits/digit-reader.js'
import { figureInk, paperAround } from '../../../src/photo/inks/figure-ink.js'

/** A cell of dark rectangles (left, top, width, height, grey) on paper. */
function cell(...bars: readonly (readonly [number, number, number, number, number?])[]) {
  const data = new Uint8Array(CELL_SIZE * CELL_SIZE).fill(255)
  for (const [left, top, width, height, grey = 0] of bars) {
    for (let y = top; y < top + height; y++)
      for (let x = left; x < left + width; x++) data[y * CELL_SIZE + x] = grey
  }
  return { data }
}

const RULES = [
  [0, 0, 40, 7],
  [0, 0, 7, 40],
] as const
const FIGURE = [17, 11, 5, 18] as const

describe('figureInk', () => {
  it('finds nothing in a blank cell, nor in one with rules alone', () => {
    expect(figureInk(cell())).toBeUndefined()
    expect(figureInk(cell(...RULES))).toBeUndefined()
  })

  it('cuts a figure free of rules that reach into the window', () => {
    const ink = figureInk(cell(FIGURE, ...RULES))!
    expect([ink.left, ink.top, ink.right, ink.bottom].map(Math.round)).toEqual(
      [17, 11, 22, 29].map((v, i) => v + (i < 2 ? -1 : 1)),
    )
    expect(ink.sidesReached).toBe(0)
    expect(ink.others).toBe(0)
  })

  it('measures to fractions of a pixel', () => {
    const grey = (share: number) => Math.round(255 * (1 - share))
    const sharp = figureInk(cell(FIGURE))!
    const soft = figureInk(cell(FIGURE, [17, 29, 5, 1, grey(0.3)]))!
    expect(soft.bottom - sharp.bottom).toBeGreaterThan(0.1)
    expect(soft.bottom - sharp.bottom).toBeLessThan(0.9)
  })

  it('takes a broken figure together and small marks apart', () => {
    const broken = figureInk(cell([17, 9, 5, 12], [17, 23, 5, 8]))!
    expect(broken.bottom - broken.top).toBeGreaterThan(21)
    expect(broken.others).toBe(0)
    const marks = figureInk(cell([9, 9, 3, 7], [18, 9, 3, 7], [27, 9, 3, 7]))!
    expect(marks.bottom - marks.top).toBeLessThan(10)
    expect(marks.others).toBe(2)
  })

  it('says when a figure reaches the sides', () => {
    expect(figureInk(cell([15, 0, 9, 25]))!.sidesReached).toBe(1)
  })

  it('leaves paper only where no ink is near', () => {
    const paper = paperAround(figureInk(cell(FIGURE))!)
    expect(paper[20 * CELL_SIZE + 30]).toBe(1)
    expect(paper[20 * CELL_SIZE + 19]).toBe(0)
    expect(paper[20 * CELL_SIZE + 15]).toBe(0)
  })
})
