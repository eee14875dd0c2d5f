import { boxedGeometry, type Geometry, regionGeometry } from '../../src/grid/geometry.js'

export const ALL_ORDERS: readonly number[] = Array.from({ length: 13 }, (_, i) => i + 4)

/** Regions that lean to one side, so that they are no boxes: each row has the one above it moved by one. */
export function slantedGeometry(order: number, diagonals = false): Geometry {
  return regionGeometry(
    `slanted ${order}`,
    Array.from({ length: order * order }, (_, cell) => (Math.floor(cell / order) + cell) % order),
    { diagonals },
  )
}

/** The boxes of a usual grid with both diagonals. */
export function diagonalGeometry(rows: number, columns: number): Geometry {
  const order = rows * columns
  return regionGeometry(
    `${rows}x${columns} with diagonals`,
    Array.from(
      { length: order * order },
      (_, cell) => rows * Math.floor(cell / order / rows) + Math.floor((cell % order) / columns),
    ),
    { diagonals: true },
  )
}

/** Every box shape of every order, diagonals with each, and regions for every order. */
export const ALL_GEOMETRIES: readonly Geometry[] = ALL_ORDERS.flatMap((order) => {
  const heights = Array.from({ length: order }, (_, i) => i).filter((rows) => rows > 1 && order % rows === 0)
  return [
    ...heights.flatMap((rows) => [boxedGeometry(rows, order / rows), diagonalGeometry(rows, order / rows)]),
    slantedGeometry(order),
    slantedGeometry(order, true),
  ]
})
