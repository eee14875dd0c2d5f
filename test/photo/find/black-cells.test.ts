import { describe, expect, it } from 'vitest'
import { Random } from '../../../fixtures/draw/random.js'
import { hasBlackCells, PERHAPS_BLACK } from '../../../src/photo/find/black-cells.js'
import type { GrayImage } from '../../../src/photo/image.js'

const ORDER = 9
const CELL = 36
const SIDE = (ORDER + 2) * CELL
const SEED = 411

interface CellLook {
  readonly ground: number
  /** A stroke down the middle. */
  readonly figure?: number
}

/** A plain ruled grid, one cell in from the picture's edges, with noise of so many grey levels either way. */
function ruled(look: (row: number, column: number) => CellLook, noise: number): GrayImage {
  const random = new Random(SEED)
  const data = new Uint8Array(SIDE * SIDE)
  for (let y = 0; y < SIDE; y++) {
    for (let x = 0; x < SIDE; x++) {
      const [row, column] = [Math.floor(y / CELL) - 1, Math.floor(x / CELL) - 1]
      const inside = Math.min(row, column) >= 0 && Math.max(row, column) < ORDER
      const { ground, figure } = inside ? look(row, column) : { ground: 200, figure: undefined }
      const [u, v] = [x % CELL, y % CELL]
      const onRule = inside && Math.min(u, v) < 2
      const onFigure = figure !== undefined && Math.abs(u - 18) < 4 && Math.abs(v - 18) < 10
      const value = (onRule ? ground * 0.3 : onFigure ? figure : ground) + random.between(-noise, noise)
      data[y * SIDE + x] = Math.max(0, Math.min(255, value))
    }
  }
  return { width: SIDE, height: SIDE, data }
}

const points = Array.from({ length: (ORDER + 1) ** 2 }, (_, k) => ({
  x: (1 + (k % (ORDER + 1))) * CELL,
  y: (1 + Math.floor(k / (ORDER + 1))) * CELL,
}))
const lattice = { order: ORDER, points, cut: false, support: 1 }
const isBlack = (row: number, column: number) => (row * 4 + column * 7) % 6 === 0

describe('hasBlackCells', () => {
  it(`knows the empty black cells of a crossword, on a noisy picture too (seed ${SEED})`, () => {
    const crossword = (row: number, column: number) => ({ ground: isBlack(row, column) ? 20 : 200 })
    for (const noise of [0, 30]) expect(hasBlackCells(ruled(crossword, noise), lattice)).toBe(true)
  })

  it('may know them under veiling light, which shaded cells with figures are not taken for', () => {
    const veiled = (row: number, column: number) => ({ ground: isBlack(row, column) ? 95 : 200 })
    const shaded = (row: number, column: number) => ({
      ...veiled(row, column),
      ...((row + column) % 3 === 0 ? { figure: 30 } : {}),
    })
    expect(hasBlackCells(ruled(veiled, 5), lattice)).toBe(false)
    expect(hasBlackCells(ruled(veiled, 5), lattice, PERHAPS_BLACK)).toBe(true)
    expect(hasBlackCells(ruled(shaded, 5), lattice, PERHAPS_BLACK)).toBe(false)
  })

  it('is not misled by black cells of which a third hold light digits', () => {
    const grid = (row: number, column: number) =>
      isBlack(row, column)
        ? { ground: 20, ...((row + column) % 3 === 0 ? { figure: 180 } : {}) }
        : { ground: 200 }
    expect(hasBlackCells(ruled(grid, 8), lattice)).toBe(false)
  })

  it('does not take the dark foot of a picture for black cells', () => {
    // light falls off towards the last rows; a few figures stand there
    const dim = (row: number, column: number) => {
      const ground = 200 * Math.min(1, 1.15 - row / 9)
      return { ground, ...((row * 5 + column) % 9 === 0 ? { figure: 0.2 * ground } : {}) }
    }
    expect(200 * (1.15 - 8 / 9)).toBeLessThan(0.42 * 200)
    expect(hasBlackCells(ruled(dim, 3), lattice)).toBe(false)
  })
})
