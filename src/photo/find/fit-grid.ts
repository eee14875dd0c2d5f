import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { shrink } from '../raster/shrink.js'
import { hasBlackCells } from './black-cells.js'
import { adoptCells, cellSize, extentOf, type GridMap, mapOfMesh, mapPoint } from './grid-map.js'
import { Homography } from './homography.js'
import { judgeKnown, judgeMeshed, judgeSeen, SEEN_ENOUGH } from './judge-rules.js'
import { strays } from './kept-lattices.js'
import type { Mesh, MeshCell } from './mesh.js'
import { isWhole, LIKELY_SEEN, likelyOrders, type SeenPlace, SURELY_SEEN, sureness } from './page-net.js'
import type { CellQuad } from './quad.js'
import { LAST_PASS, meanShare, type RefinedGrid, refineGrid } from './refine.js'
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
export function* fitGrid(
  copies: ShrunkCopies,
  factor: number,
  mesh: Mesh,
  quads: readonly CellQuad[],
): Generator<void, Lattice | undefined> {
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
  const cells = scaledCells(members, scale)
  const image = copies.by(fine)
  const first = mapOfMesh(cells, extentOf(cells))
  if (!first) return undefined
  const window = yield* findWindow(image, first)
  yield
  if (window) {
    const { columns, rows, map } = window
    const square = columns === rows && ORDERS.includes(columns)
    const lattice = (square && fitRules(copies, fine, map, columns)) || fitBoxes(copies, fine, window)
    if (lattice) return lattice
  }
  return undefined
}

/** Rules are looked for together on a copy on which a cell is about this many pixels wide: no finer, against noise. */
const COMB_CELL = 28
/**
 * Every so many rules one parts boxes; where boxes may lie either way, or regions are irregular, the frame alone is
 * heavier.
 */
function boxSide(order: number): number {
  const side = Math.sqrt(order)
  return Number.isInteger(side) ? side : order
}

/**
 * Takes what the page network has seen for a grid. Its places are good to a tenth of a cell, so rules are followed from
 * there; where few of them can be, all are looked for together first. Where the network is not sure of the order, the
 * rules say which.
 *
 * @param places on the full picture
 * @param leastSure log odds below which they are nothing
 */
export function fitSeen(
  copies: ShrunkCopies,
  places: readonly SeenPlace[],
  leastSure = LIKELY_SEEN,
): SeenLattice | undefined {
  let best: SeenLattice | undefined
  for (const order of likelyOrders(places)) {
    const fitted = fitSeenAs(copies, places, order, leastSure)
    if (fitted && fitted.lattice.support >= SEEN_RULE_BY_RULE) return fitted
    if (fitted && fitted.lattice.support > (best?.lattice.support ?? Number.NEGATIVE_INFINITY)) best = fitted
  }
  return best
}

function fitSeenAs(
  copies: ShrunkCopies,
  places: readonly SeenPlace[],
  order: number,
  leastSure: number,
): SeenLattice | undefined {
  const cells = places.map(({ point, u, v }) => ({
    column: u * order - 0.5,
    row: v * order - 0.5,
    centre: point,
  }))
  const seen = mapOfMesh(cells, extentFor(order))
  if (!seen || !agree(cells, seen, TOGETHER, MOST_PLACES)) return undefined
  const sure = sureness(places)
  if (sure < leastSure) return undefined
  const surely =
    sure >= SURELY_SEEN && isWhole(places) && agree(cells, seen, CLOSE_TOGETHER, NEARLY_ALL_PLACES)
  const judge: Judge = surely ? judgeKnown : isWhole(places) ? judgeSeen : judgeMeshed
  const fine = Math.max(1, Math.round(cellSize(seen) / READING_CELL))
  const map = scaledMap(seen, 1 / fine, order)
  if (!map) return undefined
  const points = uprightFirst(crossingsOf(seen, order), order)
  const asSeen = { order: order, points, cut: leavesPicture(points, copies.full), support: 0 }
  const keepsTo = (lattice: Lattice) => !surely || !strays(lattice, asSeen)
  const mayLead = (lattice: Lattice) =>
    lattice.support >= SEEN_FAIRLY && !strays(lattice, asSeen, STRAY_OF_FAIR)
  const followed = fitRules(copies, fine, map, order, judge)
  if (followed && followed.support >= SEEN_RULE_BY_RULE && keepsTo(followed)) {
    return { lattice: followed, surely }
  }
  const coarse = Math.max(1, Math.round(cellSize(seen) / COMB_CELL))
  const plane = scaledMap(seen, 1 / coarse, order)?.plane
  const comb = plane && combMap(copies.by(coarse), plane, order, boxSide(order))
  // a comb may slip by a whole cell
  const combed =
    comb &&
    agree(scaledCells(cells, 1 / coarse), comb.map, TOGETHER, MOST_PLACES) &&
    scaledMap(comb.map, coarse / fine, order)
  const together = combed ? fitRules(copies, fine, combed, order, judge) : undefined
  const [better, worse] =
    (together?.support ?? 0) > (followed?.support ?? 0) ? [together, followed] : [followed, together]
  if (!better) return undefined
  if (!surely) return { lattice: better, surely }
  const trusted = [better, worse].find(
    (lattice) => lattice && lattice.support >= FOLLOWED_ENOUGH && (keepsTo(lattice) || mayLead(lattice)),
  )
  // rules that lead away from where the network surely sees the grid are others, or noise
  return { lattice: trusted ?? { ...asSeen, support: better.support }, surely }
}

