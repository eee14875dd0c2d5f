import type { GrayImage } from '../image.js'
import { type Direction, PixelMaps } from './pixel-maps.js'

/**
 * Straight dark lines, straight light ones and straight edges, in thousandths of the paper's brightness; what noise and
 * letters do is mostly averaged away.
 */
export interface StrokeMap {
  readonly dark: Uint16Array
  readonly light: Uint16Array
  /** Steps in brightness, as between a shaded cell and a white one. */
  readonly edge: Uint16Array
}

/** A stroke is averaged over this many pixels along its direction, to both sides of its middle. */
const HALF_LENGTH = 6
/** How far from it, across, its sides are: of fine lines, of thick or blurred ones, and of an edge. */
const NEAR = 3
const FAR = 6
const EDGE_REACH = 2

const DIRECTIONS: readonly Direction[] = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => {
  const angle = (k * Math.PI) / 8
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)]
  // one pixel a step along the axis that it is nearer to
  const stride = Math.max(Math.abs(dx), Math.abs(dy))
  const across = (reach: number) => [Math.round(-dy * reach), Math.round(dx * reach)] as const
  return {
    along: Array.from({ length: 2 * HALF_LENGTH + 1 }, (_, i) => {
      const step = (i - HALF_LENGTH) / stride
      return [Math.round(dx * step), Math.round(dy * step)] as const
    }),
    near: across(NEAR),
    far: across(FAR),
    step: across(EDGE_REACH),
  }
})

/**
 * Like `ridgeMap`, but every value is first averaged over 13 pixels along each of eight directions. Faint, broken or
 * noisy rules stand out, and gaps in them close; it costs more, so it is for pictures where the plain map shows no
 * grid.
 */
export function strokeMap(image: GrayImage): StrokeMap {
  return new PixelMaps(image).strokes(DIRECTIONS)
}
