import type { GrayImage } from '../image.js'
import type { GridMap } from './grid-map.js'
import { biweight, LeastSquares } from './least-squares.js'
import { type Axis, type RuleReading, readRule } from './rule-readings.js'
import type { Extent } from './smooth-field.js'

/** Orders of grid that are looked for: those of the usual boxes. */
export const ORDERS: readonly number[] = [4, 6, 8, 9, 10, 12, 15, 16]

/** A dip in brightness of less than this share of the paper is no rule. */
export const FAINTEST_RULE = 0.015
/** A step in brightness of less than this share is no edge of a frame. */
export const FAINTEST_EDGE = 0.06
/** A reading this far from where its rule runs, in cells, is something else. */
export const STRAY = 0.06

/** The square of cells that a grid covers, in the mesh's count. */
export interface GridWindow {
  readonly left: number
  readonly top: number
  readonly order: number
}

/**
 * Decides which rows and columns belong to the grid: those whose cells are closed by rules on all sides, looked at on the
 * picture from a row and column before the mesh to one after it, and further as long as more are found. `undefined` when
 * they are not as many across as down, or of no usual order.
 */
export function findWindow(image: GrayImage, map: GridMap): GridWindow | undefined {
  let range = {
    left: map.extent.left - 1,
    top: map.extent.top - 1,
    right: map.extent.right + 1,
    bottom: map.extent.bottom + 1,
  }
  for (let round = 0; round < MOST_EXTENSIONS; round++) {
    const found = closedCells(image, map, range)
    if (!found) return undefined
    const { left, top, right, bottom } = found
    const grown = {
      left: range.left - (left === range.left ? 1 : 0),
      top: range.top - (top === range.top ? 1 : 0),
      right: range.right + (right === range.right ? 1 : 0),
      bottom: range.bottom + (bottom === range.bottom ? 1 : 0),
    }
    const done =
      grown.left === range.left &&
      grown.top === range.top &&
      grown.right === range.right &&
      grown.bottom === range.bottom
    if (done) {
      const order = right - left
      return order === bottom - top && ORDERS.includes(order) ? { left, top, order } : undefined
    }
    range = grown
  }
  return undefined
}

/** Rows and columns found beyond the mesh, at most, before it counts as no grid. */
const MOST_EXTENSIONS = 5
const CLOSED_ENOUGH = 0.62

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
    const columns = longestRun(range.left, range.right, (c) => drawn.columnScore(c, top, bottom))
    left = columns.first
    right = columns.end
    const rows = longestRun(range.top, range.bottom, (r) => drawn.rowScore(r, left, right))
    top = rows.first
    bottom = rows.end
    if (left >= right || top >= bottom) return undefined
  }
  return { left, top, right, bottom }
}

function longestRun(
  start: number,
  end: number,
  score: (k: number) => number,
): { first: number; end: number } {
  let best = { first: start, end: start }
  let first = start
  for (let k = start; k <= end; k++) {
    if (k < end && score(k) >= CLOSED_ENOUGH) continue
    if (k - first > best.end - best.first) best = { first, end: k }
    first = k + 1
  }
  return best
}

/** Which share of each side of each cell is drawn. */
class SidesDrawn {
  readonly across = new Map<number, number>()
  readonly down = new Map<number, number>()

  /** The least drawn of: the rule left of the column, the one right of it, the sides between them. 0 when too little is inside the picture. */
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
 * picture. The rule is the straight course that most readings between `span.first` and `span.last` agree on, and a reading counts when it lies on it and is about as dark as the others: letters do neither.
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
  const readings: (RuleReading | undefined)[] = []
  for (let cell = from; cell < to; cell++) {
    for (const t of PLACES)
      readings.push(readRule(image, plane, axis, rule, cell + t, expected(cell + t), 0.2))
  }
  const core = { start: (first - from) * PLACES.length, end: (last - from) * PLACES.length }
  const lines = onCourse(
    readings.map((r) =>
      r && r.depth > FAINTEST_RULE
        ? { along: r.along, stray: r.place - expected(r.along), dark: r.depth }
        : undefined,
    ),
    core,
  )
  const edges = onCourse(
    readings.map((r) =>
      r && r.edgeStep > FAINTEST_EDGE
        ? { along: r.along, stray: r.edgePlace - expected(r.along), dark: r.edgeStep }
        : undefined,
    ),
    core,
  )
  const count = (marks: readonly boolean[]) => marks.slice(core.start, core.end).filter(Boolean).length
  // The frame of a coloured grid may be an edge instead of a line.
  const marks = count(edges) > 1.5 * count(lines) ? edges : lines
  const shares: number[] = []
  for (let k = 0; k < readings.length; k += PLACES.length) {
    let seen = 0
    let drawn = 0
    for (let i = k; i < k + PLACES.length; i++) {
      if (readings[i]) seen++
      if (marks[i]) drawn++
    }
    shares.push(seen < 2 ? Number.NaN : drawn / seen)
  }
  return shares
}

interface Stray {
  readonly along: number
  /** How far from where it was expected, in cells. */
  readonly stray: number
  readonly dark: number
}

/** Which readings lie on the straight course that most of the core agree on, and are about as dark as those. */
function onCourse(strays: readonly (Stray | undefined)[], core: { start: number; end: number }): boolean[] {
  const within = strays.slice(core.start, core.end).filter((stray) => stray !== undefined)
  const middle = (within.at(0)?.along ?? 0) / 2 + (within.at(-1)?.along ?? 0) / 2
  const half = Math.max(1, (within.at(-1)?.along ?? 0) - middle)
  let shift = 0
  let tilt = 0
  const away = ({ along, stray }: Stray) => stray - shift - (tilt * (along - middle)) / half
  for (const reach of [0.2, 0.12, 0.08]) {
    const system = new LeastSquares(2)
    for (const reading of within) {
      const weight = biweight(away(reading), reach)
      if (weight > 0) system.add([1, (reading.along - middle) / half], reading.stray, weight)
    }
    const solved = system.solve(0.01)
    if (!solved) break
    shift = solved[0]!
    tilt = solved[1]!
  }
  const close = (reading: Stray | undefined) => reading !== undefined && Math.abs(away(reading)) < STRAY
  const depths = within
    .filter(close)
    .map(({ dark }) => dark)
    .sort((a, b) => a - b)
  const least = (depths[depths.length >> 1] ?? 0) * 0.3
  return strays.map((reading) => close(reading) && reading!.dark >= least)
}
