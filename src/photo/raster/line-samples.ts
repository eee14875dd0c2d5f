import type { GrayImage } from '../image.js'
import { instantiate, WASM_PAGE, type WasmMemory } from '../wasm-module.js'
import { WASM_BYTES } from './line-samples-bytes.js'

/** What line-samples.as exports; addresses and numbers are described there. */
interface SamplesKernel {
  readonly memory: WasmMemory
  sampleLine(
    picture: number,
    width: number,
    lastX: number,
    lastY: number,
    x: number,
    y: number,
    stepX: number,
    stepY: number,
    count: number,
    taps: number,
    tapX: number,
    tapY: number,
    to: number,
  ): void
  sampleSquare(
    picture: number,
    width: number,
    lastX: number,
    lastY: number,
    x: number,
    y: number,
    stepX: number,
    stepY: number,
    nextX: number,
    nextY: number,
    twistX: number,
    twistY: number,
    side: number,
    to: number,
  ): void
  darken(square: number, side: number, paper: number, stepX: number, stepY: number, least: number): void
  toGrey(numbers: number, count: number, scale: number, to: number): void
}

const FLOAT = 4
/** Bytes left free around what the kernel reads and writes a few lanes too far. */
const ROOM = 64
/**
 * Pictures end a little before the middles of their last column and row, so that every place lies between four pixels.
 */
const SHORT_OF_LAST = 1.001

/** Where lines below each other lie: the first one's start and steps, and by how much both change from line to line. */
export interface Lines {
  readonly x: number
  readonly y: number
  readonly stepX: number
  readonly stepY: number
  readonly nextX: number
  readonly nextY: number
  readonly twistX: number
  readonly twistY: number
}

/**
 * Brightness along straight lines of pictures, between pixels, written into numbers that lie in the kernel's memory.
 * There is one memory for all who ask, one after the other: what is sampled has to be used, or copied, before anybody
 * opens other pictures. Places are in pixels with the middle of the first at (0, 0).
 */
export class LineSamples {
  /** What was sampled, and room to work in; lent until pictures are opened again. */
  numbers = new Float32Array(0)
  private readonly kernel = instantiate<SamplesKernel>(WASM_BYTES)
  private pictures: readonly WeakRef<GrayImage>[] = []
  private sizes: readonly { readonly at: number; readonly width: number; readonly height: number }[] = []
  private grey = 0

  /**
   * Lays pictures ready, if they do not lie there from the last time, and room for so many numbers. (Pictures are not
   * changed once they are made.)
   */
  open(pictures: readonly GrayImage[], count: number): void {
    const there =
      this.numbers.length >= count &&
      pictures.length === this.pictures.length &&
      pictures.every((picture, i) => this.pictures[i]!.deref() === picture)
    if (there) return
    const { memory } = this.kernel
    const capacity = Math.max(count, this.numbers.length)
    let end = ROOM + capacity * FLOAT + ROOM
    this.grey = end
    end += capacity + ROOM
    const places = pictures.map(({ width, height }) => {
      const at = end
      end += width * height + ROOM
      return { at, width, height }
    })
    const missing = end - memory.buffer.byteLength
    if (missing > 0) memory.grow(Math.ceil(missing / WASM_PAGE))
    this.numbers = new Float32Array(memory.buffer, ROOM, capacity)
    for (const [i, { data }] of pictures.entries()) new Uint8Array(memory.buffer).set(data, places[i]!.at)
    this.sizes = places
    this.pictures = pictures.map((picture) => new WeakRef(picture))
  }

  /**
   * Lays into the numbers from `to` on the mean of `taps` lines, (tapX, tapY) apart, of which the middle one is given.
   */
  line(
    picture: number,
    x: number,
    y: number,
    stepX: number,
    stepY: number,
    count: number,
    taps: number,
    tapX: number,
    tapY: number,
    to: number,
  ): void {
    const { at, width, height } = this.sizes[picture]!
    const before = (taps - 1) / 2
    this.kernel.sampleLine(
      at,
      width,
      width - SHORT_OF_LAST,
      height - SHORT_OF_LAST,
      x - before * tapX,
      y - before * tapY,
      stepX,
      stepY,
      count,
      taps,
      tapX,
      tapY,
      ROOM + to * FLOAT,
    )
  }
  /** Lays a square of numbers, line by line, from `to` on; its side is a multiple of four. */
  square(picture: number, lines: Lines, side: number, to: number): void {
    const { at, width, height } = this.sizes[picture]!
    this.kernel.sampleSquare(
      at,
      width,
      width - SHORT_OF_LAST,
      height - SHORT_OF_LAST,
      lines.x,
      lines.y,
      lines.stepX,
      lines.stepY,
      lines.nextX,
      lines.nextY,
      lines.twistX,
      lines.twistY,
      side,
      ROOM + to * FLOAT,
    )
  }

  /**
   * Turns the square of numbers that begins at `from` from brightness into darkness, 0 to 1, against paper that is a
   * slanted plane: so bright at its first number, brighter by `stepX` and `stepY` with each column and row, and never
   * less than `least`.
   */
  darken(from: number, side: number, paper: number, stepX: number, stepY: number, least: number): void {
    this.kernel.darken(ROOM + from * FLOAT, side, paper, stepX, stepY, least)
  }

  /** Numbers as grey values: 255 where they are 0, down to 0 where they are `black`. A count is a multiple of four. */
  toGrey(from: number, count: number, black: number): Uint8Array {
    this.kernel.toGrey(ROOM + from * FLOAT, count, 255 / black, this.grey)
    return new Uint8Array(this.kernel.memory.buffer, this.grey, count).slice()
  }
}

let shared: LineSamples | undefined

/** The one that all share. */
export function lineSamples(): LineSamples {
  shared ??= new LineSamples()
  return shared
}
