import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { shrink } from '../raster/shrink.js'
import { hasBlackCells } from './black-cells.js'
import { adoptCells, cellSize, extentOf, type GridMap, mapOfMesh, mapPoint } from './grid-map.js'
import { Homography } from './homography.js'
import { judgeMeshed, judgeOutlined, SEEN_ENOUGH } from './judge-rules.js'
import type { Mesh, MeshCell } from './mesh.js'
import type { CellQuad } from './quad.js'
import { type RefinedGrid, refineGrid } from './refine.js'
import { combMap } from './rule-comb.js'
import { SmoothField } from './smooth-field.js'
import { findWindow, type GridWindow, ORDERS, USUAL_ORDER } from './window.js'

/** Rules are read on a copy of the picture on which a cell is about this many pixels wide. */
const READING_CELL = 48

/** A picture in several sizes, each made once: shrunk by whole factors. */
export class ShrunkCopies {
  private readonly copies = new Map<number, GrayImage>()

  constructor(readonly full: GrayImage) {}

  by(factor: number): GrayImage {
    let copy = this.copies.get(factor)
    if (!copy) {
      copy = shrink(this.full, factor)
      this.copies.set(factor, copy)
    }
    return copy
  }
}

/**
 * Fits a grid to a mesh of cells, or of boxes (when only the thicker rules part the paper): `undefined` when rules are
 * missing where the grid would need them.
 *
 * @param mesh, quads on the copy that is shrunk by `factor`
 */
export function fitGrid(
  copies: ShrunkCopies,
  factor: number,
  mesh: Mesh,
  quads: readonly CellQuad[],
): Lattice | undefined {
  let members = [...mesh.cells]
  let map = mapOfMesh(members, extentOf(members))
  for (let round = 0; round < 3 && map; round++) {
    const more = adoptCells(members, map, quads)
    if (more.length === members.length) break
    members = more
    map = mapOfMesh(members, extentOf(members))
  }
  if (!map) return undefined
  const fine = Math.max(1, Math.round((cellSize(map) * factor) / READING_CELL))
  const scale = factor / fine
  const cells = members.map((cell) => ({
    ...cell,
    centre: { x: cell.centre.x * scale, y: cell.centre.y * scale },
  }))
  const image = copies.by(fine)
  const first = mapOfMesh(cells, extentOf(cells))
  if (!first) return undefined
  const window = findWindow(image, first)
  if (window) {
    const { columns, rows, map } = window
    const square = columns === rows && ORDERS.includes(columns)
    const lattice = (square && fitRules(copies, fine, map, columns)) || fitBoxes(copies, fine, window)
    if (lattice) return lattice
  }
  const larger = window && Math.max(window.columns, window.rows) > USUAL_ORDER
  return larger || cells.length < ENOUGH_CELLS ? undefined : fitUsual(copies, fine, first)
}

/** So many cells of one mesh suggest a usual grid even where faint rules leave most of them open. */
const ENOUGH_CELLS = 16

/**
 * Takes what has the outline of a grid for a usual one, and looks for its rules together before each is followed.
 *
 * @param outline on the copy that is shrunk by `factor`
 */
export function fitFrame(
  copies: ShrunkCopies,
  factor: number,
  { corners, area }: CellQuad,
): Lattice | undefined {
  const fine = Math.max(1, Math.round((Math.sqrt(area) * factor) / USUAL_ORDER / COMB_CELL))
  const image = copies.by(fine)
  const scale = factor / fine
  let plane = Homography.fit(
    FRAME_CORNERS,
    corners.map(({ x, y }) => ({ x: x * scale, y: y * scale })),
  )
  let best: ReturnType<typeof combMap>
  // a frame taken too large makes a slanted plane, so the second look begins with the rules of the first
  for (let look = 0; look < 2 && plane; look++) {
    const found = combMap(image, plane, USUAL_ORDER, BOX_SIDE)
    if (!found || found.worth < LEAST_WORTH) break
    if (!best || found.worth > best.worth) best = found
    plane = found.map.plane
  }
  if (!best) return undefined
  const { map } = best
  const finer = Math.max(1, Math.round((cellSize(map) * fine) / READING_CELL))
  const scaled = mapFrom(USUAL_ORDER, (u, v) => {
    const { x, y } = mapPoint(map, u, v)
    return { x: (x * fine) / finer, y: (y * fine) / finer }
  })
  return scaled && fitRules(copies, finer, scaled, USUAL_ORDER, judgeOutlined)
}

/** Rules are looked for together on a copy on which a cell is about this many pixels wide: no finer, against noise. */
const COMB_CELL = 28
/** Combs laid over drawn grids were worth at least 0.57 where they came to lie right; of other outlines two thirds are worth less than this. */
const LEAST_WORTH = 0.5
const BOX_SIDE = Math.sqrt(USUAL_ORDER)
const FRAME_CORNERS: readonly Point[] = [
  { x: 0, y: 0 },
  { x: USUAL_ORDER, y: 0 },
  { x: USUAL_ORDER, y: USUAL_ORDER },
  { x: 0, y: USUAL_ORDER },
]

