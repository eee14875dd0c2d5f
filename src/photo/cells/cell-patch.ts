import { CELL_MARGIN, CELL_SIZE } from '../digits/digit-reader.js'
import type { GrayImage, Point } from '../image.js'
import { type CellCorners, cellCorners, type Lattice, placeInCell } from '../lattice.js'
import { lineSamples } from '../raster/line-samples.js'
import { shrink } from '../raster/shrink.js'

/** A cell's side on the copy it is cut from: near enough to `CELL_SIZE` that one sample a pixel loses nothing. */
const SOURCE_CELL = 36

/** The picture shrunk to where a cell of the lattice has about as many pixels as a cell picture, and by how much. */
export function sourceFor(gray: GrayImage, lattice: Lattice): { copy: GrayImage; factor: number } {
  const { order, points } = lattice
  const diagonal = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y)
  const last = points.length - 1
  const size =
    (diagonal(points[0]!, points[last]!) + diagonal(points[order]!, points[last - order]!)) /
    (2 * Math.SQRT2 * order)
  const factor = Math.max(1, Math.round(size / SOURCE_CELL))
  return { copy: shrink(gray, factor), factor }
}

/** A cell's square and a margin around it, bent straight: `CELL_SIZE²` numbers, row by row. */
export type Patch = Float32Array

const PIXELS = CELL_SIZE * CELL_SIZE

/**
 * Patches of cells of a few pictures. They lie in memory that all who cut patches share: use them, or copy them, before
 * others are opened.
 */
export class CellPatches {
  private readonly samples = lineSamples()

  constructor(pictures: readonly GrayImage[], count: number) {
    this.samples.open(pictures, count * PIXELS)
  }

  at(patch: number): Patch {
    return this.samples.numbers.subarray(patch * PIXELS, (patch + 1) * PIXELS)
  }

  /**
   * Fills a patch with the grey values of a cell: every pixel is looked up between the cell's four crossings.
   *
   * @param factor by which the picture is smaller than the one that the lattice lies on
   */
  sample(patch: number, picture: number, factor: number, lattice: Lattice, cell: number): void {
    const corners = cellCorners(lattice, cell)
    const first = rowOfCell(corners, 0)
    const last = rowOfCell(corners, CELL_SIZE - 1)
    const apart = factor * (CELL_SIZE - 1)
    const lines = {
      x: first.x / factor - 0.5,
      y: first.y / factor - 0.5,
      stepX: first.stepX / factor,
      stepY: first.stepY / factor,
      nextX: (last.x - first.x) / apart,
      nextY: (last.y - first.y) / apart,
      twistX: (last.stepX - first.stepX) / apart,
      twistY: (last.stepY - first.stepY) / apart,
    }
    this.samples.square(picture, lines, CELL_SIZE, patch * PIXELS)
  }

  /** Turns a patch from brightness into darkness against its paper: 0 on paper, 1 on perfect black. */
  darken(patch: number, { level, slopeX, slopeY }: PaperPlane): void {
    const corner = level - (slopeX + slopeY) / 2
    this.samples.darken(
      patch * PIXELS,
      CELL_SIZE,
      corner,
      slopeX / CELL_SIZE,
      slopeY / CELL_SIZE,
      BLACK_PAPER,
    )
  }

  /** A darkened patch as a picture: paper white, and black what is as dark as `full`. */
  picture(patch: number, full: number): Uint8Array {
    return this.samples.toGrey(patch * PIXELS, PIXELS, full)
  }
}

/** Paper is never taken for darker than this. */
const BLACK_PAPER = 12

/**
 * How bright a patch's paper is in its middle, and how much more from its left to its right and from its top to its
 * bottom.
 */
export interface PaperPlane {
  readonly level: number
  readonly slopeX: number
  readonly slopeY: number
}

/**
 * Where a row of a cell picture lies on the picture it is cut from: its first pixel, and how far on each next one is.
 */
export function rowOfCell(
  corners: CellCorners,
  row: number,
): { readonly x: number; readonly y: number; readonly stepX: number; readonly stepY: number } {
  const v = along(row)
  const first = placeInCell(corners, along(0), v)
  const last = placeInCell(corners, along(CELL_SIZE - 1), v)
  return {
    x: first.x,
    y: first.y,
    stepX: (last.x - first.x) / (CELL_SIZE - 1),
    stepY: (last.y - first.y) / (CELL_SIZE - 1),
  }
}

/** Where a pixel of a cell picture lies along the cell's side: 0 to 1 inside it. */
function along(pixel: number): number {
  return ((pixel + 0.5) / CELL_SIZE) * (1 + 2 * CELL_MARGIN) - CELL_MARGIN
}
