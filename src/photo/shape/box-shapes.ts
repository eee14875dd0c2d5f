import { boxedGeometry, type Geometry, usualGeometry } from '../../grid/geometry.js'
import { median } from '../median.js'
import type { QuarterTurns } from '../turn.js'
import type { SideWeights } from './side-weights.js'

/**
 * Every grid of an order that has boxes of more than one row and column, the usual one first; none for prime orders.
 */
export function boxedGeometries(order: number): readonly Geometry[] {
  const usual = usualGeometry(order)
  if (!usual) return []
  const others: Geometry[] = []
  for (let rows = 2; rows <= order / 2; rows++) {
    if (order % rows === 0 && rows !== usual.box!.rows) others.push(boxedGeometry(rows, order / rows))
  }
  return [usual, ...others]
}

/** The same boxes as they lie once the page is turned by so many quarter turns. */
export function turnedBoxes(geometry: Geometry, turns: QuarterTurns): Geometry {
  const { box } = geometry
  return box && turns % 2 === 1 ? boxedGeometry(box.columns, box.rows) : geometry
}

/** Every line between boxes must be this many times as heavy as every line within them. */
const HEAVIER = 1.25

/**
 * The box shape that the heavy lines of a grid show: the one shape of its order for which every line between boxes is
 * heavier than every line inside them, both ways. Undefined where no shape fits, or more than one.
 */
export function shownBoxes(weights: SideWeights, order: number): Geometry | undefined {
  const across = weights.across.map(lineWeight)
  const down = weights.down.map(lineWeight)
  const [shown, ...others] = boxedGeometries(order).filter(
    ({ box }) => stepUp(across, box!.rows) > HEAVIER && stepUp(down, box!.columns) > HEAVIER,
  )
  return others.length === 0 ? shown : undefined
}

/** Of all its sides in view the middle one, whether the line is dark or light. */
function lineWeight(sides: readonly number[]): number {
  const seen = sides.filter((weight) => !Number.isNaN(weight))
  return seen.length === 0 ? Number.NaN : Math.abs(median(seen))
}

/**
 * How many times as heavy as the heaviest line inside the boxes the lightest line between them is; 0 where the picture
 * does not show both kinds.
 *
 * @param period every so many lines boxes end
 */
function stepUp(weights: readonly number[], period: number): number {
  const between: number[] = []
  const within: number[] = []
  weights.forEach((weight, line) => {
    if (line === 0 || line === weights.length - 1 || Number.isNaN(weight)) return
    if (line % period === 0) between.push(weight)
    else within.push(weight)
  })
  return between.length === 0 || within.length === 0 ? 0 : Math.min(...between) / Math.max(...within)
}
