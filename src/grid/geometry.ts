import {
  argumentError,
  boolean,
  checkOptions,
  isWhole,
  listOf,
  type OptionChecks,
  string,
  whole,
} from '../check-arguments.js'
import { InputError } from '../errors.js'

/** What a house is on the page. Regions are the irregular pieces of a jigsaw grid, boxes the rectangular ones. */
export const HOUSE_KINDS = ['row', 'column', 'box', 'region', 'diagonal'] as const
export type HouseKind = (typeof HOUSE_KINDS)[number]

export interface House {
  /** Position in `geometry.houses`. */
  readonly index: number
  readonly kind: HouseKind
  /** Number within its kind, from 1: row 1 is the top one, box 1 the top left one. */
  readonly number: number
  /** Cell numbers in reading order; always `order` of them. */
  readonly cells: readonly number[]
  /** As people write it: `row 1`, `column 4`, `box 9`. */
  readonly name: string
}

/**
 * A geometry is data: cells, houses and who sees whom. Techniques and counters ask this value and never assume 9.
 * Cells are numbered row by row from 0 (top left) to `cellCount - 1`.
 */
export interface Geometry {
  /** Stable text that describes the geometry completely for boxed grids (`3x3`, `2x3`); a caller's own otherwise. */
  readonly name: string
  /** Digits run from 1 to `order`; the grid has `order` rows and columns. 4 to 16. */
  readonly order: number
  readonly cellCount: number
  /** Box height and width in cells; `undefined` for grids of irregular regions and for those with extra diagonals. */
  readonly box: { readonly rows: number; readonly columns: number } | undefined
  readonly houses: readonly House[]
  /** cell -> indices of its houses, in the order row, column, box or region, extras. */
  readonly housesOf: readonly (readonly number[])[]
  /** cell -> cells that cannot hold the same digit, ascending: those that share a house with it, and any further peers. */
  readonly peersOf: readonly (readonly number[])[]
  /** Can two different cells not hold the same digit? */
  arePeers(a: number, b: number): boolean
  /** Position of a cell within a house (0-based), or -1. */
  positionIn(house: number, cell: number): number
}

const MIN_ORDER = 4
const MAX_ORDER = 16

function finishGeometry(
  name: string,
  order: number,
  box: Geometry['box'],
  pieces: readonly { kind: HouseKind; cells: readonly number[] }[],
): Geometry {
  const cellCount = order * order
  const counters = new Map<HouseKind, number>()
  const houses: House[] = pieces.map(({ kind, cells }, index) => {
    const number = (counters.get(kind) ?? 0) + 1
    counters.set(kind, number)
    return {
      index,
      kind,
      number,
      cells: [...cells].sort((a, b) => a - b),
      name: `${kind} ${number}`,
    }
  })
  const housesOf: number[][] = Array.from({ length: cellCount }, () => [])
  const sees = new Uint8Array(cellCount * cellCount)
  const position = new Int8Array(houses.length * cellCount).fill(-1)
  for (const house of houses) {
    house.cells.forEach((cell, i) => {
      housesOf[cell]!.push(house.index)
      position[house.index * cellCount + cell] = i
      for (const other of house.cells) if (other !== cell) sees[cell * cellCount + other] = 1
    })
  }
  const peersOf = housesOf.map((_, cell) => {
    const peers: number[] = []
    for (let other = 0; other < cellCount; other++) if (sees[cell * cellCount + other]) peers.push(other)
    return peers
  })
  const geometry: Geometry = Object.freeze({
    name,
    order,
    cellCount,
    box,
    houses,
    housesOf,
    peersOf,
    arePeers: (a: number, b: number) => sees[a * cellCount + b] === 1,
    positionIn: (house: number, cell: number) => position[house * cellCount + cell]!,
  })
  made.add(geometry)
  return geometry
}

/** Geometries are made here alone; a copy (through JSON, or from another thread) has lost its functions. */
const made = new WeakSet<object>()

/** @throws InputError `argument` for what is no geometry, saved data and copies among them */
export function checkGeometry(value: unknown, name = 'geometry'): asserts value is Geometry {
  if (made.has(value as object)) return
  throw argumentError(
    name,
    'a geometry',
    value,
    'Make one with boxedGeometry or regionGeometry, or from saved data with geometryFromJson (a puzzle with ' +
      'puzzleFromJson): a copy made through JSON or sent by another thread does not serve.',
  )
}

function rowsAndColumns(order: number): { kind: HouseKind; cells: number[] }[] {
  const line = Array.from({ length: order }, (_, i) => i)
  return [
    ...line.map((r) => ({
      kind: 'row' as const,
      cells: line.map((c) => r * order + c),
    })),
    ...line.map((c) => ({
      kind: 'column' as const,
      cells: line.map((r) => r * order + c),
    })),
  ]
}

