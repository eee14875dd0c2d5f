import { checkGeometry, type Geometry } from './geometry.js'

/** What a house is on the page. Regions are the irregular pieces of a jigsaw grid, boxes the rectangular ones. */
export const HOUSE_KINDS = ['row', 'column', 'box', 'region', 'diagonal'] as const
/** What sort of house it is. */
export type HouseKind = (typeof HOUSE_KINDS)[number]

/** A set of cells that holds each digit once. */
export interface House {
  /** Position in `layout.houses`. */
  readonly index: number
  readonly kind: HouseKind
  /** Number within its kind, from 1: row 1 is the top one, box 1 the top left one. */
  readonly number: number
  /** Cell numbers in reading order; always `order` of them. */
  readonly cells: readonly number[]
  /** As people write it: `row 1`, `column 4`, `box 9`. */
  readonly name: string
}

/** What follows from a geometry: its houses, and who sees whom. Techniques and counters ask it and never assume 9. */
export interface Layout {
  readonly order: number
  readonly cellCount: number
  readonly houses: readonly House[]
  /** cell -> indices of its houses, in the order row, column, box or region, extras. */
  readonly housesOf: readonly (readonly number[])[]
  /**
   * cell -> cells that cannot hold the same digit, ascending: those that share a house with it, and any further peers.
   */
  readonly peersOf: readonly (readonly number[])[]
  /** Can two different cells not hold the same digit? */
  arePeers(a: number, b: number): boolean
  /** Position of a cell within a house (0-based), or -1. */
  positionIn(house: number, cell: number): number
}

const byObject = new WeakMap<Geometry, Layout>()
/** By the geometry's key, so that copies share one layout; an entry lasts as long as a geometry that has the layout. */
const byKey = new Map<string, WeakRef<Layout>>()
const dropped = new FinalizationRegistry((key: string) => {
  if (byKey.get(key)?.deref() === undefined) byKey.delete(key)
})

/**
 * The layout of a geometry, worked out once; geometries with the same key have the same one. Loops that run often
 * look it up once, before they begin.
 *
 * @throws InputError `argument` for what is no geometry
 *
 * @example
 * const { houses, peersOf } = layoutOf(STANDARD)
 * houses.length // → 27
 * peersOf[0]!.length // → 20
 */
export function layoutOf(geometry: Geometry): Layout {
  return byObject.get(geometry) ?? lookUp(geometry)
}

function lookUp(geometry: Geometry): Layout {
  checkGeometry(geometry)
  let layout = byKey.get(geometry.key)?.deref()
  if (!layout) {
    layout = makeLayout(geometry)
    byKey.set(geometry.key, new WeakRef(layout))
    dropped.register(layout, geometry.key)
  }
  byObject.set(geometry, layout)
  return layout
}

function makeLayout(geometry: Geometry): Layout {
  const { order, cellCount, furtherPeers = [] } = geometry
  const counters = new Map<HouseKind, number>()
  const houses: House[] = houseShapes(geometry).map(({ kind, cells }, index) => {
    const number = (counters.get(kind) ?? 0) + 1
    counters.set(kind, number)
    return { index, kind, number, cells, name: `${kind} ${number}` }
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
  for (const [one, other] of furtherPeers) sees[one * cellCount + other] = sees[other * cellCount + one] = 1
  const peersOf = housesOf.map((_, cell) => {
    const peers: number[] = []
    for (let other = 0; other < cellCount; other++) if (sees[cell * cellCount + other]) peers.push(other)
    return peers
  })
  return Object.freeze({
    order,
    cellCount,
    houses,
    housesOf,
    peersOf,
    arePeers: (a: number, b: number) => sees[a * cellCount + b] === 1,
    positionIn: (house: number, cell: number) => position[house * cellCount + cell]!,
  })
}

interface HouseShape {
  readonly kind: HouseKind
  /** In reading order. */
  readonly cells: readonly number[]
}

function houseShapes({ order, box, regions, diagonals }: Geometry): HouseShape[] {
  const line = Array.from({ length: order }, (_, i) => i)
  const rows = line.map((r) => ({ kind: 'row' as const, cells: line.map((c) => r * order + c) }))
  const columns = line.map((c) => ({ kind: 'column' as const, cells: line.map((r) => r * order + c) }))
  const pieces = regions ? regionCells(order, regions) : boxCells(box!.rows, box!.columns)
  const kind: HouseKind = regions && !areBoxes(pieces) ? 'region' : 'box'
  const houses: HouseShape[] = [...rows, ...columns, ...pieces.map((cells) => ({ kind, cells }))]
  if (diagonals) {
    houses.push({ kind: 'diagonal', cells: line.map((i) => i * order + i) })
    houses.push({ kind: 'diagonal', cells: line.map((i) => i * order + order - 1 - i) })
  }
  return houses
}

function regionCells(order: number, regions: readonly number[]): number[][] {
  const pieces: number[][] = Array.from({ length: order }, () => [])
  regions.forEach((region, cell) => {
    pieces[region]!.push(cell)
  })
  return pieces
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
function areBoxes(pieces: readonly (readonly number[])[]): boolean {
  const order = pieces.length
  return pieces.some((_, i) => {
    const rows = i + 1
    if (rows === 1 || rows === order || order % rows !== 0) return false
    return boxCells(rows, order / rows).every((cells, box) => cells.join() === pieces[box]!.join())
  })
}
