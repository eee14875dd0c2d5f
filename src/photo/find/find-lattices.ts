import { throwIfAborted } from '../../errors.js'
import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { GreyLevels } from '../raster/grey-levels.js'
import { fitFrame, fitGrid, ShrunkCopies } from './fit-grid.js'
import { findFrames } from './frames.js'
import { findMeshes } from './mesh.js'
import { type CellQuad, cellQuad } from './quad.js'
import { findRegions } from './regions.js'
import { ridgeMap } from './ridges.js'
import { looksTaken } from './rule-readings.js'
import { type StrokeMap, strokeMap } from './strokes.js'

export interface FindOptions {
  readonly signal?: AbortSignal
}

/** More than any strength. */
const NEVER = 1001
/** Grids are looked for on a copy whose longer side is at most this. */
const SEARCH_SIDE = 800
const FINE_SEARCH_SIDE = 1600
/** A ridge must be this strong, in thousandths of the paper, to bound a cell: for ordinary rules, for noisy pictures, for faint rules. */
const DARK_LEVELS = [30, 60, 15] as const
const LIGHT_LEVELS = [60, 25] as const
const FINE_LEVELS = [30, 12] as const
const FRAME_LEVELS = [30, 15, 60] as const
/** A grid takes up at least about this share of a picture. */
const DARK_GROUND_SHARE = 0.06
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
 * Looks across a rule that trying meshes may cost on one picture. Of 253 drawn and real photos with grids, the last grid
 * was found after at most 32,000; walls, crosswords and spreadsheets would take ten times as many, in vain.
 */
const MOST_LOOKS = 100_000
/** Of each view only the largest meshes are tried: a page of small print has hundreds. */
const MOST_MESHES = 12

/**
 * Finds the printed grids of a picture, in reading order; an empty list when there is none.
 *
 * Rules part the paper into cells whatever the light, so cells are found first: patches of paper bounded by thin dark
 * lines, four-sided, side by side. A mesh of such cells suggests a grid; rules are then looked for where that grid says
 * they run, and only a grid whose rules are seen on all sides is kept. Faint, broken and light rules, and grounds of
 * different shades without rules, are tried when no clear dark rules are found.
 */
export function findLattices(image: GrayImage, options: FindOptions = {}): Lattice[] {
  const search = latticeSearch(image)
  for (;;) {
    throwIfAborted(options.signal)
    const step = search.next()
    if (step.done) return step.value
  }
}

/** The same in small steps, so that a caller can do something else, or stop, between them. */
export function* latticeSearch(image: GrayImage): Generator<void, Lattice[]> {
  const copies = new ShrunkCopies(image)
  const kept: Lattice[] = []
  let looks = 0
  const mayLook = () => looks < MOST_LOOKS
  for (const { longestSide, needed, views, seek } of STAGES) {
    const factor = Math.ceil(Math.max(image.width, image.height) / longestSide)
    const search = copies.by(factor)
    if (!needed(kept.length, search)) continue
    const isFree = ({ x, y }: Point) => !isCovered({ x: x * factor, y: y * factor }, kept)
    for (const blocked of views(search)) {
      yield
      if (fillsPicture(kept, image)) break
      let before = looksTaken()
      for (const lattice of seek({ copies, factor, blocked, isFree, mayLook })) {
        looks += looksTaken() - before
        if (lattice && !isCovered(meanPoint(lattice.points), kept)) kept.push(lattice)
        yield
        before = looksTaken()
      }
    }
  }
  return kept.sort(readingOrder)
}

/** A way to tell where rules may run. */
interface Stage {
  /** It works on a copy of the picture whose longer side is at most this. */
  readonly longestSide: number
  /** Is it worth its time, after so many grids were found? */
  needed(found: number, search: GrayImage): boolean
  /** Pictures of what parts the paper into cells: 1 where a rule may run, 0 on free paper; made as they are asked for. */
  views(search: GrayImage): Generator<Uint8Array>
  /** What grids a view shows, as they are fitted; `undefined` for each try in vain. */
  seek(view: View): Iterable<Lattice | undefined>
}

interface View {
  readonly copies: ShrunkCopies
  /** The view is that of the copy shrunk by this. */
  readonly factor: number
  readonly blocked: Uint8Array
  /** Does no grid that is kept already lie here? */
  isFree(place: Point): boolean
  /** Is there anything left of the looks that trying meshes may cost? */
  mayLook(): boolean
}