/** The cells of each box, boxes and cells in reading order. */
function boxCells(boxRows: number, boxColumns: number): number[][] {
  const order = boxRows * boxColumns
  return Array.from({ length: order }, (_, box) => {
    const top = Math.floor(box / boxRows) * boxRows
    const left = (box % boxRows) * boxColumns
    const cells: number[] = []
    for (let r = 0; r < boxRows; r++)
      for (let c = 0; c < boxColumns; c++) cells.push((top + r) * order + left + c)
    return cells
  })
}

/** Are these pieces boxes of one shape, numbered as boxes are? */
function areBoxes(pieces: readonly { readonly cells: readonly number[] }[]): boolean {
  const order = pieces.length
  return pieces.some((_, i) => {
    const rows = i + 1
    if (rows === 1 || rows === order || order % rows !== 0) return false
    return boxCells(rows, order / rows).every((cells, box) => cells.join() === pieces[box]!.cells.join())
  })
}

const checkSide = whole(1)
const boxedCache = new Map<string, Geometry>()

/**
 * The grid whose boxes are `boxRows` × `boxColumns` cells: `boxedGeometry(3, 3)` is the standard 9×9,
 * `boxedGeometry(2, 3)` the 6×6 with boxes two high and three wide. The same value comes back for the same numbers.
 *
 * @throws InputError `geometry-shape` unless 4 <= boxRows × boxColumns <= 16, `argument` for sides that are no whole numbers.
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
  const known = boxedCache.get(name)
  if (known) return known
  const geometry = finishGeometry(name, order, { rows: boxRows, columns: boxColumns }, [
    ...rowsAndColumns(order),
    ...boxCells(boxRows, boxColumns).map((cells) => ({ kind: 'box' as const, cells })),
  ])
  boxedCache.set(name, geometry)
  return geometry
}

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
 * @throws InputError `geometry-shape` when the numbers do not describe such a grid, `argument` for what is no list of numbers.
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
  const pieces: { kind: HouseKind; cells: number[] }[] = Array.from({ length: order }, () => ({
    kind: 'region',
    cells: [],
  }))
  regions.forEach((region, cell) => {
    const piece = pieces[region]
    if (!piece) {
      throw new InputError(
        'geometry-shape',
        `Region numbers run from 0 to ${order - 1}; cell ${cell} says ${region}.`,
      )
    }
    piece.cells.push(cell)
  })
  pieces.forEach((piece, region) => {
    if (piece.cells.length !== order) {
      throw new InputError(
        'geometry-shape',
        `Region ${region} has ${piece.cells.length} cells; each region needs ${order}.`,
      )
    }
  })
  if (areBoxes(pieces)) for (const piece of pieces) piece.kind = 'box'
  if (options.diagonals) {
    const line = Array.from({ length: order }, (_, i) => i)
    pieces.push({ kind: 'diagonal', cells: line.map((i) => i * order + i) })
    pieces.push({
      kind: 'diagonal',
      cells: line.map((i) => i * order + order - 1 - i),
    })
  }
  return finishGeometry(name, order, undefined, [...rowsAndColumns(order), ...pieces])
}

/**
 * The same grid in which each of these pairs of cells cannot hold the same digit either, though they may share no house. Grids
 * of this kind are not public; a proof holds on them all the same, as it goes by peers and not by houses alone.
 */
export function withFurtherPeers(
  geometry: Geometry,
  name: string,
  pairs: readonly (readonly [number, number])[],
): Geometry {
  const peers = geometry.peersOf.map((known) => new Set(known))
  for (const [one, other] of pairs) {
    peers[one]!.add(other)
    peers[other]!.add(one)
  }
  const extended: Geometry = Object.freeze({
    ...geometry,
    name,
    peersOf: peers.map((known) => [...known].sort((a, b) => a - b)),
    arePeers: (a: number, b: number) => peers[a]!.has(b),
  })
  made.add(extended)
  return extended
}

const checkOrder = whole(0)

/** The standard 9×9 grid with 3×3 boxes. */
export const STANDARD: Geometry = boxedGeometry(3, 3)

/**
 * The box shape meant when only the order is known: boxes as square as they come, wider than high
 * (4: 2×2, 6: 2×3, 8: 2×4, 9: 3×3, 10: 2×5, 12: 3×4, 14: 2×7, 15: 3×5, 16: 4×4), or undefined for prime orders.
 *
 * @throws InputError `argument` for what is no whole number
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
 */
export function cellName(geometry: Geometry, cell: number): string {
  checkCell(geometry, cell)
  return `r${Math.floor(cell / geometry.order) + 1}c${(cell % geometry.order) + 1}`
}
