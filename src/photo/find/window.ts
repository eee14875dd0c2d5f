import type { GrayImage } from '../image.js'
import { followRule } from './follow-rule.js'
import { type GridMap, mapOfMesh, mapPoint } from './grid-map.js'
import type { MeshCell } from './mesh.js'
import { refineGrid } from './refine.js'
import type { Axis } from './rule-readings.js'
import type { Extent } from './smooth-field.js'

/** Orders of grid that are looked for: those of the usual boxes. */
export const ORDERS: readonly number[] = [4, 6, 8, 9, 10, 12, 15, 16]
/** By far the most common: what is too faint to be counted is tried as one of these. */
export const USUAL_ORDER = 9

/** A block of closed cells, and a map of it that counts from its first corner. */
export interface GridWindow {
  readonly columns: number
  readonly rows: number
  readonly map: GridMap
}

/**
 * Decides which rows and columns belong to the grid: those whose cells are closed by rules on all sides, looked at on
 * the picture from a row and column before the mesh to one after it. As long as more are found the map is fitted anew
 * to all of them and the look goes one further, so that a few cells are enough to begin with; a look a step.
 */
export function* findWindow(image: GrayImage, mesh: GridMap): Generator<void, GridWindow | undefined> {
  let map = mesh
  for (let round = 0; round < MOST_EXTENSIONS; round++) {
    yield
    const before = map.extent
    const range = {
      left: before.left - 1,
      top: before.top - 1,
      right: before.right + 1,
      bottom: before.bottom + 1,
    }
    const found = closedCells(image, map, range)
    if (!found) return undefined
    const same =
      found.left === before.left &&
      found.top === before.top &&
      found.right === before.right &&
      found.bottom === before.bottom
    const columns = found.right - found.left
    const rows = found.bottom - found.top
    // larger than any grid: of no use, so its rules need not be fitted
    if (Math.max(columns, rows) > LARGEST_ORDER) return { columns, rows, map }
    yield
    const refitted = mapOfBlock(image, map, found, !same)
    if (!refitted) return undefined
    map = refitted
    const grown = columns > before.right - before.left || rows > before.bottom - before.top
    if (!grown) return { columns, rows, map }
  }
  return undefined
}

/**
 * The map of a block of cells, counted from its own first corner and, unless it is the whole mesh anyway, fitted to its
 * rules.
 */
function mapOfBlock(
  image: GrayImage,
  map: GridMap,
  { left, top, right, bottom }: Extent,
  fit: boolean,
): GridMap | undefined {
  const columns = right - left
  const rows = bottom - top
  const extent = { left: 0, top: 0, right: columns, bottom: rows }
  const cells: MeshCell[] = []
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      cells.push({ column, row, centre: mapPoint(map, left + column + 0.5, top + row + 0.5) })
    }
  }
  const shifted = mapOfMesh(cells, extent)
  if (!shifted || !fit) return shifted
  const { points } = refineGrid(image, shifted, columns, rows)
  const refined = cells.map(({ column, row }) => {
    const at = row * (columns + 1) + column
    const [a, b] = [points[at]!, points[at + 1]!]
    const [c, d] = [points[at + columns + 1]!, points[at + columns + 2]!]
    return { column, row, centre: { x: (a.x + b.x + c.x + d.x) / 4, y: (a.y + b.y + c.y + d.y) / 4 } }
  })
  return mapOfMesh(refined, extent)
}

/** Rows and columns found beyond the mesh, at most, before it counts as no grid. */
const MOST_EXTENSIONS = 10
const LARGEST_ORDER = Math.max(...ORDERS)
const CLOSED_ENOUGH = 0.62
const DOUBTFUL = 0.35

/** The block of closed cells within a range. */
function closedCells(image: GrayImage, map: GridMap, range: Extent): Extent | undefined {
  const { plane, extent, du, dv } = map
  const drawn = new SidesDrawn()
  for (let v = range.top; v <= range.bottom; v++) {
    const span = { from: range.left, first: extent.left, last: extent.right, to: range.right }
    const sides = sidesDrawn(image, plane, 'across', v, span, (along) => v + dv.at(along, v))
    sides.forEach((share, k) => {
      drawn.across.set(key(range.left + k, v), share)
    })
  }
  for (let u = range.left; u <= range.right; u++) {
    const span = { from: range.top, first: extent.top, last: extent.bottom, to: range.bottom }
    const sides = sidesDrawn(image, plane, 'down', u, span, (along) => u + du.at(u, along))
    sides.forEach((share, k) => {
      drawn.down.set(key(u, range.top + k), share)
    })
  }
  let { left, top, right, bottom } = extent
  for (let round = 0; round < 2; round++) {
    const columns = longestRun(range.left, range.right, extent.left, extent.right, (c) =>
      drawn.columnScore(c, top, bottom),
    )
    left = columns.first
    right = columns.end
    const rows = longestRun(range.top, range.bottom, extent.top, extent.bottom, (r) =>
      drawn.rowScore(r, left, right),
    )
    top = rows.first
    bottom = rows.end
    if (left >= right || top >= bottom) return undefined
  }
  return { left, top, right, bottom }
}

