import { CELL_SIZE } from '../digits/digit-reader.js'
import { type FigureInk, SIDE } from '../inks/figure-ink.js'

/** Height of the figure, or 0.8 of its width where that is more, in cell sides. */
const HEIGHT = 0.7
const WIDTH_WORTH = 0.8
const LEAST_SCALE = 0.7
const MOST_SCALE = 3
const WHITE = 255

/**
 * The figure of a cell by itself, as if it stood in the middle of the cell at the size that most entries have: hands
 * write small and off the middle, too, and a network reads what it has seen most.
 */
export function centredFigure({ left, right, top, bottom, darkness }: FigureInk): Uint8Array {
  const size = Math.max(bottom - top, WIDTH_WORTH * (right - left))
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, (HEIGHT * SIDE) / size))
  const [middleX, middleY] = [(left + right) / 2, (top + bottom) / 2]
  const at = (x: number, y: number) =>
    x < 0 || y < 0 || x >= CELL_SIZE || y >= CELL_SIZE ? 0 : darkness[y * CELL_SIZE + x]!
  const data = new Uint8Array(CELL_SIZE * CELL_SIZE)
  for (let y = 0, k = 0; y < CELL_SIZE; y++) {
    for (let x = 0; x < CELL_SIZE; x++, k++) {
      const u = (x + 0.5 - CELL_SIZE / 2) / scale + middleX - 0.5
      const v = (y + 0.5 - CELL_SIZE / 2) / scale + middleY - 0.5
      const [x0, y0] = [Math.floor(u), Math.floor(v)]
      const [right, down] = [u - x0, v - y0]
      const above = at(x0, y0) * (1 - right) + at(x0 + 1, y0) * right
      const below = at(x0, y0 + 1) * (1 - right) + at(x0 + 1, y0 + 1) * right
      data[k] = Math.round(WHITE * (1 - above * (1 - down) - below * down))
    }
  }
  return data
}
