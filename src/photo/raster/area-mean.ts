import type { GrayImage } from '../image.js'

/** Where each source line falls: the shares of it that two neighbouring target lines get. */
interface Shares {
  readonly target: Uint32Array
  /** The rest goes to the next target line. */
  readonly share: Float64Array
}

/**
 * A picture scaled so that its longer side is `longest` pixels, each pixel the mean of the area it covers. A place (x, y) of the
 * result is (x / scale, y / scale) on the picture given. Pictures that are smaller than that already stay as they are.
 */
export function areaMean(
  image: GrayImage,
  longest: number,
): { readonly image: GrayImage; readonly scale: number } {
  const scale = longest / Math.max(image.width, image.height)
  if (scale >= 1) return { image, scale: 1 }
  const width = Math.max(1, Math.round(image.width * scale))
  const height = Math.max(1, Math.round(image.height * scale))
  const columns = sharesOf(image.width, width, scale)
  const rows = sharesOf(image.height, height, scale)
  // one column and row more, for what falls off at the end
  const sums = new Float64Array((width + 1) * (height + 1))
  const line = new Float64Array(width + 1)
  for (let y = 0; y < image.height; y++) {
    line.fill(0)
    const from = y * image.width
    for (let x = 0; x < image.width; x++) {
      const value = image.data[from + x]!
      const at = columns.target[x]!
      const own = columns.share[x]! * value
      line[at] = line[at]! + own
      line[at + 1] = line[at + 1]! + value - own
    }
    const share = rows.share[y]!
    const to = rows.target[y]! * (width + 1)
    for (let x = 0; x < width; x++) {
      sums[to + x] = sums[to + x]! + share * line[x]!
      sums[to + width + 1 + x] = sums[to + width + 1 + x]! + (1 - share) * line[x]!
    }
  }
  const across = weightsOf(columns, width)
  const down = weightsOf(rows, height)
  const data = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      data[y * width + x] = Math.round(sums[y * (width + 1) + x]! / (across[x]! * down[y]!))
    }
  }
  return { image: { width, height, data }, scale }
}

/** `scale` < 1, so a source line touches two target lines at most. */
function sharesOf(sources: number, targets: number, scale: number): Shares {
  const target = new Uint32Array(sources)
  const share = new Float64Array(sources)
  for (let i = 0; i < sources; i++) {
    const start = i * scale
    // what lies beyond the last target line, which rounding may leave over, goes to the spare one
    const first = Math.min(targets - 1, Math.floor(start))
    target[i] = first
    share[i] = Math.max(0, Math.min(1, (first + 1 - start) / scale))
  }
  return { target, share }
}

/** How many source lines each target line got: the last may lack a part. */
function weightsOf({ target, share }: Shares, targets: number): Float64Array {
  const weights = new Float64Array(targets + 1)
  for (let i = 0; i < target.length; i++) {
    weights[target[i]!] = weights[target[i]!]! + share[i]!
    weights[target[i]! + 1] = weights[target[i]! + 1]! + 1 - share[i]!
  }
  return weights
}
