import { boxedGeometriesOf } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { likeliestRegions } from './likeliest-regions.js'
import type { SideWeights } from './side-weights.js'
import { type InnerSide, wallOdds } from './wall-odds.js'

/** Irregular regions that the heavy lines of a grid show. */
export interface ShownRegions {
  /** cell -> number of its region. */
  readonly regions: readonly number[]
  /** Nats by which these regions are likelier than any others, boxes among them. */
  readonly lead: number
}

/** Nats against a grid that may as well have boxes being irregular, as few printed ones are. */
const IRREGULAR_COST = 5
/** Ways of taking the sides that are this much less likely than the best are not looked for. */
const FAR_BEHIND = 12
/** Regions that go against more than this, in nats for each cell, are none that the lines show. */
const MOST_COST = 0.5

/**
 * The irregular regions that a grid's heavy lines part it into: of all ways to part it into as many pieces as it has
 * rows, of as many cells each, the likeliest. Undefined where boxes are as likely, or there is none.
 */
export function shownRegions(weights: SideWeights, order: number): ShownRegions | undefined {
  const sides = wallOdds(weights, order)
  if (!sides) return undefined
  const boxes = boxedGeometriesOf(order).map((geometry) => {
    const { housesOf } = layoutOf(geometry)
    return costOf(
      sides,
      housesOf.map((houses) => houses[2]!),
    )
  })
  const boxCost = Math.min(...boxes) - IRREGULAR_COST
  const limit = Math.min(MOST_COST * order * order, boxCost)
  const [best, next] = likeliestRegions(sides, order, limit, FAR_BEHIND)
  if (!best || best.cost >= limit) return undefined
  return {
    regions: best.regions,
    lead: Math.min(boxCost, next?.cost ?? limit, best.cost + FAR_BEHIND) - best.cost,
  }
}

function costOf(sides: readonly InnerSide[], regions: readonly number[]): number {
  let cost = 0
  for (const { cells, odds } of sides) {
    const isWall = regions[cells[0]] !== regions[cells[1]]
    if (isWall !== odds > 0) cost += Math.abs(odds)
  }
  return cost
}
