import {
  argumentError,
  boolean,
  type Check,
  checkOptions,
  isWhole,
  listOf,
  type OptionChecks,
  string,
  whole,
} from '../check-arguments.js'
import { InputError } from '../errors.js'

/**
 * What a grid is, as plain data: it can be saved as JSON, cloned and sent to another thread, and serves there as it
 * does here. Cells are numbered row by row from 0 (top left) to `cellCount - 1`. What follows from it (houses, who sees
 * whom) is looked up with `layoutOf`, so nothing needs to assume 9.
 */
export interface Geometry {
  /** Stable text that describes the rules completely: `3x3`, `2x3`; two geometries with one key are the same. */
  readonly key: string
  /** What people call it: the key of a boxed grid, a caller's own text otherwise. */
  readonly name: string
  /** Digits run from 1 to `order`; the grid has `order` rows and columns. 4 to 16. */
  readonly order: number
  readonly cellCount: number
  /** Box height and width in cells; left out for grids of irregular regions and for those with extra diagonals. */
  readonly box?: { readonly rows: number; readonly columns: number }
  /** cell -> number of its region, where there is no `box`. */
  readonly regions?: readonly number[]
  /** Set when both diagonals hold every digit once, too. */
  readonly diagonals?: true
  /** Further pairs of cells that cannot hold the same digit, though they may share no house. */
  readonly furtherPeers?: readonly (readonly [number, number])[]
}

const MIN_ORDER = 4
const MAX_ORDER = 16

/**
 * Geometries made here, and those from elsewhere (saved data, clones) that were checked, each with the one made of it.
 */
const known = new WeakMap<object, Geometry>()

function finished(geometry: Geometry): Geometry {
  for (const part of Object.values(geometry)) if (typeof part === 'object') Object.freeze(part)
  known.set(Object.freeze(geometry), geometry)
  return geometry
}

/**
 * The frozen geometry that a value is or is a copy of. One from elsewhere is checked once, by making it anew from what
 * defines it.
 *
 * @throws InputError `argument` for what is no geometry
 */
export function geometryFrom(value: unknown, name = 'geometry'): Geometry {
  const before = known.get(value as object)
  if (before) return before
  const fault = (trouble: string): InputError =>
    argumentError(name, 'a geometry', value, `${trouble}Make one with boxedGeometry or regionGeometry.`)
  if (typeof value !== 'object' || value === null) throw fault('')
  try {
    const geometry = remade(value as Geometry)
    if (!geometry || !isSameData(value, geometry)) throw fault('')
    known.set(value, geometry)
    return geometry
  } catch (error) {
    if (error instanceof InputError && error.code === 'geometry-shape') throw fault(`${error.message} `)
    if (error instanceof InputError) throw fault('')
    throw error
  }
}

/** @throws InputError `argument` for what is no geometry */
export function checkGeometry(value: unknown, name = 'geometry'): asserts value is Geometry {
  geometryFrom(value, name)
}

/** The geometry that this data defines, whatever else the data says. */
function remade({ name, box, regions, diagonals, furtherPeers }: Geometry): Geometry | undefined {
  const geometry = regions
    ? regionGeometry(name, regions, { diagonals: diagonals === true })
    : box && boxedGeometry(box.rows, box.columns)
  if (!geometry || furtherPeers === undefined) return geometry
  string(name, 'name')
  checkPairs(furtherPeers, 'furtherPeers')
  return withFurtherPeers(geometry, name, furtherPeers)
}

function isSameData(value: object, geometry: Geometry): boolean {
  const data = value as Record<string, unknown>
  const parts = Object.entries(geometry)
  const names = Object.keys(data).filter((name) => data[name] !== undefined)
  // what is a list or an object defines the geometry, so that it agrees when the key does
  return (
    names.length === parts.length &&
    parts.every(([name, part]) => (typeof part === 'object' ? name in data : data[name] === part))
  )
}

const checkSide = whole(1)
const boxedCache = new Map<string, Geometry>()

/**
 * The grid whose boxes are `boxRows` × `boxColumns` cells: `boxedGeometry(3, 3)` is the standard 9×9, `boxedGeometry(2,
 * 3)` the 6×6 with boxes two high and three wide. The same value comes back for the same numbers.
 *
 * @throws InputError `geometry-shape` unless 4 <= boxRows × boxColumns <= 16, `argument` for sides that are no whole
 *   numbers.
 *
 * @example
 * boxedGeometry(2, 3).order // 6×6, boxes of two rows and three columns: → 6
 */
export function boxedGeometry(boxRows: number, boxColumns: number): Geometry {
  checkSide(boxRows, 'boxRows')
  checkSide(boxColumns, 'boxColumns')
  const order = boxRows * boxColumns
  if (order < MIN_ORDER || order > MAX_ORDER) {
    throw new InputError(
      'geometry-shape',
      `Boxes of ${boxRows}×${boxColumns} make a grid of order ${order}; orders ${MIN_ORDER} to ${MAX_ORDER} are supported.`,
    )
  }
  const name = `${boxRows}x${boxColumns}`
  const before = boxedCache.get(name)
  if (before) return before
  const box = { rows: boxRows, columns: boxColumns }
  const geometry = finished({ key: name, name, order, cellCount: order * order, box })
  boxedCache.set(name, geometry)
  return geometry
}

/** What a grid of regions has besides. */
export interface RegionOptions {
  /** Do both diagonals count, too? */
  readonly diagonals?: boolean
}

const REGION_CHECKS: OptionChecks<RegionOptions> = { diagonals: boolean }
const checkRegions = listOf(whole(0))

