import { usualGeometry } from '../../grid/geometry.js'
import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { shrink } from '../raster/shrink.js'
import { hasBlackCells } from './black-cells.js'
import { adoptCells, cellSize, extentOf, type GridMap, mapOfMesh, mapPoint } from './grid-map.js'
import { Homography } from './homography.js'
import type { Mesh, MeshCell } from './mesh.js'
import type { CellQuad } from './quad.js'
import { type RefinedGrid, type RuleSupport, refineGrid } from './refine.js'
import { SmoothField } from './smooth-field.js'
import { findWindow, type GridWindow, ORDERS } from './window.js'

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

/** Takes a mesh that spans just as many rows and columns as a usual grid for one, though few cells are closed; its boxes must show. */
function fitUsual(copies: ShrunkCopies, fine: number, mesh: GridMap): Lattice | undefined {
  const { left, top, right, bottom } = mesh.extent
  if (right - left !== USUAL_ORDER || bottom - top !== USUAL_ORDER) return undefined
  const map = mapFrom(USUAL_ORDER, (u, v) => mapPoint(mesh, left + u, top + v))
  return map && fitRules(copies, fine, map, USUAL_ORDER, true)
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
  return fitRules(copies, finer, dividedMap(map, fine / finer, rows, columns, order), order)
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

/** @param boxed do boxes have to show, whatever the order? */
function fitRules(
  copies: ShrunkCopies,
  fine: number,
  map: GridMap,
  order: number,
  boxed = order !== USUAL_ORDER,
): Lattice | undefined {
  const image = copies.by(fine)
  let refined = refineGrid(image, map, order, order)
  if (meanShare(refined) < WELL_SEEN) {
    const flattened = flatMap(refined.points, order)
    const again = flattened && refineGrid(image, flattened, order, order)
    if (again && meanShare(again) > meanShare(refined)) refined = again
  }
  const support = judge(refined, order, boxed)
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

/** A rule of which less than this lies well inside the picture is not held against a grid; the grid is cut. */
const SEEN_ENOUGH = 0.3
const LEAST_RULE = 0.5
/** The fine rules inside the boxes of a usual grid may hardly show. */
const LEAST_USUAL_RULE = 0.3
const LEAST_SUPPORT = 0.75

/** Mean support over all rules, or `undefined` when a rule is missing or too much is unseen. */
function judge({ across, down }: RefinedGrid, order: number, boxed: boolean): number | undefined {
  const seen = [...across, ...down].filter(({ inside }) => inside >= SEEN_ENOUGH)
  if (seen.some(({ share }) => share < (order === USUAL_ORDER ? LEAST_USUAL_RULE : LEAST_RULE)))
    return undefined
  if (boxed && !showsBoxes(across, down, order)) return undefined
  // A draughts board has edges only; a number-place grid on chequered ground has at least its box rules drawn.
  if (seen.filter(({ kind }) => kind !== 'mixed').length < LEAST_LINES * seen.length) return undefined
  const mean = seen.reduce((sum, { share }) => sum + share, 0) / seen.length
  return mean < (order === USUAL_ORDER ? LEAST_SUPPORT : LEAST_UNUSUAL_SUPPORT) ? undefined : mean
}

/** Nine rows and columns of squares are a number-place grid by themselves; other counts are tables and boards as often, unless boxes show. */
const USUAL_ORDER = 9
const HEAVIER = 1.25
const LEAST_UNUSUAL_SUPPORT = 0.9
const LEAST_LINES = 0.2

/** Are the rules between the boxes of a grid of this order heavier than those within, both ways, for one of its box shapes? */
function showsBoxes(across: readonly RuleSupport[], down: readonly RuleSupport[], order: number): boolean {
  const box = usualGeometry(order)?.box
  if (!box) return false
  return (
    (heavierEvery(across, box.rows) && heavierEvery(down, box.columns)) ||
    (heavierEvery(across, box.columns) && heavierEvery(down, box.rows))
  )
}

function heavierEvery(rules: readonly RuleSupport[], period: number): boolean {
  const inner = rules.slice(1, -1)
  const weights = (between: boolean) =>
    inner.filter((_, k) => ((k + 1) % period === 0) === between).map(({ weight }) => weight)
  const lightest = Math.min(...weights(true))
  const typical = weights(false).sort((a, b) => a - b)
  return lightest > HEAVIER * typical[typical.length >> 1]!
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
