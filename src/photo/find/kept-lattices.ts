import { meanPoint } from '../frame.js'
import type { GrayImage, Point } from '../image.js'
import { cellSide, type Lattice } from '../lattice.js'

/** Besides a grid this well seen nothing needs to be looked for where another of its size has no room. */
const WELL_SEEN = 0.9
/** A strip beside a grid narrower than this share of its side holds no other grid worth reading. */
const ROOM = 0.6

/** The grids found so far on one picture: at most one at any place, the best seen. */
export class KeptLattices {
  private kept: Lattice[] = []
  private readonly known = new Set<Lattice>()

  constructor(private readonly picture: GrayImage) {}

  get count(): number {
    return this.kept.length
  }

  /**
   * Keeps a lattice unless a better seen one lies where its middle is.
   *
   * @param known it lies where the page network surely sees a grid, so that another that strays from it is wrong
   */
  offer(lattice: Lattice, known = false): void {
    const middle = meanPoint(lattice.points)
    const same = this.kept.filter(
      (other) => covers(other, middle) || covers(lattice, meanPoint(other.points)),
    )
    const isWrong = (other: Lattice) => known && !this.known.has(other) && strays(other, lattice)
    if (same.some((other) => other.support >= lattice.support && !isWrong(other))) return
    this.kept = [...this.kept.filter((other) => !same.includes(other)), lattice]
    if (known) this.known.add(lattice)
  }

  /** Is nothing to be gained from looking here once more: does a grid lie here that is known, or seen so well? */
  isSettledAt(place: Point, wellSeen: number): boolean {
    return this.kept.some(
      (lattice) => (lattice.support >= wellSeen || this.known.has(lattice)) && covers(lattice, place),
    )
  }

  /** How well the grid that lies here was seen; 0 where none does. */
  supportAt(place: Point): number {
    return Math.max(0, ...this.kept.filter((lattice) => covers(lattice, place)).map((l) => l.support))
  }

  /** Is one well-seen grid so large on the picture that another of about its size cannot stand beside it? */
  fillsPicture(wellSeen = WELL_SEEN): boolean {
    const { width, height } = this.picture
    return this.kept.some((lattice) => {
      if (lattice.support < wellSeen) return false
      const corners = outline(lattice)
      const xs = corners.map(({ x }) => x)
      const ys = corners.map(({ y }) => y)
      const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
      const room = ROOM * Math.min(right - left, bottom - top)
      return left < room && top < room && width - right < room && height - bottom < room
    })
  }

  inReadingOrder(): Lattice[] {
    return [...this.kept].sort(readingOrder)
  }
}

/** Crossings this far (in cells) from where a surely seen grid has them are not its own … */
const STRAY = 0.3
/** … unless its rules are seen this well: columns may be of several widths. */
const BEYOND_DOUBT = 0.95

/**
 * Is any crossing of a lattice not where a known one has it, and the lattice not beyond doubt itself?
 *
 * @param reach how far (in cells) the known one may be off itself
 */
export function strays(lattice: Lattice, known: Lattice, reach = STRAY): boolean {
  if (lattice.support >= BEYOND_DOUBT && lattice.order === known.order) return false
  const far = reach * cellSide(known)
  return (
    lattice.order !== known.order ||
    lattice.points.some(({ x, y }, k) => Math.hypot(x - known.points[k]!.x, y - known.points[k]!.y) > far)
  )
}

/** Does a place lie on a lattice? */
export function covers(lattice: Lattice, place: Point): boolean {
  return contains(outline(lattice), place)
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

function contains(outline: readonly Point[], { x, y }: Point): boolean {
  let inside = false
  for (let k = 0; k < outline.length; k++) {
    const a = outline[k]!
    const b = outline[(k + 1) % outline.length]!
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside
  }
  return inside
}
