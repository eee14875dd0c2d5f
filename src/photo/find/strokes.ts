import type { GrayImage } from '../image.js'
import { boxSums, PAPER_BLOCK_BITS, paperLevels } from './ridges.js'

/** Straight dark lines, straight light ones and straight edges, in thousandths of the paper's brightness; what noise and letters do is mostly averaged away. */
export interface StrokeMap {
  readonly width: number
  readonly height: number
  readonly dark: Uint16Array
  readonly light: Uint16Array
  /** Steps in brightness, as between a shaded cell and a white one. */
  readonly edge: Uint16Array
}

/** A stroke is averaged over this many pixels along its direction, to both sides of its middle. */
const HALF_LENGTH = 6
const EDGE_REACH = 2

/**
 * Like `ridgeMap`, but every value is first averaged over 13 pixels along each of eight directions. Faint, broken or noisy
 * rules stand out, and gaps in them close; it costs more, so it is for pictures where the plain map shows no grid.
 */
export function strokeMap(image: GrayImage): StrokeMap {
  const { width, height } = image
  const smooth = boxSums(image)
  const paper = paperLevels(smooth, width, height)
  const map = {
    width,
    height,
    dark: new Uint16Array(width * height),
    light: new Uint16Array(width * height),
    edge: new Uint16Array(width * height),
  }
  const along = new Float32Array(width * height)
  for (const slope of [0, 0.414, 1, 2.414, Number.POSITIVE_INFINITY, -2.414, -1, -0.414]) {
    averageAlong(smooth, width, height, slope, along)
    const angle = Math.atan(slope)
    collect(along, paper, -Math.sin(angle), Math.cos(angle), map)
  }
  return map
}

/** Means over `2 × HALF_LENGTH + 1` pixels along lines of a slope (dy / dx): a running sum on each line of pixels. */
function averageAlong(
  smooth: Uint16Array,
  width: number,
  height: number,
  slope: number,
  out: Float32Array,
): void {
  const steep = Math.abs(slope) > 1
  const [length, breadth] = steep ? [height, width] : [width, height]
  const [stepAlong, stepAcross] = steep ? [width, 1] : [1, width]
  const lean = steep ? 1 / slope : slope
  const shift = Int32Array.from({ length }, (_, k) => Math.round(k * lean))
  const drift = shift[length - 1]!
  for (let line = Math.min(0, -drift); line < breadth + Math.max(0, -drift); line++) {
    let first = 0
    let last = length - 1
    if (lean !== 0) {
      while (first < length && (line + shift[first]! < 0 || line + shift[first]! >= breadth)) first++
      while (last >= first && (line + shift[last]! < 0 || line + shift[last]! >= breadth)) last--
    }
    let sum = 0
    let count = 0
    for (let k = first - HALF_LENGTH; k <= last; k++) {
      const enter = k + HALF_LENGTH
      if (enter >= first && enter <= last) {
        sum += smooth[enter * stepAlong + (line + shift[enter]!) * stepAcross]!
        count++
      }
      const leave = k - HALF_LENGTH - 1
      if (leave >= first) {
        sum -= smooth[leave * stepAlong + (line + shift[leave]!) * stepAcross]!
        count--
      }
      if (k >= first) out[k * stepAlong + (line + shift[k]!) * stepAcross] = sum / count
    }
  }
}

function collect(
  along: Float32Array,
  paper: Float32Array,
  normalX: number,
  normalY: number,
  { width, height, dark, light, edge }: StrokeMap,
): void {
  const blocksWide = Math.ceil(width / (1 << PAPER_BLOCK_BITS))
  const offset = (reach: number) => Math.round(normalY * reach) * width + Math.round(normalX * reach)
  const near = offset(3)
  const far = offset(6)
  const step = offset(EDGE_REACH)
  const margin = 6
  for (let y = margin; y < height - margin; y++) {
    for (let x = margin; x < width - margin; x++) {
      const i = y * width + x
      const here = along[i]!
      const level = 1000 / paper[(y >> PAPER_BLOCK_BITS) * blocksWide + (x >> PAPER_BLOCK_BITS)]!
      const [a, b, c, d] = [along[i - near]!, along[i + near]!, along[i - far]!, along[i + far]!]
      const depth = (Math.max(a < b ? a : b, c < d ? c : d) - here) * level
      if (depth > dark[i]!) dark[i] = depth > 1000 ? 1000 : depth
      const height = (here - Math.min(a < b ? b : a, c < d ? d : c)) * level
      if (height > light[i]!) light[i] = height > 1000 ? 1000 : height
      const rise = Math.abs(along[i - step]! - along[i + step]!) * level
      if (rise > edge[i]!) edge[i] = rise > 1000 ? 1000 : rise
    }
  }
}
