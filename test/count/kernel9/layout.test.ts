import { describe, expect, it } from 'vitest'
import { PLACE_OF_CELL, restrictWords } from '../../../src/count/kernel9/layout.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { STANDARD } from '../../../src/index.js'
import { CELL_OF_PLACE, FULL, SEEN_FROM_PLACE } from './plain-layout.js'

const ALL_CELLS = Array.from({ length: 81 }, (_, cell) => cell)
const cellsOf = (words: ArrayLike<number>, from: number) =>
  ALL_CELLS.filter((cell) => (words[from + (PLACE_OF_CELL[cell]! >> 5)]! >> (PLACE_OF_CELL[cell]! & 31)) & 1)

describe('how the 9×9 kernels see the grid', () => {
  it('gives each cell a bit of its own among the 27 of its band', () => {
    expect(new Set(PLACE_OF_CELL).size).toBe(81)
    for (const cell of ALL_CELLS) {
      expect(PLACE_OF_CELL[cell]! >> 5).toBe(Math.floor(cell / 27))
      expect((FULL >> (PLACE_OF_CELL[cell]! & 31)) & 1).toBe(1)
      expect(CELL_OF_PLACE[PLACE_OF_CELL[cell]!]).toBe(cell)
    }
    // the boxes are 10 bits apart, rows of a box 3: r1c1, r1c4, r2c1, r9c9
    expect([0, 3, 9, 80].map((cell) => PLACE_OF_CELL[cell])).toEqual([0, 10, 3, 92])
  })

  it('knows the cells that each cell sees', () => {
    for (const cell of ALL_CELLS) {
      const peers = [...layoutOf(STANDARD).peersOf[cell]!].sort((a, b) => a - b)
      expect(cellsOf(SEEN_FROM_PLACE, 3 * PLACE_OF_CELL[cell]!)).toEqual(peers)
    }
  })

  it.each([3, 4])('restrictWords takes away what the marks leave out, with %i words a digit', (stride) => {
    const words = new Int32Array(9 * stride).fill(FULL)
    const marks = ALL_CELLS.map((cell) => (cell * 37) % 512)
    restrictWords(words, stride, marks)
    for (let digit = 1; digit <= 9; digit++) {
      expect(cellsOf(words, stride * (digit - 1))).toEqual(
        ALL_CELLS.filter((cell) => (marks[cell]! >> (digit - 1)) & 1),
      )
      for (let band = 0; band < 3; band++) expect(words[stride * (digit - 1) + band]! & ~FULL).toBe(0)
    }
  })
})
