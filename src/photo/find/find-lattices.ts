import { throwIfAborted } from '../../errors.js'
import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { shrink } from '../raster/shrink.js'
import { adoptCells, cellSize, extentOf, mapOfMesh } from './grid-map.js'
import { findMeshes, type Mesh } from './mesh.js'
import { type CellQuad, cellQuad } from './quad.js'
import { type RefinedGrid, refineGrid } from './refine.js'
import { findRegions } from './regions.js'
import { type RidgeMap, ridgeMap } from './ridges.js'
import { findWindow } from './window.js'

export interface FindOptions {
  readonly signal?: AbortSignal
}

/** Grids are looked for on a copy whose longer side is at most this; refined on one where a cell is about `REFINED_CELL` pixels. */
const SEARCH_SIDE = 800
const REFINED_CELL = 48
/** A ridge must be this strong, in thousandths of the paper, to bound a cell: once for faint rules, once for noisy pictures. */
const RIDGE_LEVELS = [30, 60, 15] as const
const SMALLEST_CELL = 8
const SMALLEST_MESH = 9

/**
 * Finds the printed grids of a picture, in reading order; an empty list when there is none.
 *
 * Rules part the paper into cells whatever the light, so cells are found first: patches of paper bounded by thin dark
 * lines, four-sided, side by side. A mesh of such cells suggests a grid; rules are then looked for where that grid says
 * they run, and only a grid whose rules are seen on all sides is kept. Light rules on dark ground are tried when no
 * dark rules are found.
 */
export function findLattices(image: GrayImage, options: FindOptions = {}): Lattice[] {
  const found = findDark(image, options.signal)
  if (found.length > 0) return found
  return findDark(inverted(image), options.signal)
}

function findDark(image: GrayImage, signal: AbortSignal | undefined): Lattice[] {
  const factor = Math.ceil(Math.max(image.width, image.height) / SEARCH_SIDE)
  const search = shrink(image, factor)
  const ridges = ridgeMap(search)
  const copies = new Map<number, GrayImage>([[factor, search]])
  const kept: Candidate[] = []
  for (const level of RIDGE_LEVELS) {
    throwIfAborted(signal)
    const quads = findQuads(ridges, level)
    for (const mesh of findMeshes(quads, SMALLEST_MESH)) {
      const middle = meanPoint(mesh.cells.map(({ centre }) => centre))
      if (kept.some((other) => contains(other.outline, middle))) continue
      const candidate = tryMesh(image, search, factor, copies, mesh, quads)
      if (candidate) kept.push(candidate)
    }
  }
  return kept.sort((a, b) => readingOrder(a, b)).map(({ lattice }) => lattice)
}

interface Candidate {
  readonly lattice: Lattice
  /** The four outer corners, on the search copy. */
  readonly outline: readonly Point[]
}

function findQuads({ width, height, strength, dark }: RidgeMap, level: number): CellQuad[] {
  const blocked = new Uint8Array(strength.length)
  for (let i = 0; i < blocked.length; i++) blocked[i] = strength[i]! > level ? 1 : dark[i]!
  const quads: CellQuad[] = []
  for (const region of findRegions(blocked, width, height, SMALLEST_CELL, Math.max(width, height) / 3)) {
    const quad = cellQuad(region)
    if (quad) quads.push(quad)
  }
  return quads
}

function tryMesh(
  image: GrayImage,
  search: GrayImage,
  factor: number,
  copies: Map<number, GrayImage>,
  mesh: Mesh,
  quads: readonly CellQuad[],
): Candidate | undefined {
  let members = [...mesh.cells]
  let first = mapOfMesh(members, extentOf(members))
  for (let round = 0; round < 3 && first; round++) {
    const more = adoptCells(members, first, quads)
    if (more.length === members.length) break
    members = more
    first = mapOfMesh(members, extentOf(members))
  }
  if (!first) return undefined
  const window = findWindow(search, first)
  if (!window) return undefined
  const { left, top, order } = window

  const size = cellSize(first) * factor
  const fine = Math.max(1, Math.round(size / REFINED_CELL))
  let copy = copies.get(fine)
  if (!copy) {
    copy = shrink(image, fine)
    copies.set(fine, copy)
  }
  const scale = factor / fine
  const cells = members
    .filter(({ column, row }) => column >= left && column < left + order && row >= top && row < top + order)
    .map(({ column, row, centre }) => ({
      column: column - left,
      row: row - top,
      centre: { x: centre.x * scale, y: centre.y * scale },
    }))
  const map = mapOfMesh(cells, { left: 0, top: 0, right: order, bottom: order })
  if (!map) return undefined
  const refined = refineGrid(copy, map, order)
  const support = judge(refined)
  if (support === undefined) return undefined
  const points = uprightFirst(
    refined.points.map(({ x, y }) => ({ x: x * fine, y: y * fine })),
    order,
  )
  const cut =
    [...refined.across, ...refined.down].some(({ inside }) => inside < SEEN_ENOUGH) ||
    points.some(({ x, y }) => x < 0 || y < 0 || x > image.width || y > image.height)
  const corner = (k: number) => ({ x: points[k]!.x / factor, y: points[k]!.y / factor })
  return {
    lattice: { order, points, cut, support },
    outline: [corner(0), corner(order), corner((order + 1) ** 2 - 1), corner(order * (order + 1))],
  }
}

/** A rule of which less than this lies well inside the picture is not held against a grid; the grid is cut. */
const SEEN_ENOUGH = 0.3
const LEAST_RULE = 0.5
const LEAST_SUPPORT = 0.75

/** Mean support over all rules, or `undefined` when a rule is missing or too much is unseen. */
function judge({ across, down }: RefinedGrid): number | undefined {
  const seen = [...across, ...down].filter(({ inside }) => inside >= SEEN_ENOUGH)
  if (seen.some(({ share }) => share < LEAST_RULE)) return undefined
  const mean = seen.reduce((sum, { share }) => sum + share, 0) / seen.length
  return mean < LEAST_SUPPORT ? undefined : mean
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

function readingOrder(a: Candidate, b: Candidate): number {
  const [ca, cb] = [meanPoint(a.outline), meanPoint(b.outline)]
  const height = Math.max(...a.outline.map((p) => p.y)) - Math.min(...a.outline.map((p) => p.y))
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

function inverted({ width, height, data }: GrayImage): GrayImage {
  return { width, height, data: data.map((value) => 255 - value) }
}
