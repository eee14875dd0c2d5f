import { argumentError, whole } from '../../check-arguments.js'
import { lattice as checkLattice, colourImage } from '../check-photo.js'
import type { ColourImage } from '../decode/ink-channel.js'
import type { Lattice } from '../lattice.js'

/** Of a cell's side, and cells around the grid: more would fill the memory. */
const MOST_PIXELS = 1000
const MOST_MARGIN = 4

/**
 * The grid bent straight: a square picture of `order × cellPixels` pixels a side (and `margin` more around), each cell
 * looked up between its own four crossings, so a curled or slanted page comes out flat. The first crossing of the
 * lattice is at the top left.
 *
 * @param cellPixels side of a cell on the result
 * @param margin what to show around the grid, in cells
 * @throws InputError `argument` for what is no picture or no lattice, or a size that makes no sense
 *
 * @example
 * const { gray, colour } = await decodePicture('page.jpg')
 * const [lattice] = await findLattices(gray)
 * const straight = rectify(colour, lattice!, 40) // 40 pixels a cell
 */
export function rectify(
  picture: ColourImage,
  lattice: Lattice,
  cellPixels: number,
  margin = 0.15,
): ColourImage {
  colourImage(picture, 'picture')
  checkLattice(lattice, 'lattice')
  whole(1, MOST_PIXELS)(cellPixels, 'cellPixels')
  if (typeof margin !== 'number' || !(margin >= 0 && margin <= MOST_MARGIN))
    throw argumentError('margin', `a number from 0 to ${MOST_MARGIN}`, margin)
  const { order, points } = lattice
  const border = Math.round(margin * cellPixels)
  const side = order * cellPixels + 2 * border
  const data = new Uint8Array(side * side * 3)
  for (let j = 0; j < side; j++) {
    const v = (j + 0.5 - border) / cellPixels
    const row = Math.min(order - 1, Math.max(0, Math.floor(v)))
    for (let i = 0; i < side; i++) {
      const u = (i + 0.5 - border) / cellPixels
      const column = Math.min(order - 1, Math.max(0, Math.floor(u)))
      const at = row * (order + 1) + column
      const a = points[at]!
      const b = points[at + 1]!
      const c = points[at + order + 1]!
      const d = points[at + order + 2]!
      const s = u - column
      const t = v - row
      const topX = a.x + (b.x - a.x) * s
      const topY = a.y + (b.y - a.y) * s
      const lowX = c.x + (d.x - c.x) * s
      const lowY = c.y + (d.y - c.y) * s
      copyPixel(picture, topX + (lowX - topX) * t, topY + (lowY - topY) * t, data, (j * side + i) * 3)
    }
  }
  return { width: side, height: side, data }
}

/** Bilinear; places outside the picture repeat its edge. */
function copyPixel(
  { width, height, data }: ColourImage,
  x: number,
  y: number,
  out: Uint8Array,
  at: number,
): void {
  const cx = Math.min(Math.max(x - 0.5, 0), width - 1.001)
  const cy = Math.min(Math.max(y - 0.5, 0), height - 1.001)
  const x0 = Math.floor(cx)
  const y0 = Math.floor(cy)
  const fx = cx - x0
  const fy = cy - y0
  const k = (y0 * width + x0) * 3
  const below = k + width * 3
  for (let channel = 0; channel < 3; channel++) {
    const top = data[k + channel]! * (1 - fx) + data[k + 3 + channel]! * fx
    const low = data[below + channel]! * (1 - fx) + data[below + 3 + channel]! * fx
    out[at + channel] = Math.round(top * (1 - fy) + low * fy)
  }
}
