/** A figure cut free: ink alone, its box to fractions of a pixel, and how dark its darkest pixels are. */
export interface CutFigure {
  /** Darkness 0..1 of the pixels of a square picture, row by row, 0 where the figure is not. */
  readonly darkness: Float32Array
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly strongest: number
}

/** Height of the figure in pixels, or 0.8 of its width where that is more. */
const HEIGHT = 20
const WIDTH_WORTH = 0.8
const LEAST_SCALE = 0.4
const MOST_SCALE = 3
const LEAST_INK = 0.01
const WHITE = 255

/**
 * A figure by itself, in the middle of a picture of `side²` pixels, always of the same size and as dark as ink can be:
 * hands write small, off the middle and faintly, and a network reads what it has seen most.
 *
 * @param from side of the picture that the figure was cut from
 */
export function centredFigure(figure: CutFigure, from: number, side: number): Uint8Array {
  const { left, right, top, bottom, darkness, strongest } = figure
  const size = Math.max(1, bottom - top, WIDTH_WORTH * (right - left))
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, HEIGHT / size))
  const [middleX, middleY] = [(left + right) / 2, (top + bottom) / 2]
  const full = Math.max(LEAST_INK, strongest)
  const at = (x: number, y: number) =>
    x < 0 || y < 0 || x >= from || y >= from ? 0 : Math.min(1, darkness[y * from + x]! / full)
  const data = new Uint8Array(side * side)
  for (let y = 0, k = 0; y < side; y++) {
    const v = (y + 0.5 - side / 2) / scale + middleY - 0.5
    const y0 = Math.floor(v)
    const down = v - y0
    for (let x = 0; x < side; x++, k++) {
      const u = (x + 0.5 - side / 2) / scale + middleX - 0.5
      const x0 = Math.floor(u)
      const over = u - x0
      const above = at(x0, y0) * (1 - over) + at(x0 + 1, y0) * over
      const below = at(x0, y0 + 1) * (1 - over) + at(x0 + 1, y0 + 1) * over
      data[k] = Math.round(WHITE * (1 - above * (1 - down) - below * down))
    }
  }
  return data
}
