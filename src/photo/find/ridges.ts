import type { GrayImage } from '../image.js'

/** How much darker than both its sides each pixel is, in thousandths of the paper's brightness there. */
export interface RidgeMap {
  readonly width: number
  readonly height: number
  /** 0..1000. */
  readonly strength: Uint16Array
  /** Pixels much darker than the paper around, 1 or 0: the inside of rules and frames wider than the widest ridge. */
  readonly dark: Uint8Array
}

/** Side of the blocks for which the paper's brightness is told, as a power of two. */
export const PAPER_BLOCK_BITS = 4
const PAPER_BLOCK = 1 << PAPER_BLOCK_BITS

/**
 * Where thin dark lines run, whatever their direction, and wherever the light comes from.
 *
 * A pixel of a rule is darker than the paper on both its sides; an edge of a shaded cell or of a chessboard square is
 * darker than one side only. So the strength is the larger, over four directions and two distances (3 pixels for fine
 * rules, 6 for thick or blurred ones), of `min(side, opposite side) - pixel`, taken from 3 × 3 means against noise and
 * divided by the brightness of the paper near by, because light and shadow multiply.
 */
export function ridgeMap(image: GrayImage): RidgeMap {
  const { width, height } = image
  const smooth = boxSums(image)
  const paper = paperLevels(smooth, width, height)
  const blocksWide = Math.ceil(width / PAPER_BLOCK)
  const strength = new Uint16Array(width * height)
  const dark = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    const innerRow = y >= FAR.straight && y < height - FAR.straight
    for (let x = 0; x < width; x++) {
      const i = y * width + x
      const here = smooth[i]!
      const level = paper[(y >> PAPER_BLOCK_BITS) * blocksWide + (x >> PAPER_BLOCK_BITS)]!
      if (here < level * 0.55) dark[i] = 1
      if (here > level * 0.985) continue
      const best =
        innerRow && x >= FAR.straight && x < width - FAR.straight
          ? Math.max(sides(smooth, i, NEAR, width), sides(smooth, i, FAR, width))
          : sidesAtEdge(smooth, x, y, width, height)
      if (best > here) strength[i] = Math.min(1000, ((best - here) * 1000) / level)
    }
  }
  return { width, height, strength, dark }
}

/** How far to look on both sides of a pixel: along rows and columns, and along diagonals. */
interface Reach {
  readonly straight: number
  readonly slant: number
}
const NEAR: Reach = { straight: 3, slant: 2 }
const FAR: Reach = { straight: 6, slant: 4 }

/** Over four directions, the lightest that the darker of two opposite sides gets. */
function sides(smooth: Uint16Array, i: number, { straight, slant }: Reach, width: number): number {
  const down = straight * width
  const diagonal = slant * width
  let best = Math.min(smooth[i - straight]!, smooth[i + straight]!)
  const vertical = Math.min(smooth[i - down]!, smooth[i + down]!)
  if (vertical > best) best = vertical
  const falling = Math.min(smooth[i - diagonal - slant]!, smooth[i + diagonal + slant]!)
  if (falling > best) best = falling
  const rising = Math.min(smooth[i - diagonal + slant]!, smooth[i + diagonal - slant]!)
  return rising > best ? rising : best
}

/** The same near the picture's edge, where a side that would lie outside is taken from the edge: rules that run into it still part the cells there. */
function sidesAtEdge(smooth: Uint16Array, x: number, y: number, width: number, height: number): number {
  let best = 0
  for (let k = 0; k < 8; k++) {
    const { straight, slant } = k < 4 ? NEAR : FAR
    const dx = (k & 3) === 0 ? straight : (k & 3) === 1 ? 0 : slant
    const dy = (k & 3) === 0 ? 0 : (k & 3) === 1 ? straight : (k & 3) === 2 ? slant : -slant
    const after = smooth[within(y + dy, height) * width + within(x + dx, width)]!
    const before = smooth[within(y - dy, height) * width + within(x - dx, width)]!
    const darker = before < after ? before : after
    if (darker > best) best = darker
  }
  return best
}

function within(value: number, size: number): number {
  return value < 0 ? 0 : value >= size ? size - 1 : value
}

/** Sums of 3 × 3 pixels; the outermost ring repeats its inner neighbours. */
export function boxSums({ width, height, data }: GrayImage): Uint16Array {
  const rows = new Uint16Array(width * height)
  for (let y = 0; y < height; y++) {
    const at = y * width
    for (let x = 1; x < width - 1; x++) rows[at + x] = data[at + x - 1]! + data[at + x]! + data[at + x + 1]!
    rows[at] = rows[at + 1]!
    rows[at + width - 1] = rows[at + width - 2]!
  }
  const sums = new Uint16Array(width * height)
  for (let y = 0; y < height; y++) {
    const above = Math.max(y - 1, 0) * width
    const here = y * width
    const below = Math.min(y + 1, height - 1) * width
    for (let x = 0; x < width; x++) sums[here + x] = rows[above + x]! + rows[here + x]! + rows[below + x]!
  }
  return sums
}

/** Brightness of the paper, a value for each block of 16 × 16 pixels: the brightest of the block, evened out over 3 × 3 blocks. */
export function paperLevels(smooth: Uint16Array, width: number, height: number): Float32Array {
  const wide = Math.ceil(width / PAPER_BLOCK)
  const high = Math.ceil(height / PAPER_BLOCK)
  const brightest = new Uint16Array(wide * high)
  for (let y = 0; y < height; y++) {
    const row = (y >> PAPER_BLOCK_BITS) * wide
    for (let x = 0; x < width; x++) {
      const block = row + (x >> PAPER_BLOCK_BITS)
      const value = smooth[y * width + x]!
      if (value > brightest[block]!) brightest[block] = value
    }
  }
  const levels = new Float32Array(wide * high)
  for (let y = 0; y < high; y++) {
    for (let x = 0; x < wide; x++) {
      let sum = 0
      let count = 0
      for (let v = Math.max(0, y - 1); v <= Math.min(high - 1, y + 1); v++) {
        for (let u = Math.max(0, x - 1); u <= Math.min(wide - 1, x + 1); u++) {
          sum += brightest[v * wide + u]!
          count++
        }
      }
      levels[y * wide + x] = Math.max(sum / count, 90)
    }
  }
  return levels
}
