import { throwIfAborted } from '../../errors.js'
import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { fitGrid, ShrunkCopies } from './fit-grid.js'
import { findMeshes } from './mesh.js'
import { type CellQuad, cellQuad } from './quad.js'
import { findRegions } from './regions.js'
import { ridgeMap } from './ridges.js'
import { strokeMap } from './strokes.js'

export interface FindOptions {
  readonly signal?: AbortSignal
}

/** More than any strength. */
const NEVER = 1001
/** Grids are looked for on a copy whose longer side is at most this. */
const SEARCH_SIDE = 800
/** A ridge must be this strong, in thousandths of the paper, to bound a cell: for ordinary rules, for noisy pictures, for faint rules. */
const RIDGE_LEVELS = [30, 60, 15] as const
/** The same for straight strokes: dark ones, fainter ones, light ones on dark ground, then whatever parts one ground from another. */
const STROKE_LEVELS = [
  { dark: 20, light: NEVER, edge: NEVER },
  { dark: 9, light: NEVER, edge: NEVER },
  { dark: NEVER, light: 15, edge: 120 },
  { dark: 15, light: 15, edge: 60 },
] as const
const SMALLEST_CELL = 8
const SMALLEST_MESH = 4

/**
 * Finds the printed grids of a picture, in reading order; an empty list when there is none.
 *
 * Rules part the paper into cells whatever the light, so cells are found first: patches of paper bounded by thin dark
 * lines, four-sided, side by side. A mesh of such cells suggests a grid; rules are then looked for where that grid says
 * they run, and only a grid whose rules are seen on all sides is kept. Faint, broken and light rules, and grounds of
 * different shades without rules, are tried when no clear dark rules are found.
 */
export function findLattices(image: GrayImage, options: FindOptions = {}): Lattice[] {
  const { signal } = options
  const factor = Math.ceil(Math.max(image.width, image.height) / SEARCH_SIDE)
  const copies = new ShrunkCopies(image)
  const kept: Lattice[] = []
  for (const blocked of barriers(copies.by(factor))) {
    throwIfAborted(signal)
    const quads = findQuads(blocked)
    for (const mesh of findMeshes(quads, SMALLEST_MESH)) {
      const { x, y } = meanPoint(mesh.cells.map(({ centre }) => centre))
      if (isCovered({ x: x * factor, y: y * factor }, kept)) continue
      const lattice = fitGrid(copies, factor, mesh, quads)
      if (lattice && !isCovered(meanPoint(lattice.points), kept)) kept.push(lattice)
    }
    if (blocked.lastOfKind && kept.length > 0) break
  }
  return kept.sort(readingOrder)
}

/** What parts the paper into cells: 1 where a rule may run, 0 on free paper. */
interface Barrier {
  readonly width: number
  readonly height: number
  readonly blocked: Uint8Array
  /** The next barrier costs more, and is needed only when nothing has been found. */
  readonly lastOfKind: boolean
}

/** Ever more sensitive views of where rules may run, made one by one as they are asked for. */
function* barriers(search: GrayImage): Generator<Barrier> {
  const { width, height } = search
  const ridges = ridgeMap(search)
  const blocked = new Uint8Array(width * height)
  for (const level of RIDGE_LEVELS) {
    for (let i = 0; i < blocked.length; i++) blocked[i] = ridges.strength[i]! > level ? 1 : ridges.dark[i]!
    yield { width, height, blocked, lastOfKind: level === RIDGE_LEVELS.at(-1) }
  }
  const strokes = strokeMap(search)
  for (const { dark, light, edge } of STROKE_LEVELS) {
    const darkGround = light < NEVER
    for (let i = 0; i < blocked.length; i++) {
      const barred = strokes.dark[i]! > dark || strokes.light[i]! > light || strokes.edge[i]! > edge
      blocked[i] = barred ? 1 : darkGround ? 0 : ridges.dark[i]!
    }
    yield { width, height, blocked, lastOfKind: true }
  }
}

function findQuads({ width, height, blocked }: Barrier): CellQuad[] {
  const quads: CellQuad[] = []
  for (const region of findRegions(blocked, width, height, SMALLEST_CELL, Math.max(width, height) / 3)) {
    const quad = cellQuad(region)
    if (quad) quads.push(quad)
  }
  return quads
}

function isCovered(place: Point, lattices: readonly Lattice[]): boolean {
  return lattices.some((lattice) => contains(outline(lattice), place))
}

function outline({ order, points }: Lattice): Point[] {
  const side = order + 1
  return [points[0]!, points[order]!, points[side * side - 1]!, points[side * order]!]
}

function readingOrder(a: Lattice, b: Lattice): number {
  const [ca, cb] = [meanPoint(a.points), meanPoint(b.points)]
  const heights = outline(a).map(({ y }) => y)
  const height = Math.max(...heights) - Math.min(...heights)
  return Math.abs(ca.y - cb.y) > height / 2 ? ca.y - cb.y : ca.x - cb.x
}

function meanPoint(points: readonly Point[]): Point {
  let x = 0
  let y = 0
  for (const p of points) {
    x += p.x
    y += p.y
  }
  return { x: x / points.length, y: y / points.length }
}

function contains(outline: readonly Point[], { x, y }: Point): boolean {
  let inside = false
  for (let k = 0; k < outline.length; k++) {
    const a = outline[k]!
    const b = outline[(k + 1) % outline.length]!
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside
  }
  return inside
}
