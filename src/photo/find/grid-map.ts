import type { Point } from '../image.js'
import { Homography } from './homography.js'
import type { MeshCell } from './mesh.js'
import type { CellQuad } from './quad.js'
import { type Extent, SmoothField } from './smooth-field.js'

/**
 * A first idea of where a grid's rules run: a plane in perspective, and on that plane two smooth fields that say how
 * far the vertical rules (`du`) and the horizontal ones (`dv`) stray from whole numbers because the page bends.
 */
export interface GridMap {
  readonly plane: Homography
  readonly extent: Extent
  readonly du: SmoothField
  readonly dv: SmoothField
}

const BEND_DEGREE = 3
/** Fewer cells than this say little about a bend. */
const ENOUGH_FOR_BEND = 24

/** A map through the middles of a mesh's cells; columns and rows count from the mesh's own zero. */
export function mapOfMesh(cells: readonly MeshCell[], extent: Extent): GridMap | undefined {
  const plane = Homography.fit(
    cells.map(({ column, row }) => ({ x: column + 0.5, y: row + 0.5 })),
    cells.map(({ centre }) => centre),
  )
  if (!plane) return undefined
  const flat = SmoothField.flat(extent)
  if (cells.length < ENOUGH_FOR_BEND) return { plane, extent, du: flat, dv: flat }
  const back = plane.inverse()
  const places = cells.map(({ centre }) => back.apply(centre.x, centre.y))
  const field = (value: (place: Point, cell: MeshCell) => number) =>
    SmoothField.fit(
      extent,
      BEND_DEGREE,
      cells.map((cell, k) => ({
        u: cell.column + 0.5,
        v: cell.row + 0.5,
        value: value(places[k]!, cell),
        weight: 1,
      })),
      flat,
      [0.6, 0.3, 0.15],
    )
  return {
    plane,
    extent,
    du: field((place, { column }) => place.x - column - 0.5),
    dv: field((place, { row }) => place.y - row - 0.5),
  }
}

/** Where the map puts (u, v) on the picture. */
export function mapPoint({ plane, du, dv }: GridMap, u: number, v: number): Point {
  return plane.apply(u + du.at(u, v), v + dv.at(u, v))
}

/** Mean side of a cell on the picture, in pixels. */
export function cellSize(map: GridMap): number {
  const { left, top, right, bottom } = map.extent
  const corners = [
    mapPoint(map, left, top),
    mapPoint(map, right, top),
    mapPoint(map, right, bottom),
    mapPoint(map, left, bottom),
  ] as const
  const side = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y)
  const across = side(corners[0], corners[1]) + side(corners[3], corners[2])
  const down = side(corners[0], corners[3]) + side(corners[1], corners[2])
  return (across / (right - left) + down / (bottom - top)) / 4
}

/**
 * Adds quads that lie in the middle of a cell the map predicts and are about as large; the mesh's walk may have missed
 * them.
 */
export function adoptCells(cells: readonly MeshCell[], map: GridMap, quads: readonly CellQuad[]): MeshCell[] {
  const all = [...cells]
  const taken = new Set(cells.map(({ column, row }) => `${column},${row}`))
  const back = map.plane.inverse()
  const { left, top, right, bottom } = map.extent
  for (const { centre, area } of quads) {
    const place = back.apply(centre.x, centre.y)
    const u = place.x - map.du.at(place.x, place.y)
    const v = place.y - map.dv.at(place.x, place.y)
    const column = Math.floor(u)
    const row = Math.floor(v)
    if (column < left - 2 || row < top - 2 || column > right + 1 || row > bottom + 1) continue
    if (Math.abs(u - column - 0.5) > 0.2 || Math.abs(v - row - 0.5) > 0.2) continue
    const key = `${column},${row}`
    if (taken.has(key)) continue
    const whole = quadArea(map, column, row)
    if (area < whole * 0.35 || area > whole * 1.2) continue
    taken.add(key)
    all.push({ column, row, centre })
  }
  return all
}

function quadArea(map: GridMap, column: number, row: number): number {
  const a = mapPoint(map, column, row)
  const b = mapPoint(map, column + 1, row)
  const c = mapPoint(map, column + 1, row + 1)
  const d = mapPoint(map, column, row + 1)
  return Math.abs((c.x - a.x) * (d.y - b.y) - (c.y - a.y) * (d.x - b.x)) / 2
}

/** The rectangle of columns and rows that cells cover. */
export function extentOf(cells: readonly MeshCell[]): Extent {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const { column, row } of cells) {
    left = Math.min(left, column)
    top = Math.min(top, row)
    right = Math.max(right, column + 1)
    bottom = Math.max(bottom, row + 1)
  }
  return { left, top, right, bottom }
}
