import type { ColourImage } from '../decode/ink-channel.js'
import { CELL_SIZE } from '../digits/digit-reader.js'
import { extentOf, frameOf, widened } from '../frame.js'
import { type GrayImage, pixelAt } from '../image.js'
import { type CellCorners, cellCorners, type Lattice, placeInCell } from '../lattice.js'
import { shrunkChannels } from '../raster/shrunk-channels.js'
import type { CellPatches, Patch } from './cell-patch.js'
import { cellGround } from './contrast.js'

/** Ground whose weakest channel is below this share of its strongest is tinted. */
const TINTED = 0.88
/** A channel in which the ground is this dark against its strongest one shows noise rather than ink. */
const LEAST_CHANNEL = 0.4
/** Places a side at which a cell is looked at for its tint. */
const LOOKS = 5
/** Red, green and blue. */
export const CHANNELS = 3
/** Room around tinted cells, as a share of what they span: a cell's picture reaches a tenth of a cell beyond it. */
const MARGIN = 0.12

/**
 * Cells on tinted ground. On white paper the smallest of red, green and blue shows ink of any colour; red ink on a blue
 * box is hardly darker in that than the box itself. There each channel is held against the ground's own first, and the
 * one that differs most counts.
 */
export class TintedGround {
  private readonly tinted: readonly boolean[]
  /** Red, green and blue of the part of the picture where tinted cells lie; none where there are none. */
  readonly channels: readonly GrayImage[]
  /** The lattice as it lies on the channels' pictures, in pixels of the whole picture. */
  private readonly there: Lattice
  private readonly white = new Float32Array(CELL_SIZE * CELL_SIZE)

  /** @param factor by which the copy that cells are cut from is shrunk */
  constructor(
    colour: ColourImage,
    lattice: Lattice,
    private readonly factor: number,
  ) {
    const { order, points } = lattice
    const corners = points.slice(0, order * order).map((_, cell) => cellCorners(lattice, cell))
    this.tinted = corners.map((four) => isTinted(colour, four))
    const around = corners.flatMap((four, cell) => (this.tinted[cell] ? four : []))
    // tinted cells alone, and what their pictures show beside them
    const frame = frameOf(around)
    const { channels, left, top } =
      around.length === 0
        ? { channels: [], left: 0, top: 0 }
        : shrunkChannels(colour, widened(frame, MARGIN * extentOf(frame)), factor)
    this.channels = channels
    this.there = {
      ...lattice,
      points: points.map(({ x, y }) => ({ x: x - left * factor, y: y - top * factor })),
    }
  }

  /**
   * The cell's grey values as if its ground were white; `undefined` where it is not tinted. Lent until the next call.
   *
   * @param first which of the patches' pictures is the first of the channels, and which patch the first of as many to
   *   work in
   */
  whitened(
    cell: number,
    patches: CellPatches,
    first: { readonly picture: number; readonly patch: number },
  ): Patch | undefined {
    if (!this.tinted[cell]) return undefined
    const { white } = this
    const own = this.channels.map((_, channel) => {
      patches.sample(first.patch + channel, first.picture + channel, this.factor, this.there, cell)
      return patches.at(first.patch + channel)
    })
    const grounds = own.map(cellGround)
    const strongest = Math.max(...grounds)
    white.fill(Number.POSITIVE_INFINITY)
    for (const [channel, ground] of grounds.entries()) {
      if (ground > LEAST_CHANNEL * strongest) lower(white, own[channel]!, strongest / ground)
    }
    return white
  }
}

/** Lowers values to those of another patch, scaled. */
function lower(patch: Patch, other: Patch, scale: number): void {
  for (let k = 0; k < patch.length; k++) {
    const value = other[k]! * scale
    if (value < patch[k]!) patch[k] = value
  }
}

function isTinted(colour: ColourImage, corners: CellCorners): boolean {
  const sums = [0, 0, 0]
  for (let j = 1; j <= LOOKS; j++) {
    for (let i = 1; i <= LOOKS; i++) {
      const at = 3 * pixelAt(colour, placeInCell(corners, i / (LOOKS + 1), j / (LOOKS + 1)))
      for (let channel = 0; channel < CHANNELS; channel++)
        sums[channel] = sums[channel]! + colour.data[at + channel]!
    }
  }
  return Math.min(...sums) < TINTED * Math.max(...sums)
}
