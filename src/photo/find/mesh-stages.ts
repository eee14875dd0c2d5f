import { meanPoint } from '../frame.js'
import type { GrayImage } from '../image.js'
import { GreyLevels } from '../raster/grey-levels.js'
import { fitGrid, type ShrunkCopies } from './fit-grid.js'
import type { KeptLattices } from './kept-lattices.js'
import { findMeshes } from './mesh.js'
import { type CellQuad, cellQuad } from './quad.js'
import { type BlockedPixels, findRegions } from './regions.js'
import { ridgeMap } from './ridges.js'
import { looksTaken } from './rule-readings.js'
import { type StrokeMap, strokeMap } from './strokes.js'

/** More than any strength. */
const NEVER = 1001
/** Grids are looked for on a copy whose longer side is at most this. */
const SEARCH_SIDE = 800
const FINE_SEARCH_SIDE = 1600
/**
 * A ridge must be this strong, in thousandths of the paper, to bound a cell: for ordinary rules; for noisy pictures,
 * for faint rules.
 */
const CLEAR_LEVELS = [30] as const
const DARK_LEVELS = [60, 15] as const
const LIGHT_LEVELS = [60, 25] as const
const FINE_LEVELS = [30, 12] as const
/** A grid takes up at least about this share of a picture. */
const DARK_GROUND_SHARE = 0.06
/**
 * The same for straight strokes: dark ones, fainter ones, light ones on dark ground, then whatever parts one ground
 * from another.
 */
const STROKE_LEVELS = [
  { dark: 20, light: NEVER, edge: NEVER },
  { dark: 9, light: NEVER, edge: NEVER },
  { dark: NEVER, light: 15, edge: 120 },
  { dark: 15, light: 15, edge: 60 },
] as const
const SMALLEST_CELL = 8
const SMALLEST_MESH = 4
/**
 * Looks across a rule that trying meshes may cost on one picture. Of 253 drawn and real photos with grids, the last
 * grid was found after at most 32,000; walls, crosswords and spreadsheets would take ten times as many, without finding
 * one.
 */
export const MOST_LOOKS = 100_000
/** Of each view only the largest meshes are tried: a page of small print has hundreds. */
const MOST_MESHES = 12

/** A way to tell where rules may run. */
interface MeshStage {
  /** It works on a copy of the picture whose longer side is at most this. */
  readonly longestSide: number
  /** Is it worth its time, after so many grids were found? */
  needed(found: number, search: GrayImage): boolean
  /** Pictures of what parts the paper into cells, made as they are asked for. */
  views(search: GrayImage): Generator<BlockedPixels>
}

/** Clear dark rules first; what costs more, or may show what is none, only where nothing was found. */
export const MESH_STAGES: readonly MeshStage[] = [
  {
    longestSide: SEARCH_SIDE,
    needed: () => true,
    views: (search) => ridgeViews(search, CLEAR_LEVELS),
  },
  {
    longestSide: SEARCH_SIDE,
    needed: () => true,
    views: (search) => ridgeViews(search, DARK_LEVELS),
  },
  {
    longestSide: SEARCH_SIDE,
    needed: (found, search) => found === 0 || hasDarkGround(search),
    views: (search) => ridgeViews(inverted(search), LIGHT_LEVELS),
  },
  { longestSide: SEARCH_SIDE, needed: (found) => found === 0, views: strokeViews },
  // small cells full of ink leave too little paper on a small copy
  {
    longestSide: FINE_SEARCH_SIDE,
    needed: (found, { width, height }) => found === 0 && Math.max(width, height) > SEARCH_SIDE,
    views: (search) => ridgeViews(search, FINE_LEVELS),
  },
]

/** Offers what grids the meshes of a stage's views show; in small steps, so that a caller can stop between them. */
export function* searchMeshes(
  { longestSide, needed, views }: MeshStage,
  copies: ShrunkCopies,
  kept: KeptLattices,
  budget: LookBudget,
): Generator<void> {
  const { width, height } = copies.full
  const factor = Math.ceil(Math.max(width, height) / longestSide)
  const search = copies.by(factor)
  if (!needed(kept.count, search)) return
  for (const blocked of views(search)) {
    yield
    if (kept.fillsPicture()) return
    const quads = findQuads(search, blocked)
    yield
    for (const mesh of findMeshes(quads, SMALLEST_MESH).slice(0, MOST_MESHES)) {
      if (budget.left <= 0) break
      const { x, y } = meanPoint(mesh.cells.map(({ centre }) => centre))
      if (kept.supportAt({ x: x * factor, y: y * factor }) > 0) continue
      const lattice = yield* payingLooks(fitGrid(copies, factor, mesh, quads), budget)
      if (lattice) kept.offer(lattice)
      yield
    }
  }
}

/** Goes on with work step by step; looks that others take between its steps are not paid for. */
function* payingLooks<T>(work: Generator<void, T>, budget: LookBudget): Generator<void, T> {
  for (;;) {
    const before = looksTaken()
    const step = work.next()
    budget.left -= looksTaken() - before
    if (step.done) return step.value
    yield
  }
}

/** Looks across rules that may still be spent on one picture. */
export interface LookBudget {
  left: number
}

function* ridgeViews(search: GrayImage, levels: readonly number[]): Generator<BlockedPixels> {
  const strength = ridgeMap(search)
  for (const level of levels) yield { strength, level }
}

function* strokeViews(search: GrayImage): Generator<BlockedPixels> {
  const strokes = strokeMap(search)
  const strength = new Uint16Array(strokes.dark.length)
  for (const levels of STROKE_LEVELS) {
    blockStrokes(strength, strokes, levels)
    yield { strength, level: 0 }
  }
}

/** Apart from the generator, whose loops run slowly. */
function blockStrokes(
  strength: Uint16Array,
  strokes: StrokeMap,
  { dark, light, edge }: (typeof STROKE_LEVELS)[number],
): void {
  // without a branch, which noise would make the processor guess wrong: the sign of `level - strength` is the answer
  for (let i = 0; i < strength.length; i++) {
    strength[i] = ((dark - strokes.dark[i]!) | (light - strokes.light[i]!) | (edge - strokes.edge[i]!)) >>> 31
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

function findQuads({ width, height }: GrayImage, blocked: BlockedPixels): CellQuad[] {
  const quads: CellQuad[] = []
  for (const region of findRegions(blocked, width, height, SMALLEST_CELL, Math.max(width, height) / 3)) {
    const quad = cellQuad(region)
    if (quad) quads.push(quad)
  }
  return quads
}
