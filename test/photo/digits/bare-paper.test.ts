import { describe, expect, it } from 'vitest'
import { barePaperScores, isBarePaper } from '../../../src/photo/digits/bare-paper.js'
import { CELL_SIZE } from '../../../src/photo/digits/digit-reader.js'
import { drawCells } from './drawn-cells.js'

const SEED = 7042

/** Noisy paper with a rule on each side and, if asked, a short faint stroke in the middle. */
function paper(stroke: boolean) {
  const data = Uint8Array.from({ length: CELL_SIZE * CELL_SIZE }, (_, i) => 255 - ((i * 37) % 23))
  for (let k = 0; k < CELL_SIZE; k++) {
    for (const side of [2, 3, 4, CELL_SIZE - 5, CELL_SIZE - 4]) {
      data[side * CELL_SIZE + k] = 20
      data[k * CELL_SIZE + side] = 20
    }
  }
  if (stroke) for (let y = 12; y < 28; y++) data[y * CELL_SIZE + 20] = 160
  return { data }
}

describe('bare paper', () => {
  it('is judged by the middle of the cell, whatever its rules are like', () => {
    expect(isBarePaper(paper(false))).toBe(true)
    expect(isBarePaper(paper(true))).toBe(false)
  })

  it(`is no drawn cell with a figure, and many a blank one (seed ${SEED})`, async () => {
    const cells = await drawCells(300, SEED)
    const bare = cells.filter(({ picture }) => isBarePaper(picture))
    expect(bare.filter(({ digit }) => digit !== 0)).toEqual([])
    expect(bare.length).toBeGreaterThan(20)
  })

  it('is as good as surely blank', () => {
    const { digits, handwritten } = barePaperScores()
    expect(digits.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 6)
    expect(digits[0]).toBeGreaterThan(0.999)
    expect(handwritten).toBe(0)
  })
})
