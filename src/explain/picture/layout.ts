import type { Geometry } from '../../grid/geometry.js'

/**
 * Lengths of a picture, in its own units; a picture may be shown at any size. A picture of a 9×9 grid 360 pixels wide
 * shows pencil marks that matter 10.7 pixels high and digits 22; printed 88 mm wide, 7.4 and 15 points.
 */
export const CELL = 72
/** Room for the row and column labels. */
export const LABELS = 28
/** Room on the right and below the grid. */
export const EDGE = 8
export const LABEL_FONT = 18
/** Room between the border of a cell and its pencil marks. */
const PAD = 2

export interface Spot {
  readonly x: number
  readonly y: number
}

/** Where everything is on a picture of this geometry. */
export interface Layout {
  readonly geometry: Geometry
  /** Side of the grid. */
  readonly side: number
  /** From one pencil mark to the next. */
  readonly pitch: number
  /** Radius of the marks around pencil marks. */
  readonly markRadius: number
  /** Size of pencil marks that matter, and of the others. */
  readonly markFont: number
  readonly smallFont: number
  corner(cell: number): Spot
  centre(cell: number): Spot
  /** Where a candidate's pencil mark stands: in reading order within its cell, as is common practice. */
  spot(cell: number, digit: number): Spot
  /** Lines between pencil marks, and further ones beside them, on which lines can make their way. */
  readonly net: { readonly xs: readonly number[]; readonly ys: readonly number[] }
}

/** The border of each cell, and four lines a pencil mark, one of them midway between it and the next. */
function netLines(order: number, slots: number, step: number): number[] {
  return Array.from({ length: order }, (_, i) => LABELS + i * CELL)
    .flatMap((border) => [
      border,
      ...Array.from({ length: 4 * slots - 1 }, (_, i) => border + PAD + ((i + 1) * step) / 4),
    ])
    .concat(LABELS + order * CELL)
}

export function layoutOf(geometry: Geometry): Layout {
  const { order } = geometry
  const across = Math.ceil(Math.sqrt(order))
  const down = Math.ceil(order / across)
  const stepX = (CELL - 2 * PAD) / across
  const stepY = (CELL - 2 * PAD) / down
  const pitch = Math.min(stepX, stepY)
  const markRadius = Math.min(11, 0.45 * pitch)
  const markFont = Math.min(22, markRadius * 1.98)
  const corner = (cell: number): Spot => ({
    x: LABELS + (cell % order) * CELL,
    y: LABELS + Math.floor(cell / order) * CELL,
  })
  return {
    geometry,
    side: order * CELL,
    pitch,
    markRadius,
    markFont,
    smallFont: 0.8 * markFont,
    net: { xs: netLines(order, across, stepX), ys: netLines(order, down, stepY) },
    corner,
    centre: (cell) => {
      const { x, y } = corner(cell)
      return { x: x + CELL / 2, y: y + CELL / 2 }
    },
    spot: (cell, digit) => {
      const { x, y } = corner(cell)
      const i = digit - 1
      return {
        x: x + PAD + ((i % across) + 0.5) * stepX,
        y: y + PAD + (Math.floor(i / across) + 0.5) * stepY,
      }
    },
  }
}

/** Half the width and half the height of a line of text in the fonts of pictures. */
export function textReach(text: string, font: number): { readonly x: number; readonly y: number } {
  return { x: (text.length * 0.64 * font) / 2, y: 0.37 * font }
}
