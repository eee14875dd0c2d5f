import { describe, expect, it } from 'vitest'
import { boxedGeometry, type Geometry, regionGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { flatCorners, rectanglesOf } from '../../../src/logic/uniqueness/rectangle.js'
import { DIAGONAL_9, JIGSAW_6 } from '../../count/geometries.js'

/** Regions of scattered cells, which have the diagonal corners of rectangles. */
const SCATTERED = regionGeometry('scattered', [0, 1, 2, 3, 1, 0, 3, 2, 2, 3, 0, 1, 3, 2, 1, 0])

/** Corners of two rows and two columns where 1 2 / 2 1 and 2 1 / 1 2 give every house the same digits, none twice. */
function byTrying(geometry: Geometry): number[][] {
  const layout = layoutOf(geometry)
  const { order } = geometry
  const found: number[][] = []
  for (let top = 0; top < order; top++)
    for (let bottom = top + 1; bottom < order; bottom++)
      for (let left = 0; left < order; left++)
        for (let right = left + 1; right < order; right++) {
          const corners = [
            [top, left],
            [top, right],
            [bottom, left],
            [bottom, right],
          ].map(([row, column]) => row! * order + column!)
          const fits = layout.houses.every((house) => {
            const digits = (filling: readonly number[]) =>
              corners.flatMap((corner, i) => (house.cells.includes(corner) ? [filling[i]!] : [])).sort()
            const before = digits([1, 2, 2, 1])
            return String(before) === String(digits([2, 1, 1, 2])) && new Set(before).size === before.length
          })
          if (fits) found.push(corners)
        }
  return found
}

describe('rectangles in which two digits can be swapped', () => {
  it.each([
    STANDARD,
    boxedGeometry(2, 2),
    boxedGeometry(2, 3),
    boxedGeometry(3, 2),
    JIGSAW_6,
    DIAGONAL_9,
    SCATTERED,
  ])('are those that trying all finds, on $name', (geometry) => {
    const layout = layoutOf(geometry)
    const rectangles = rectanglesOf(geometry)
    expect(rectangles.map(({ corners }) => [...corners])).toEqual(byTrying(geometry))
    expect(rectangles.map(({ index }) => index)).toEqual([...rectangles.keys()])
    for (const { corners, houses } of rectangles) {
      expect(new Set(houses).size).toBe(houses.length)
      expect([...houses].sort()).toEqual(
        layout.houses
          .flatMap(({ index, cells }) => (corners.some((corner) => cells.includes(corner)) ? [index] : []))
          .sort(),
      )
    }
    expect([...flatCorners(geometry)]).toEqual(rectangles.flatMap(({ corners }) => corners))
  })

  it('are 486 on the standard grid: 9 pairs of rows by 27 of columns, and the other way about', () => {
    expect(rectanglesOf(STANDARD)).toHaveLength(486)
  })

  it('are listed once a geometry', () => {
    expect(rectanglesOf(STANDARD)).toBe(rectanglesOf(STANDARD))
    expect(flatCorners(STANDARD)).toBe(flatCorners(STANDARD))
  })
})
