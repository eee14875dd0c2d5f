import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'

/** 0 and 1 share a line, 2 and 3 its opposite, 0 and 2 the other way; 0 and 3 are diagonal. */
export type Corners = readonly [number, number, number, number]

export interface Rectangle {
  /** Position in the list of the geometry. */
  readonly index: number
  readonly corners: Corners
  /** The houses of its corners: what is said about a rectangle follows from what they hold. */
  readonly houses: readonly number[]
}

/**
 * Four cells, at the crossings of two rows and two columns, in which two digits could be swapped: every house that has
 * any of them has two neighbours of the rectangle.
 */
export const rectanglesOf = perLayout((layout, geometry): readonly Rectangle[] => {
  const { order } = geometry
  const made: Rectangle[] = []
  for (let top = 0; top < order; top++) {
    for (let bottom = top + 1; bottom < order; bottom++) {
      for (let left = 0; left < order; left++) {
        for (let right = left + 1; right < order; right++) {
          const corners: Corners = [
            top * order + left,
            top * order + right,
            bottom * order + left,
            bottom * order + right,
          ]
          if (!isExchangeable(geometry, corners)) continue
          const houses = new Set(corners.flatMap((corner) => layout.housesOf[corner]!))
          made.push({ index: made.length, corners, houses: [...houses] })
        }
      }
    }
  }
  return made
})

/** The corners of all rectangles one after another, for the loop that runs over all of them on every board. */
export const flatCorners = perLayout(
  (_, geometry): Uint16Array => Uint16Array.from(rectanglesOf(geometry).flatMap(({ corners }) => corners)),
)

/** Does every house of a corner have one neighbour of it, and no other corner? */
function isExchangeable(geometry: Geometry, corners: Corners): boolean {
  const { housesOf, positionIn } = layoutOf(geometry)
  for (let i = 0; i < 4; i++) {
    const houses = housesOf[corners[i]!]!
    for (let h = 0; h < houses.length; h++) {
      let inside = 0
      for (let j = 0; j < 4; j++) {
        if (j === i || positionIn(houses[h]!, corners[j]!) < 0) continue
        // corners 0 and 3 are diagonal, and so are 1 and 2
        if (i + j === 3) return false
        inside++
      }
      if (inside !== 1) return false
    }
  }
  return true
}
