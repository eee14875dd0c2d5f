import { type Geometry, regionGeometry } from '../../grid/geometry.js'
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
  /**
   * What it may be after all, where lines show irregular regions: a puzzle that is sound with boxes has boxes, whatever
   * shades and folds look like.
   */
  readonly boxed: readonly Geometry[]
  /**
   * Where it may be read in several turns: how the geometry is known for one of them, and what it may be, likeliest
   * first; nothing where the order has no boxes and no regions are seen.
   */
  at(turns: QuarterTurns): { readonly source: GeometrySource; readonly geometries: readonly Geometry[] }
}

/** Regions that the lines show by fewer nats than this may be none where the order has boxes, and are in doubt else. */
const PLAINLY_SHOWN = 4

/** Do heavy lines part a lattice into boxes, or plainly into regions? */
export function showsShape(gray: GrayImage, lattice: Lattice): boolean {
  const weights = sideWeights(gray, lattice)
  const { order } = lattice
  return (
    shownBoxes(weights, order) !== undefined || (shownRegions(weights, order)?.lead ?? 0) >= PLAINLY_SHOWN
  )
}

/**
 * @param given a geometry that the caller handed in, for grids of its order on the upright page
 */
export function gridShape(gray: GrayImage, lattice: Lattice, given: Geometry | undefined): GridShape {
  const { order } = lattice
  const candidates = boxedGeometries(order)
  const weights = sideWeights(gray, lattice)
  const shown = candidates.length > 1 ? shownBoxes(weights, order) : undefined
  const regions = shown ? undefined : shownRegions(weights, order)
  const isPlain = regions !== undefined && regions.lead >= PLAINLY_SHOWN
  const seen = isPlain || candidates.length === 0 ? regions : undefined
  if (given?.order === order) {
    return {
      boxed: [],
      at: (turns) => {
        const contradicted = seen
          ? !haveSameRegions(given, turned(seen.regions, order, turns))
          : shown && given.box && turnedBoxes(shown, turns) !== given
        return { source: contradicted ? 'unsure' : 'caller', geometries: [given] }
      },
    }
  }
  return {
    boxed: seen ? candidates : [],
    at: (turns) => {
      if (shown) return { source: 'lines', geometries: [turnedBoxes(shown, turns)] }
      if (!seen) return { source: candidates.length === 1 ? 'order' : 'unsure', geometries: candidates }
      const irregular = regionGeometry('irregular', renumbered(turned(seen.regions, order, turns)))
      return { source: isPlain ? 'lines' : 'unsure', geometries: [irregular] }
    },
  }
}

function turned(regions: readonly number[], order: number, turns: QuarterTurns): readonly number[] {
  return Array.from(turnedIndices(order, turns), (from) => regions[from]!)
}

/** The same regions numbered in reading order, so that what they are does not depend on how the picture lay. */
function renumbered(regions: readonly number[]): number[] {
  const names = [...new Set(regions)]
  return regions.map((region) => names.indexOf(region))
}

/** Are the boxes or regions of a geometry these? */
function haveSameRegions(geometry: Geometry, regions: readonly number[]): boolean {
  const pieces = layoutOf(geometry).houses.filter(({ kind }) => kind === 'box' || kind === 'region')
  return pieces.every(({ cells }) => cells.every((cell) => regions[cell] === regions[cells[0]!]))
}