/** Takes a mesh that spans just as many rows and columns as a usual grid for one, though few cells are closed; its boxes must show. */
function fitUsual(copies: ShrunkCopies, fine: number, mesh: GridMap): Lattice | undefined {
  const { left, top, right, bottom } = mesh.extent
  if (right - left !== USUAL_ORDER || bottom - top !== USUAL_ORDER) return undefined
  const map = mapFrom(USUAL_ORDER, (u, v) => mapPoint(mesh, left + u, top + v))
  return map && fitRules(copies, fine, map, USUAL_ORDER, judgeOutlined)
}

/**
 * Takes each cell of a small block for a box. A grid whose boxes lie A across and B down has boxes of B columns and A rows,
 * so the block itself tells the order.
 */
function fitBoxes(
  copies: ShrunkCopies,
  fine: number,
  { columns, rows, map }: GridWindow,
): Lattice | undefined {
  if (columns < 2 || rows < 2 || columns > 4 || rows > 4) return undefined
  const order = columns * rows
  const finer = Math.max(1, Math.round(fine / Math.sqrt(order)))
  const divided = dividedMap(map, fine / finer, rows, columns, order)
  // the cells within the boxes are a guess, as they are within an outline
  return fitRules(copies, finer, divided, order, order === USUAL_ORDER ? judgeOutlined : judgeMeshed)
}

/** The same map counted in cells, on a copy `scale` times larger: each old column is `columns` new ones. */
function dividedMap(map: GridMap, scale: number, columns: number, rows: number, order: number): GridMap {
  return mapFrom(order, (u, v) => {
    const { x, y } = mapPoint(map, u / columns, v / rows)
    return { x: x * scale, y: y * scale }
  })!
}

/** The map of a square grid, counted from its first corner, whose places (in cells) `place` tells. */
function mapFrom(order: number, place: (u: number, v: number) => Point): GridMap | undefined {
  const cells: MeshCell[] = []
  for (let row = 0; row < order; row++) {
    for (let column = 0; column < order; column++) {
      cells.push({ column, row, centre: place(column + 0.5, row + 0.5) })
    }
  }
  return mapOfMesh(cells, { left: 0, top: 0, right: order, bottom: order })
}

/** Says how well a grid is seen, or that it is none; see `judge-rules.ts`. */
type Judge = (image: GrayImage, refined: RefinedGrid, order: number) => number | undefined

function fitRules(
  copies: ShrunkCopies,
  fine: number,
  map: GridMap,
  order: number,
  judge: Judge = judgeMeshed,
): Lattice | undefined {
  const image = copies.by(fine)
  let refined = refineGrid(image, map, order, order)
  if (meanShare(refined) < WELL_SEEN) {
    const flattened = flatMap(refined.points, order)
    const again = flattened && refineGrid(image, flattened, order, order)
    if (again && meanShare(again) > meanShare(refined)) refined = again
  }
  const support = judge(image, refined, order)
  if (support === undefined) return undefined
  const points = uprightFirst(
    refined.points.map(({ x, y }) => ({ x: x * fine, y: y * fine })),
    order,
  )
  const { width, height } = copies.full
  const cut =
    [...refined.across, ...refined.down].some(({ inside }) => inside < SEEN_ENOUGH) ||
    points.some(({ x, y }) => x < 0 || y < 0 || x > width || y > height)
  const lattice = { order, points, cut, support }
  return hasBlackCells(copies.full, lattice) ? undefined : lattice
}

/** A grid whose rules are seen less than this is tried again as a flat one: a bend read into faint rules leads off at the corners. */
const WELL_SEEN = 0.97

function meanShare({ across, down }: RefinedGrid): number {
  const rules = [...across, ...down]
  return rules.reduce((sum, { share }) => sum + share, 0) / rules.length
}

/** The flat grid that most of these crossings agree on. */
function flatMap(points: readonly Point[], order: number): GridMap | undefined {
  const side = order + 1
  const places = points.map((_, k) => ({ x: k % side, y: Math.floor(k / side) }))
  const plane = Homography.fit(places, points)
  const extent = { left: 0, top: 0, right: order, bottom: order }
  const flat = SmoothField.flat(extent)
  return plane && { plane, extent, du: flat, dv: flat }
}

/** Turns the count of crossings by quarter turns so that the first row runs as nearly left to right as it can. */
function uprightFirst(points: readonly Point[], order: number): Point[] {
  const side = order + 1
  let best = [...points]
  let most = Number.NEGATIVE_INFINITY
  let turned = best
  for (let quarter = 0; quarter < 4; quarter++) {
    const direction = turned[order]!.x - turned[0]!.x
    if (direction > most) {
      most = direction
      best = turned
    }
    turned = turned.map((_, k) => turned[(order - (k % side)) * side + Math.floor(k / side)]!)
  }
  return best
}