const STAGES: readonly Stage[] = [
  {
    longestSide: SEARCH_SIDE,
    needed: () => true,
    views: (search) => ridgeViews(search, DARK_LEVELS),
    seek: seekMeshes,
  },
  {
    longestSide: SEARCH_SIDE,
    needed: (found, search) => found === 0 || hasDarkGround(search),
    views: (search) => ridgeViews(inverted(search), LIGHT_LEVELS),
    seek: seekMeshes,
  },
  { longestSide: SEARCH_SIDE, needed: (found) => found === 0, views: strokeViews, seek: seekMeshes },
  // small cells full of ink leave too little paper on a small copy
  {
    longestSide: FINE_SEARCH_SIDE,
    needed: (found, { width, height }) => found === 0 && Math.max(width, height) > SEARCH_SIDE,
    views: (search) => ridgeViews(search, FINE_LEVELS),
    seek: seekMeshes,
  },
  // grids of which too few cells are closed may still have a frame
  {
    longestSide: SEARCH_SIDE,
    needed: () => true,
    views: (search) => ridgeViews(search, FRAME_LEVELS),
    seek: seekFrames,
  },
  { longestSide: SEARCH_SIDE, needed: (found) => found === 0, views: strokeViews, seek: seekFrames },
]

function* seekMeshes({ copies, factor, blocked, isFree, mayLook }: View): Generator<Lattice | undefined> {
  const quads = findQuads(copies.by(factor), blocked)
  for (const mesh of findMeshes(quads, SMALLEST_MESH).slice(0, MOST_MESHES)) {
    if (!mayLook()) return
    if (isFree(meanPoint(mesh.cells.map(({ centre }) => centre)))) yield fitGrid(copies, factor, mesh, quads)
  }
}

/** The best seen first: several outlines may fit one grid, one of them with a title bar or a line of text too much. */
function* seekFrames({ copies, factor, blocked, isFree }: View): Generator<Lattice | undefined> {
  const { width, height } = copies.by(factor)
  const fitted: Lattice[] = []
  for (const frame of findFrames(blocked, width, height)) {
    if (!isFree(frame.centre)) continue
    const lattice = fitFrame(copies, factor, frame)
    if (lattice) fitted.push(lattice)
    yield undefined
  }
  yield* fitted.sort((a, b) => b.support - a.support)
}

function* ridgeViews(search: GrayImage, levels: readonly number[]): Generator<Uint8Array> {
  const { strength, dark } = ridgeMap(search)
  const blocked = new Uint8Array(strength.length)
  for (const level of levels) {
    block(blocked, strength, dark, level)
    yield blocked
  }
}

/** Apart from the generator, whose loops run slowly. */
function block(blocked: Uint8Array, strength: Uint16Array, dark: Uint8Array, level: number): void {
  // without a branch, which noise would make the processor guess wrong: the sign of `level - strength` is the answer
  for (let i = 0; i < blocked.length; i++) blocked[i] = dark[i]! | ((level - strength[i]!) >>> 31)
}

function* strokeViews(search: GrayImage): Generator<Uint8Array> {
  const strokes = strokeMap(search)
  const blocked = new Uint8Array(strokes.dark.length)
  for (const levels of STROKE_LEVELS) {
    blockStrokes(blocked, strokes, levels)
    yield blocked
  }
}

function blockStrokes(
  blocked: Uint8Array,
  strokes: StrokeMap,
  { dark, light, edge }: (typeof STROKE_LEVELS)[number],
): void {
  for (let i = 0; i < blocked.length; i++) {
    blocked[i] = ((dark - strokes.dark[i]!) | (light - strokes.light[i]!) | (edge - strokes.edge[i]!)) >>> 31
  }
}

function inverted({ width, height, data }: GrayImage): GrayImage {
  const turned = new Uint8Array(data.length)
  for (let i = 0; i < data.length; i++) turned[i] = 255 - data[i]!
  return { width, height, data: turned }
}

/** Is a good part of the picture so dark, against its paper, that a grid may be printed light on dark there? */
function hasDarkGround({ data }: GrayImage): boolean {
  const levels = new GreyLevels()
  for (let i = 0; i < data.length; i += 7) levels.add(data[i]!)
  return levels.at(DARK_GROUND_SHARE) < 0.45 * levels.at(0.8)
}

function findQuads({ width, height }: GrayImage, blocked: Uint8Array): CellQuad[] {
  const quads: CellQuad[] = []
  for (const region of findRegions(blocked, width, height, SMALLEST_CELL, Math.max(width, height) / 3)) {
    const quad = cellQuad(region)
    if (quad) quads.push(quad)
  }
  return quads
}

/** Besides a grid this well seen nothing needs to be looked for where another of its size has no room. */
const WELL_SEEN = 0.9
/** A strip beside a grid narrower than this share of its side holds no other grid worth reading. */
const ROOM = 0.6

/** Is one well-seen grid so large on the picture that another of about its size cannot stand beside it? */
function fillsPicture(kept: readonly Lattice[], { width, height }: GrayImage): boolean {
  return kept.some((lattice) => {
    if (lattice.support < WELL_SEEN) return false
    const corners = outline(lattice)
    const xs = corners.map(({ x }) => x)
    const ys = corners.map(({ y }) => y)
    const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
    const room = ROOM * Math.min(right - left, bottom - top)
    return left < room && top < room && width - right < room && height - bottom < room
  })
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
