import type { GrayImage } from '../image.js'

/** A colour picture: red, green, blue, one byte each, row by row. */
export interface ColourImage {
  readonly width: number
  readonly height: number
  /** `3 × width × height` bytes. */
  readonly data: Uint8Array
}

/**
 * The grey picture in which print of any colour is dark: the smallest of red, green and blue at each pixel. White paper
 * is bright in all three; red, blue or green ink is dark in at least one of them, black ink in all.
 */
export function inkChannel({ width, height, data }: ColourImage): GrayImage {
  const grey = new Uint8Array(width * height)
  // without a branch, which noise would make the processor guess wrong: `d & (d >> 31)` is d where that is negative,
  // else 0
  for (let i = 0, k = 0; i < grey.length; i++, k += 3) {
    const green = data[k + 1]!
    const blue = data[k + 2]!
    const redLess = data[k]! - green
    const less = green + (redLess & (redLess >> 31)) - blue
    grey[i] = blue + (less & (less >> 31))
  }
  return { width, height, data: grey }
}

/** A pixel whose weakest colour is below this share of its strongest is coloured … */
const COLOURED = 0.8
/** … and a picture with fewer such pixels, as a share, looks the same without them. */
const LEAST_COLOURED = 0.01

/**
 * The grey picture in which only black and grey are dark: the largest of red, green and blue at each pixel. Ground of
 * any colour is bright here, however dark it is in one of them. Undefined when hardly anything has a colour.
 */
export function blackChannel({ width, height, data }: ColourImage): GrayImage | undefined {
  const grey = new Uint8Array(width * height)
  let coloured = 0
  for (let i = 0, k = 0; i < grey.length; i++, k += 3) {
    const most = Math.max(data[k]!, data[k + 1]!, data[k + 2]!)
    if (Math.min(data[k]!, data[k + 1]!, data[k + 2]!) < COLOURED * most) coloured++
    grey[i] = most
  }
  return coloured < LEAST_COLOURED * grey.length ? undefined : { width, height, data: grey }
}
