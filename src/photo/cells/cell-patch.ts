import { CELL_MARGIN, CELL_SIZE } from '../digits/digit-reader.js'
import type { GrayImage, Point } from '../image.js'
import { type CellCorners, cellCorners, type Lattice, placeInCell } from '../lattice.js'
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

/**
 * Fills `patch` (`CELL_SIZE²` numbers) with the grey values of a cell and a margin around it, bent straight: every pixel
 * is looked up between the cell's four crossings.
 */
export function samplePatch(
  { width, height, data }: GrayImage,
  factor: number,
  lattice: Lattice,
  cell: number,
  patch: Float32Array,
): void {
  const corners = cellCorners(lattice, cell)
  const maxX = width - 1.001
  const maxY = height - 1.001
  for (let j = 0; j < CELL_SIZE; j++) {
    const row = rowOfCell(corners, j)
    const startX = row.x / factor - 0.5
    const startY = row.y / factor - 0.5
    const stepX = row.stepX / factor
    const stepY = row.stepY / factor
    for (let i = 0; i < CELL_SIZE; i++) {
      let x = startX + stepX * i
      let y = startY + stepY * i
      x = x < 0 ? 0 : x > maxX ? maxX : x
      y = y < 0 ? 0 : y > maxY ? maxY : y
      const x0 = x | 0
      const y0 = y | 0
      const fx = x - x0
      const k = y0 * width + x0
      const top = data[k]! + (data[k + 1]! - data[k]!) * fx
      const low = data[k + width]! + (data[k + width + 1]! - data[k + width]!) * fx
      patch[j * CELL_SIZE + i] = top + (low - top) * (y - y0)
    }
  }
}

/** Where a row of a cell picture lies on the picture it is cut from: its first pixel, and how far on each next one is. */
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
