import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { GrayImage } from '../image.js'
import type { Lattice } from '../lattice.js'
import { type QuarterTurns, turnedIndices } from '../turn.js'
import { boxedGeometries, shownBoxes, turnedBoxes } from './box-shapes.js'
import { shownRegions } from './shown-regions.js'
import { sideWeights } from './side-weights.js'

/**
 * How the geometry of a grid is known: its order has one box shape only; its heavy lines show the shape; the caller
 * handed it in. Or it is not: several shapes fit and the lines do not say which, or they show another than the
 * caller's.
 */
export const GEOMETRY_SOURCES = ['order', 'lines', 'caller', 'unsure'] as const
/** How the geometry of a reading is known. */
export type GeometrySource = (typeof GEOMETRY_SOURCES)[number]

/** What the grid lines of a lattice say about the rule of the grid, before it is known which way is up. */
export interface GridShape {
  /** Its heavy lines part it into pieces that are no boxes, and the caller did not hand in a geometry of its order. */
  readonly irregular: boolean
  /**
   * Where it may be read in several turns: how the geometry is known for one of them, and what it may be, likeliest
   * first.
   */
  at(turns: QuarterTurns): { readonly source: GeometrySource; readonly geometries: readonly Geometry[] }
}

/**
 * @param given a geometry that the caller handed in, for grids of its order on the upright page
 */
export function gridShape(gray: GrayImage, lattice: Lattice, given: Geometry | undefined): GridShape {
  const { order } = lattice
  const candidates = boxedGeometries(order)
  const weights = sideWeights(gray, lattice)
  const shown = candidates.length > 1 ? shownBoxes(weights, order) : undefined
  const regions = shownRegions(weights, order)
  if (given?.order === order) {
    return {
      irregular: false,
      at: (turns) => {
        const contradicted = regions
          ? !haveSameRegions(given, turned(regions, order, turns))
          : shown && given.box && turnedBoxes(shown, turns) !== given
        return { source: contradicted ? 'unsure' : 'caller', geometries: [given] }
      },
    }
  }
  return {
    irregular: regions !== undefined,
    at: (turns) =>
      shown
        ? { source: 'lines', geometries: [turnedBoxes(shown, turns)] }
        : { source: candidates.length === 1 ? 'order' : 'unsure', geometries: candidates },
  }
}

function turned(regions: readonly number[], order: number, turns: QuarterTurns): readonly number[] {
  return Array.from(turnedIndices(order, turns), (from) => regions[from]!)
}

/** Are the boxes or regions of a geometry these? */
function haveSameRegions(geometry: Geometry, regions: readonly number[]): boolean {
  const pieces = layoutOf(geometry).houses.filter(({ kind }) => kind === 'box' || kind === 'region')
  return pieces.every(({ cells }) => cells.every((cell) => regions[cell] === regions[cells[0]!]))
}
