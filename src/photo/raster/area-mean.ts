import type { GrayImage } from '../image.js'

/** Where each source line falls: the shares of it that two neighbouring target lines get. */
interface Shares {
  readonly target: Uint32Array
  /** The rest goes to the next target line. */
  readonly share: Float64Array
}

/**
 * A picture scaled so that its longer side is `longest` pixels, each pixel the mean of the area it covers. A place (x,
 * y) of the result is (x / scale, y / scale) on the picture given. Pictures that are smaller than that already stay as
 * they are.
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
  const across = weightsOf(columns, width)
  const down = weightsOf(rows, height)
  const data = new Uint8Array(width * height)
  // down first, a line at a time, since that takes no look at where each pixel falls
  let line = new Float64Array(image.width)
  let next = new Float64Array(image.width)
  // one column more, for what falls off at the end
  const sums = new Float64Array(width + 1)
  for (let row = 0, y = 0; row < height; row++) {
    for (; y < image.height && rows.target[y] === row; y++) {
      addLine(image.data, y * image.width, rows.share[y]!, line, next)
    }
    sums.fill(0)
    for (let x = 0; x < image.width; x++) {
      const value = line[x]!
      const at = columns.target[x]!
      const own = columns.share[x]! * value
      sums[at] = sums[at]! + own
      sums[at + 1] = sums[at + 1]! + value - own
    }
    for (let x = 0; x < width; x++) {
      data[row * width + x] = Math.round(sums[x]! / (across[x]! * down[row]!))
    }
    line.fill(0)
    ;[line, next] = [next, line]
  }
  return { image: { width, height, data }, scale }
}

/** Adds a line of pixels to `line`, or the rest of it to the one after where only a share falls there. */
function addLine(
  pixels: Uint8Array,
  from: number,
  share: number,
  line: Float64Array,
  next: Float64Array,
): void {
  if (share === 1) {
    for (let x = 0; x < line.length; x++) line[x] = line[x]! + pixels[from + x]!
    return
  }
  for (let x = 0; x < line.length; x++) {
    const own = share * pixels[from + x]!
    line[x] = line[x]! + own
    next[x] = next[x]! + pixels[from + x]! - own
  }
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