/**
 * A grid with irregular regions, extra diagonals, or both. Regions that are the boxes of a usual grid, in the usual
 * order, are called boxes.
 *
 * @param regions cell -> region number (0-based), row by row, `order × order` of them; each region has `order` cells.
 * @throws InputError `geometry-shape` when the numbers do not describe such a grid, `argument` for what is no list of
 *   numbers.
 *
 * @example
 * const regions = [0, 0, 0, 1, 0, 2, 1, 1, 2, 2, 3, 1, 2, 3, 3, 3]
 * regionGeometry('small jigsaw', regions).order // → 4
 */
export function regionGeometry(
  name: string,
  regions: readonly number[],
  options: RegionOptions = {},
): Geometry {
  string(name, 'name')
  checkRegions(regions, 'regions')
  checkOptions<RegionOptions>(options, REGION_CHECKS)
  const order = Math.round(Math.sqrt(regions.length))
  if (order * order !== regions.length || order < MIN_ORDER || order > MAX_ORDER) {
    throw new InputError(
      'geometry-shape',
      `A region map has order × order numbers with order ${MIN_ORDER} to ${MAX_ORDER}; this one has ${regions.length}.`,
    )
  }
  const sizes = new Array<number>(order).fill(0)
  regions.forEach((region, cell) => {
    if (region >= order) {
      throw new InputError(
        'geometry-shape',
        `Region numbers run from 0 to ${order - 1}; cell ${cell} says ${region}.`,
      )
    }
    sizes[region]!++
  })
  sizes.forEach((size, region) => {
    if (size !== order) {
      throw new InputError(
        'geometry-shape',
        `Region ${region} has ${size} cells; each region needs ${order}.`,
      )
    }
  })
  const key = regions.map((region) => region.toString(MAX_ORDER)).join('')
  const shape = { name, order, cellCount: regions.length, regions: [...regions] }
  return finished(
    options.diagonals ? { key: `${key}+diagonals`, ...shape, diagonals: true } : { key, ...shape },
  )
}

/**
 * The same grid in which each of these pairs of cells cannot hold the same digit either, though they may share no
 * house. Grids of this kind are not public; a proof holds on them all the same, as it goes by peers and not by houses
 * alone.
 */
export function withFurtherPeers(
  geometry: Geometry,
  name: string,
  pairs: readonly (readonly [number, number])[],
): Geometry {
  const furtherPeers = [
    ...(geometry.furtherPeers ?? []),
    ...pairs.map(([one, other]) => [one, other] as const),
  ]
  const last = furtherPeers.find(
    ([one, other]) => Math.max(one, other) >= geometry.cellCount || one === other,
  )
  if (last)
    throw new InputError(
      'geometry-shape',
      `Cells ${last.join(' and ')} of ${geometry.name} are no pair of cells.`,
    )
  const [rules] = geometry.key.split('+peers')
  return finished({
    ...geometry,
    key: `${rules}+peers${furtherPeers.map((pair) => pair.join('-'))}`,
    name,
    furtherPeers,
  })
}

const cellPair: Check = (value, name) => {
  listOf(whole(0))(value, name)
  if ((value as unknown[]).length !== 2) throw argumentError(name, 'a pair of cells', value)
}
const checkPairs = listOf(cellPair)

const checkOrder = whole(0)

/** The standard 9×9 grid with 3×3 boxes. */
export const STANDARD: Geometry = boxedGeometry(3, 3)

/**
 * The box shape meant when only the order is known: boxes as square as they come, wider than high
 * (4: 2×2, 6: 2×3, 8: 2×4, 9: 3×3, 10: 2×5, 12: 3×4, 14: 2×7, 15: 3×5, 16: 4×4), or undefined for prime orders.
 *
 * @throws InputError `argument` for what is no whole number
 *
 * @example
 * usualGeometry(16)?.key // → '4x4'
 * usualGeometry(7) // → undefined
 */
export function usualGeometry(order: number): Geometry | undefined {
  checkOrder(order, 'order')
  if (order < MIN_ORDER || order > MAX_ORDER) return undefined
  for (let rows = Math.floor(Math.sqrt(order)); rows > 1; rows--) {
    if (order % rows === 0) return boxedGeometry(rows, order / rows)
  }
  return undefined
}

/** @throws InputError `argument` for what is no cell of the geometry, or no geometry */
export function checkCell(geometry: Geometry, cell: unknown, name = 'cell'): asserts cell is number {
  checkGeometry(geometry)
  const last = geometry.cellCount - 1
  if (!isWhole(cell, 0, last)) throw argumentError(name, `a cell of ${geometry.name}, 0 to ${last}`, cell)
}

/**
 * Every grid of an order with boxes of more than one row and one column, the lowest boxes first (6: 2×3 and 3×2);
 * none for prime orders.
 */
export function boxedGeometriesOf(order: number): Geometry[] {
  if (order < MIN_ORDER || order > MAX_ORDER) return []
  const found: Geometry[] = []
  for (let rows = 2; rows < order; rows++)
    if (order % rows === 0) found.push(boxedGeometry(rows, order / rows))
  return found
}

/** The grid that an order alone means to everybody: 4×4, 9×9 and 16×16 with square boxes; undefined for the others. */
export function squareGeometry(order: number): Geometry | undefined {
  const side = Math.sqrt(order)
  return Number.isInteger(side) && order >= MIN_ORDER && order <= MAX_ORDER
    ? boxedGeometry(side, side)
    : undefined
}

/**
 * `r1c1` is the top left cell: rows and columns from 1.
 *
 * @throws InputError `argument` when there is no such cell
 *
 * @example
 * cellName(STANDARD, 10) // → 'r2c2'
 */
export function cellName(geometry: Geometry, cell: number): string {
  checkCell(geometry, cell)
  return `r${Math.floor(cell / geometry.order) + 1}c${(cell % geometry.order) + 1}`
}
