import type { GrayImage } from '../image.js'
import { instantiate, WASM_PAGE, type WasmMemory } from '../wasm-module.js'
import { WASM_BYTES } from './pixel-maps-bytes.js'

/** Side of the blocks for which the paper's brightness is found, as a power of two; pixel-maps.as has the same. */
const BLOCK_BITS = 4
const BLOCK = 1 << BLOCK_BITS
/** Pixels around a map with a border, and how many more at its right: as in pixel-maps.as. */
const BORDER = 6
const LANES = 8
/** Bytes left free around what the kernel reads and writes a few lanes too far. */
const ROOM = 64
/** Darker paper than this (sum of nine pixels) counts as this dark: it is no paper. */
const DARKEST_PAPER = 90

/** What pixel-maps.as exports; addresses and sizes are described there. */
interface MapsKernel {
  readonly memory: WasmMemory
  boxSums(image: number, rows: number, sums: number, width: number, height: number, pitch: number): void
  blockMaxima(sums: number, maxima: number, width: number, height: number, pitch: number): void
  ridges(
    sums: number,
    levels: number,
    depths: number,
    width: number,
    height: number,
    pitch: number,
    outPitch: number,
    lighter: number,
    darker: number,
  ): void
  sumAlong(sums: number, offsets: number, along: number, width: number, height: number, pitch: number): void
  raiseStrokes(
    along: number,
    near: number,
    far: number,
    step: number,
    dark: number,
    light: number,
    edge: number,
    width: number,
    height: number,
    pitch: number,
    outPitch: number,
  ): void
  toShares(
    map: number,
    levels: number,
    width: number,
    height: number,
    outPitch: number,
    divisor: number,
  ): void
}

/** Places beside a pixel that a direction is summed over. */
export interface Direction {
  /** Thirteen places, (dx, dy) each. */
  readonly along: readonly (readonly [number, number])[]
  /** Across it: where sides are compared at two distances, and where edges are. */
  readonly near: readonly [number, number]
  readonly far: readonly [number, number]
  readonly step: readonly [number, number]
}

/**
 * The memory of the kernel laid out for one picture: its smoothed pixels, the brightness of its paper and room for
 * three maps. There is one memory for all pictures, as large as the largest needed, so a copy of each result is handed
 * out and the next picture begins anew.
 */
export class PixelMaps {
  private readonly kernel = sharedKernel()
  private readonly width: number
  private readonly height: number
  /** Bytes from row to row: of maps with a border, and without. */
  private readonly pitch: number
  private readonly outPitch: number
  private readonly image: number
  private readonly sums: number
  private readonly work: number
  private readonly maps: readonly [number, number, number]
  private readonly levels: number
  private readonly offsets: number

  constructor({ width, height, data }: GrayImage) {
    this.width = width
    this.height = height
    this.pitch = 2 * roundUp(width + 2 * BORDER + LANES)
    this.outPitch = 2 * roundUp(width)
    let end = ROOM
    const reserve = (bytes: number) => {
      const at = end
      end += roundUp(bytes) + ROOM
      return at
    }
    const inside = BORDER * this.pitch + 2 * BORDER
    const bordered = this.pitch * (height + 2 * BORDER)
    this.image = reserve((this.outPitch * height) >> 1)
    this.sums = reserve(bordered) + inside
    this.work = reserve(bordered) + inside
    this.maps = [
      reserve(this.outPitch * height),
      reserve(this.outPitch * height),
      reserve(this.outPitch * height),
    ]
    const blocks = Math.ceil(width / BLOCK) * Math.ceil(height / BLOCK)
    const maxima = reserve(2 * blocks)
    this.levels = reserve(4 * blocks)
    this.offsets = reserve(4 * 16)
    const { memory } = this.kernel
    const missing = end - memory.buffer.byteLength
    if (missing > 0) memory.grow(Math.ceil(missing / WASM_PAGE))
    new Uint8Array(memory.buffer).set(data, this.image)
    this.kernel.boxSums(this.image, this.work, this.sums, width, height, this.pitch)
    this.kernel.blockMaxima(this.sums, maxima, width, height, this.pitch)
    const brightest = new Uint16Array(memory.buffer, maxima, blocks)
    fillPaperLevels(brightest, Math.ceil(width / BLOCK), new Float32Array(memory.buffer, this.levels, blocks))
  }

  /** Depth of each ridge in thousandths of the paper, 1000 for pixels much darker than it. */
  ridges(lighter: number, darker: number): Uint16Array {
    const { kernel, width, height, sums, levels, pitch, outPitch } = this
    const [depths] = this.maps
    kernel.ridges(sums, levels, depths, width, height, pitch, outPitch, lighter, darker)
    kernel.toShares(depths, levels, width, height, outPitch, 1)
    return this.copyOf(depths)
  }

  /**
   * Straight dark lines, light lines and edges in thousandths of the paper: the most that any of the directions shows.
   */
  strokes(directions: readonly Direction[]): { dark: Uint16Array; light: Uint16Array; edge: Uint16Array } {
    const { kernel, width, height, sums, work, levels, offsets, pitch, outPitch } = this
    const [dark, light, edge] = this.maps
    const { buffer } = kernel.memory
    for (const map of this.maps) new Uint8Array(buffer, map, outPitch * height).fill(0)
    const bytes = ([dx, dy]: readonly [number, number]) => dy * pitch + 2 * dx
    for (const { along, near, far, step } of directions) {
      new Int32Array(buffer, offsets, along.length).set(along.map(bytes))
      kernel.sumAlong(sums, offsets, work, width, height, pitch)
      kernel.raiseStrokes(
        work,
        bytes(near),
        bytes(far),
        bytes(step),
        dark,
        light,
        edge,
        width,
        height,
        pitch,
        outPitch,
      )
    }
    const count = directions[0]?.along.length ?? 1
    for (const map of this.maps) kernel.toShares(map, levels, width, height, outPitch, count)
    return { dark: this.copyOf(dark), light: this.copyOf(light), edge: this.copyOf(edge) }
  }

  private copyOf(map: number): Uint16Array {
    const out = new Uint16Array(this.width * this.height)
    copyRows(new Uint16Array(this.kernel.memory.buffer, map), this.outPitch >> 1, this.width, out)
    return out
  }
}

function roundUp(value: number): number {
  return Math.ceil(value / LANES) * LANES
}

function copyRows(from: Uint16Array, pitch: number, width: number, to: Uint16Array): void {
  if (pitch === width) {
    to.set(from.subarray(0, to.length))
    return
  }
  for (let at = 0, source = 0; at < to.length; at += width, source += pitch) {
    to.set(from.subarray(source, source + width), at)
  }
}

/**
 * Brightness of the paper (a sum of nine pixels) for each block: the brightest of the block, evened out over 3 × 3
 * blocks.
 */
function fillPaperLevels(brightest: Uint16Array, wide: number, levels: Float32Array): void {
  const high = brightest.length / wide
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
      levels[y * wide + x] = Math.max(sum / count, DARKEST_PAPER)
    }
  }
}

let kernel: MapsKernel | undefined

function sharedKernel(): MapsKernel {
  kernel ??= instantiate<MapsKernel>(WASM_BYTES)
  return kernel
}
