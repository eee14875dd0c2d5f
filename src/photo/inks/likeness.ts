import { CELL_SIZE } from '../digits/digit-reader.js'
import type { FigureInk } from './figure-ink.js'

/** Side, in pixels of the cell picture, of the square in which two figures are put over each other. */
const SQUARE = 26
/** Figures are shifted against each other by up to so many pixels. */
const SHIFT = 1

/** A figure's darkness, centred in a square of its own. */
export type FigureShape = Float32Array

export function figureShape({ darkness, left, right, top, bottom }: FigureInk): FigureShape {
  const startX = (left + right) / 2 - SQUARE / 2
  const startY = (top + bottom) / 2 - SQUARE / 2
  const shape = new Float32Array(SQUARE * SQUARE)
  const at = (x: number, y: number) =>
    x < 0 || y < 0 || x >= CELL_SIZE || y >= CELL_SIZE ? 0 : darkness[y * CELL_SIZE + x]!
  const x0 = Math.floor(startX)
  const y0 = Math.floor(startY)
  const fx = startX - x0
  const fy = startY - y0
  for (let j = 0; j < SQUARE; j++) {
    for (let i = 0; i < SQUARE; i++) {
      const x = x0 + i
      const y = y0 + j
      const above = at(x, y) * (1 - fx) + at(x + 1, y) * fx
      const below = at(x, y + 1) * (1 - fx) + at(x + 1, y + 1) * fx
      shape[j * SQUARE + i] = above * (1 - fy) + below * fy
    }
  }
  return shape
}

/**
 * How well two figures lie over each other: the correlation of their darkness, the best over small shifts. Print
 * repeats a digit's shape exactly (near 1); a hand does not.
 */
export function likeness(one: FigureShape, other: FigureShape): number {
  let best = -1
  for (let dy = -SHIFT; dy <= SHIFT; dy++) {
    for (let dx = -SHIFT; dx <= SHIFT; dx++) best = Math.max(best, correlation(one, other, dx, dy))
  }
  return best
}

function correlation(one: FigureShape, other: FigureShape, dx: number, dy: number): number {
  let sumA = 0
  let sumB = 0
  let sumAA = 0
  let sumBB = 0
  let sumAB = 0
  for (let y = 0; y < SQUARE; y++) {
    const shiftedY = y - dy
    for (let x = 0; x < SQUARE; x++) {
      const shiftedX = x - dx
      const a = one[y * SQUARE + x]!
      const outside = shiftedX < 0 || shiftedY < 0 || shiftedX >= SQUARE || shiftedY >= SQUARE
      const b = outside ? 0 : other[shiftedY * SQUARE + shiftedX]!
      sumA += a
      sumB += b
      sumAA += a * a
      sumBB += b * b
      sumAB += a * b
    }
  }
  const n = SQUARE * SQUARE
  const spread = Math.sqrt((sumAA - (sumA * sumA) / n) * (sumBB - (sumB * sumB) / n))
  return spread > 0 ? (sumAB - (sumA * sumB) / n) / spread : 0
}
