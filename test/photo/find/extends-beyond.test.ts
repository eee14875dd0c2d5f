import { describe, expect, it } from 'vitest'
import { extendsBeyond } from '../../../src/photo/find/extends-beyond.js'
import type { GrayImage } from '../../../src/photo/image.js'

const CELL = 30
const WIDTH = 14 * CELL
const HEIGHT = 12 * CELL

/**
 * Rules two pixels wide around so many columns of nine squares, which begin one cell in; a bar without rules above
 * them.
 */
function ruled(columns: number): GrayImage {
  const data = new Uint8Array(WIDTH * HEIGHT).fill(220)
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) {
      const [u, v] = [x - CELL, y - 2 * CELL]
      const within = u >= -1 && v >= -1 && u <= columns * CELL && v <= 9 * CELL
      const onRule = within && ((u + 1) % CELL < 2 || (v + 1) % CELL < 2)
      const onBar = v >= -CELL && v < 0 && u >= 0 && u < columns * CELL
      if (onRule || onBar) data[y * WIDTH + x] = 60
    }
  }
  return { width: WIDTH, height: HEIGHT, data }
}

const points = Array.from({ length: 100 }, (_, k) => ({
  x: (1 + (k % 10)) * CELL,
  y: (2 + Math.floor(k / 10)) * CELL,
}))
const lattice = { order: 9, points, cut: false, support: 1 }

describe('extendsBeyond', () => {
  it('sees the tenth and eleventh column of a table', () => {
    expect(extendsBeyond(ruled(11), lattice)).toBe(true)
    expect(extendsBeyond(ruled(10), lattice)).toBe(true)
  })

  it('lets a grid be that ends at its frame, below a title bar and near the edge of the picture', () => {
    expect(extendsBeyond(ruled(9), lattice)).toBe(false)
  })
})
