import type { GrayImage } from '../image.js'

/**
 * A picture made smaller by a whole factor, each pixel the mean of `factor × factor`. Rows and columns left over at the
 * right and bottom are dropped, so a place (x, y) of the small picture is (x × factor, y × factor) on the large one.
 */
export function shrink(image: GrayImage, factor: number): GrayImage {
  if (factor === 1) return image
  const { data } = image
  const width = Math.floor(image.width / factor)
  const height = Math.floor(image.height / factor)
  const out = new Uint8Array(width * height)
  const sums = new Uint32Array(width)
  const area = factor * factor
  const half = area >> 1
  for (let y = 0; y < height; y++) {
    sums.fill(half)
    for (let k = 0; k < factor; k++) {
      let at = (y * factor + k) * image.width
      for (let x = 0; x < width; x++) {
        let sum = 0
        for (let end = at + factor; at < end; at++) sum += data[at]!
        sums[x] = sums[x]! + sum
      }
    }
    for (let x = 0; x < width; x++) out[y * width + x] = (sums[x]! / area) | 0
  }
  return { width, height, data: out }
}