/**
 * Of the runs of rows (or columns) that are closed enough, the one that covers most of the mesh. One or two doubtful
 * rows between good ones do not break a run, a gap between two grids does.
 */
function longestRun(
  start: number,
  end: number,
  meshStart: number,
  meshEnd: number,
  score: (k: number) => number,
): { first: number; end: number } {
  const scores = Array.from({ length: end - start }, (_, k) => score(start + k))
  const closed = (k: number) => (scores[k] ?? 0) >= CLOSED_ENOUGH
  const good = scores.map((value, k) => {
    if (closed(k)) return true
    if (value < DOUBTFUL) return false
    // one rule badly seen spoils the rows on both its sides
    return (closed(k - 1) && (closed(k + 1) || closed(k + 2))) || (closed(k + 1) && closed(k - 2))
  })
  let best = { first: start, end: start }
  let most = 0
  let first = start
  for (let k = start; k <= end; k++) {
    if (k < end && good[k - start]) continue
    const covered = Math.min(k, meshEnd) - Math.max(first, meshStart)
    if (covered > most) {
      most = covered
      best = { first, end: k }
    }
    first = k + 1
  }
  return best
}

/** Which share of each side of each cell is drawn. */
class SidesDrawn {
  readonly across = new Map<number, number>()
  readonly down = new Map<number, number>()

  /**
   * The least drawn of: the rule left of the column, the one right of it, the sides between them. 0 when too little is
   * inside the picture.
   */
  columnScore(column: number, firstRow: number, endRow: number): number {
    const left = new Mean()
    const right = new Mean()
    const between = new Mean()
    for (let row = firstRow; row < endRow; row++) {
      left.add(this.down.get(key(column, row)))
      right.add(this.down.get(key(column + 1, row)))
      between.add(this.across.get(key(column, row)))
    }
    between.add(this.across.get(key(column, endRow)))
    return leastDrawn(left, right, between)
  }

  rowScore(row: number, firstColumn: number, endColumn: number): number {
    const above = new Mean()
    const below = new Mean()
    const between = new Mean()
    for (let column = firstColumn; column < endColumn; column++) {
      above.add(this.across.get(key(column, row)))
      below.add(this.across.get(key(column, row + 1)))
      between.add(this.down.get(key(column, row)))
    }
    between.add(this.down.get(key(endColumn, row)))
    return leastDrawn(above, below, between)
  }
}

/** A mean over what lies inside the picture. */
class Mean {
  private sum = 0
  private count = 0
  private asked = 0

  add(share: number | undefined): void {
    this.asked++
    if (share === undefined || Number.isNaN(share)) return
    this.sum += share
    this.count++
  }

  /** `undefined` when most of it is outside. */
  get value(): number | undefined {
    return this.count * 3 < this.asked ? undefined : this.sum / this.count
  }
}

/** A row may be cut by the picture's edge, so that one of its long rules is missing; the short ones must be there. */
function leastDrawn(before: Mean, after: Mean, between: Mean): number {
  if (between.value === undefined || (before.value === undefined && after.value === undefined)) return 0
  return Math.min(before.value ?? 1, after.value ?? 1, between.value)
}

function key(u: number, v: number): number {
  return (v + 512) * 4096 + u + 512
}

const PLACES = [0.2, 0.4, 0.6, 0.8] as const

/**
 * Follows one rule and says, for each cell's side, on which share of its places the rule is seen; NaN outside the
 * picture. The rule is the straight course that most readings between `span.first` and `span.last` agree on, and a
 * reading counts when it lies on it and is about as dark as the others: letters do neither.
 */
function sidesDrawn(
  image: GrayImage,
  plane: GridMap['plane'],
  axis: Axis,
  rule: number,
  span: { readonly from: number; readonly first: number; readonly last: number; readonly to: number },
  expected: (along: number) => number,
): number[] {
  const { from, first, last, to } = span
  const places: number[] = []
  for (let cell = from; cell < to; cell++) for (const t of PLACES) places.push(cell + t)
  const core = { start: (first - from) * PLACES.length, end: (last - from) * PLACES.length }
  const { inside, readings } = followRule(image, plane, { axis, rule, places, core, expected, reach: 0.2 })
  const shares: number[] = []
  for (let k = 0; k < places.length; k += PLACES.length) {
    let seen = 0
    let drawn = 0
    for (let i = k; i < k + PLACES.length; i++) {
      if (inside[i]) seen++
      if (readings[i]) drawn++
    }
    shares.push(seen < 2 ? Number.NaN : drawn / seen)
  }
  return shares
}