/** A grid where the network sees one, and whether it does so without a doubt. */
export interface SeenLattice {
  readonly lattice: Lattice
  readonly surely: boolean
}

/** With so much of its rules seen, a grid needs no comb. */
const SEEN_RULE_BY_RULE = 0.85

/** Most places must lie this near (in cells) to where all of them together say, or they show no one grid … */
const TOGETHER = 0.4
const MOST_PLACES = 0.75
/** … and for the network's word to be enough, nearly all this near. */
const CLOSE_TOGETHER = 0.2
const NEARLY_ALL_PLACES = 0.9
/**
 * Rules of a surely seen grid are followed where at least so much of them is seen; else the network's places are as
 * good.
 */
const FOLLOWED_ENOUGH = 0.6

/**
 * The network's own places may be half a cell off at a corner (on drawn pages by 0.7 cells at most), and rules that are
 * seen this well, one by one or by a comb, may lead as far from them.
 */
const SEEN_FAIRLY = 0.8
const STRAY_OF_FAIR = 0.7

function crossingsOf(map: GridMap, order: number): Point[] {
  const side = order + 1
  return Array.from({ length: side * side }, (_, k) => mapPoint(map, k % side, Math.floor(k / side)))
}

function agree(cells: readonly MeshCell[], map: GridMap, near: number, share: number): boolean {
  const reach = near * cellSize(map)
  const there = cells.filter(({ column, row, centre }) => {
    const { x, y } = mapPoint(map, column + 0.5, row + 0.5)
    return Math.hypot(x - centre.x, y - centre.y) < reach
  })
  return there.length > share * cells.length
}

function scaledCells(cells: readonly MeshCell[], scale: number): MeshCell[] {
  return cells.map((cell) => ({ ...cell, centre: { x: cell.centre.x * scale, y: cell.centre.y * scale } }))
}

/** The same map of a grid on a copy `scale` times as large. */
function scaledMap(map: GridMap, scale: number, order: number): GridMap | undefined {
  return mapFrom(order, (u, v) => {
    const { x, y } = mapPoint(map, u, v)
    return { x: x * scale, y: y * scale }
  })
}

function extentFor(order: number) {
  return { left: 0, top: 0, right: order, bottom: order }
}

/**
 * Takes each cell of a small block for a box. A grid whose boxes lie A across and B down has boxes of B columns and A
 * rows, so the block itself tells the order.
 */
function fitBoxes(
  copies: ShrunkCopies,
  fine: number,
  { columns, rows, map }: GridWindow,
): Lattice | undefined {
  if (columns < 2 || rows < 2 || columns > 4 || rows > 4) return undefined
  const order = columns * rows
  // boxes of nine squares are a small table as often; the page network knows better
  if (order === USUAL_ORDER) return undefined
  const finer = Math.max(1, Math.round(fine / Math.sqrt(order)))
  const divided = dividedMap(map, fine / finer, rows, columns, order)
  return fitRules(copies, finer, divided, order)
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
  return mapOfMesh(cells, extentFor(order))
}

/** Says how well a grid is seen, or that it is none; see `judge-rules.ts`. */
type Judge = (refined: RefinedGrid, order: number, image: GrayImage) => number | undefined

function fitRules(
  copies: ShrunkCopies,
  fine: number,
  map: GridMap,
  order: number,
  judge: Judge = judgeMeshed,
): Lattice | undefined {
  const image = copies.by(fine)
  let refined = refineGrid(image, map, order, order, LAST_PASS)
  if (shareOf(refined) < WELL_SEEN) refined = refineGrid(image, map, order, order)
  if (shareOf(refined) < WELL_SEEN) {
    const flattened = flatMap(refined.points, order)
    const again = flattened && refineGrid(image, flattened, order, order, LAST_PASS)
    if (again && shareOf(again) >= shareOf(refined) - AS_WELL_FLAT) refined = again
  }
  const support = judge(refined, order, image)
  if (support === undefined) return undefined
  const points = uprightFirst(
    refined.points.map(({ x, y }) => ({ x: x * fine, y: y * fine })),
    order,
  )
  const cut =
    [...refined.across, ...refined.down].some(({ inside }) => inside < SEEN_ENOUGH) ||
    leavesPicture(points, copies.full)
  const lattice = { order, points, cut, support }
  return hasBlackCells(copies.full, lattice) ? undefined : lattice
}

function leavesPicture(points: readonly Point[], { width, height }: GrayImage): boolean {
  return points.some(({ x, y }) => x < 0 || y < 0 || x > width || y > height)
}

/**
 * A grid whose rules are seen less than this is tried again as a flat one: a bend read into faint rules leads off at
 * the corners.
 */
const WELL_SEEN = 0.97
/**
 * What is seen better bent, but no more than so much, may as well be flat: of 410 drawn grids 25 instead of 28 were
 * then off by a tenth of a cell, of 350 poor ones 4 instead of 6 by three tenths.
 */
const AS_WELL_FLAT = 0.01

function shareOf({ across, down }: RefinedGrid): number {
  return meanShare([...across, ...down])
}

/** The flat grid that most of these crossings agree on. */
function flatMap(points: readonly Point[], order: number): GridMap | undefined {
  const side = order + 1
  const places = points.map((_, k) => ({ x: k % side, y: Math.floor(k / side) }))
  const plane = Homography.fit(places, points)
  const extent = extentFor(order)
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
