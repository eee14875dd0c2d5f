import type { ColourImage } from '../decode/ink-channel.js'
import type { Frame } from '../frame.js'
import type { GrayImage } from '../image.js'

/**
 * The red, green and blue of a part of a picture as three grey ones, made smaller by a whole factor. The part is
 * widened to whole blocks of the small pictures, which begin at `left` and `top` (in their own pixels) of a copy of the
 * whole.
 */
export function shrunkChannels(
  { width, height, data }: ColourImage,
  frame: Frame,
  factor: number,
): { readonly channels: readonly GrayImage[]; readonly left: number; readonly top: number } {
  const within = (value: number, most: number) => Math.max(0, Math.min(most, Math.floor(value)))
  const [across, down] = [Math.floor(width / factor), Math.floor(height / factor)]
  const left = within(frame.left / factor, across - 1)
  const top = within(frame.top / factor, down - 1)
  const columns = within(frame.right / factor + 1, across) - left
  const rows = within(frame.bottom / factor + 1, down) - top
  const size = { width: columns, height: rows }
  const area = factor * factor
  const [red, green, blue] = [0, 1, 2].map(() => new Uint8Array(columns * rows)) as [
    Uint8Array,
    Uint8Array,
    Uint8Array,
  ]
  for (let y = 0, at = 0; y < rows; y++) {
    const from = 3 * ((top + y) * factor * width + left * factor)
    if (factor === 1) {
      for (let k = from, end = from + 3 * columns; k < end; k += 3, at++) {
        red[at] = data[k]!
        green[at] = data[k + 1]!
        blue[at] = data[k + 2]!
      }
      continue
    }
    for (let x = 0; x < columns; x++, at++) {
      let r = area >> 1
      let g = r
      let b = r
      for (let j = 0; j < factor; j++) {
        let k = from + 3 * (j * width + x * factor)
        for (let i = 0; i < factor; i++, k += 3) {
          r += data[k]!
          g += data[k + 1]!
          b += data[k + 2]!
        }
      }
      red[at] = (r / area) | 0
      green[at] = (g / area) | 0
      blue[at] = (b / area) | 0
    }
  }
  return { channels: [red, green, blue].map((plane) => ({ ...size, data: plane })), left, top }
}
