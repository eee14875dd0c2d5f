import type { ColourImage } from './ink-channel.js'
import type { RawPicture } from './picture-input.js'

/** A picture in colour, and the size it had before it was shrunk. */
export interface Decoded {
  readonly colour: ColourImage
  readonly fullWidth: number
  readonly fullHeight: number
}

/** Longer pictures are shrunk by the smallest whole factor that gets their longer side under this. */
export const LONGEST_SIDE = 2600

/** Raw pixels as a picture to be read: in colour, on white where they are transparent, and not too large. */
export function fromPixels(raw: RawPicture & { readonly channels: number }): Decoded {
  const { width, height } = raw
  const factor = Math.ceil(Math.max(width, height) / LONGEST_SIDE)
  return { colour: shrunk(inColour(raw), factor), fullWidth: width, fullHeight: height }
}

/** By whole numbers alone, so that the same pixels give the same bytes everywhere. */
export function inColour({
  width,
  height,
  channels,
  data,
}: RawPicture & { readonly channels: number }): ColourImage {
  if (channels === 3)
    return { width, height, data: new Uint8Array(data.buffer, data.byteOffset, data.length) }
  const colour = new Uint8Array(3 * width * height)
  const colours = channels > 2 ? 3 : 1
  const hasAlpha = channels === 2 || channels === 4
  for (let from = 0, to = 0; to < colour.length; from += channels, to += 3) {
    const alpha = hasAlpha ? data[from + colours]! : 255
    for (let c = 0; c < 3; c++) {
      const value = data[from + (colours === 3 ? c : 0)]!
      colour[to + c] = alpha === 255 ? value : ((value * alpha + 255 * (255 - alpha) + 127) / 255) | 0
    }
  }
  return { width, height, data: colour }
}

/**
 * Each pixel the mean of `factor × factor`; columns and rows that are left over at the right and bottom are dropped.
 */
function shrunk(image: ColourImage, factor: number): ColourImage {
  if (factor <= 1) return image
  const width = Math.max(1, Math.floor(image.width / factor))
  const height = Math.max(1, Math.floor(image.height / factor))
  const [across, down] = [Math.min(factor, image.width), Math.min(factor, image.height)]
  const area = across * down
  const data = new Uint8Array(3 * width * height)
  const sums = new Uint32Array(3 * width)
  for (let y = 0; y < height; y++) {
    sums.fill(area >> 1)
    for (let j = 0; j < down; j++) {
      let from = 3 * (y * factor + j) * image.width
      for (let at = 0; at < sums.length; at += 3) {
        for (let i = 0; i < across; i++, from += 3) {
          sums[at] = sums[at]! + image.data[from]!
          sums[at + 1] = sums[at + 1]! + image.data[from + 1]!
          sums[at + 2] = sums[at + 2]! + image.data[from + 2]!
        }
      }
    }
    for (let at = 0, to = 3 * y * width; at < sums.length; at++, to++) data[to] = (sums[at]! / area) | 0
  }
  return { width, height, data }
}
