import type { Point } from '../image.js'
import type { CellQuad } from './quad.js'

/** Cells that lie side by side, each with its place in a common count of columns and rows (from any start). */
export interface Mesh {
  readonly cells: readonly MeshCell[]
}

export interface MeshCell {
  readonly column: number
  readonly row: number
  readonly centre: Point
}

/** Which side of which quad lies against a side; -1 for none. */
type Links = Int32Array

/**
 * Joins quads into meshes. Two quads are neighbours when each, pushed over its side, lands near the other's middle, and
 * their areas are alike. From a first cell the count goes from neighbour to neighbour, so a bent page needs no model:
 * every step is predicted by the cell before.
 */
export function findMeshes(quads: readonly CellQuad[], smallest: number): Mesh[] {
  const links = linkSides(quads)
  const seen = new Uint8Array(quads.length)
  const meshes: Mesh[] = []
  for (let start = 0; start < quads.length; start++) {
    if (seen[start]) continue
    const cells = walk(quads, links, start, seen)
    if (cells.length >= smallest) meshes.push({ cells })
  }
  return meshes.sort((a, b) => b.cells.length - a.cells.length)
}

function linkSides(quads: readonly CellQuad[]): Links {
  const nearby = new PointIndex(quads)
  const links = new Int32Array(quads.length * 4).fill(-1)
  const wish = new Int32Array(quads.length * 4).fill(-1)
  quads.forEach((quad, q) => {
    for (let side = 0; side < 4; side++) {
      const a = quad.corners[side]!
      const b = quad.corners[(side + 1) % 4]!
      const reach = { x: (a.x + b.x) / 2 - quad.centre.x, y: (a.y + b.y) / 2 - quad.centre.y }
      const step = Math.hypot(reach.x, reach.y) * 2
      // A rule lies between the two, so the neighbour is a little further than one cell of free paper.
      const target = { x: quad.centre.x + reach.x * 2.2, y: quad.centre.y + reach.y * 2.2 }
      const other = nearby.nearest(target, step * 0.4, q)
      if (other < 0) continue
      const ratio = quads[other]!.area / quad.area
      if (ratio < 0.4 || ratio > 2.5) continue
      wish[q * 4 + side] = other
    }
  })
  for (let q = 0; q < quads.length; q++) {
    for (let side = 0; side < 4; side++) {
      const other = wish[q * 4 + side]!
      if (other < 0) continue
      for (let k = 0; k < 4; k++) {
        if (wish[other * 4 + k] === q) links[q * 4 + side] = other * 4 + k
      }
    }
  }
  return links
}

function walk(quads: readonly CellQuad[], links: Links, start: number, seen: Uint8Array): MeshCell[] {
  // turn: which side of the quad faces up in the common count
  const places = [{ quad: start, column: 0, row: 0, turn: 0 }]
  const taken = new Set(['0,0'])
  seen[start] = 1
  for (let k = 0; k < places.length; k++) {
    const { quad, column, row, turn } = places[k]!
    for (let direction = 0; direction < 4; direction++) {
      const link = links[quad * 4 + ((turn + direction) & 3)]!
      if (link < 0) continue
      const other = link >> 2
      if (seen[other]) continue
      const next = {
        quad: other,
        column: column + [0, 1, 0, -1][direction]!,
        row: row + [-1, 0, 1, 0][direction]!,
        // the side we came in by faces opposite to the way we went
        turn: ((link & 3) - direction + 2 + 4) & 3,
      }
      const key = `${next.column},${next.row}`
      if (taken.has(key)) continue
      taken.add(key)
      seen[other] = 1
      places.push(next)
    }
  }
  return places.map(({ quad, column, row }) => ({ column, row, centre: quads[quad]!.centre }))
}

/** Quads by where their middles lie, in square buckets. */
class PointIndex {
  private readonly buckets = new Map<number, number[]>()
  private static readonly SIDE = 32

  constructor(private readonly quads: readonly CellQuad[]) {
    quads.forEach(({ centre }, k) => {
      const key = PointIndex.key(
        Math.floor(centre.x / PointIndex.SIDE),
        Math.floor(centre.y / PointIndex.SIDE),
      )
      const bucket = this.buckets.get(key)
      if (bucket) bucket.push(k)
      else this.buckets.set(key, [k])
    })
  }

  nearest({ x, y }: Point, radius: number, except: number): number {
    const side = PointIndex.SIDE
    let best = -1
    let least = radius
    for (let v = Math.floor((y - radius) / side); v <= Math.floor((y + radius) / side); v++) {
      for (let u = Math.floor((x - radius) / side); u <= Math.floor((x + radius) / side); u++) {
        for (const k of this.buckets.get(PointIndex.key(u, v)) ?? []) {
          const { centre } = this.quads[k]!
          const away = Math.hypot(centre.x - x, centre.y - y)
          if (k !== except && away < least) {
            least = away
            best = k
          }
        }
      }
    }
    return best
  }

  private static key(u: number, v: number): number {
    return (v + 4096) * 65536 + (u + 4096)
  }
}
