import type { InnerSide } from './wall-odds.js'

/** A way to part a grid into regions. */
export interface Parted {
  /** cell -> number of its region, in reading order. */
  readonly regions: readonly number[]
  /** Nats of all sides that look otherwise. */
  readonly cost: number
}

/** Decisions that are tried at most: a plain grid takes some two a cell. */
const DECISIONS_AT_MOST = 10_000
/** Costs up to which ways are looked for, one limit after the other, in nats for each cell. */
const LIMITS = [0.05, 0.15, 0.5] as const

/**
 * The likeliest ways to part a grid into as many regions as it has rows, each in one piece and of as many cells, the
 * cheapest first: one, or two where the next is not far behind. Regions grow from the first free cell, cell by cell in
 * or out, the likelier first; a branch ends where it costs more than is still of use.
 *
 * @param mostCost ways that cost this much or more are of no use
 * @param farBehind so much dearer than the cheapest is far behind
 */
export function likeliestRegions(
  sides: readonly InnerSide[],
  order: number,
  mostCost: number,
  farBehind: number,
): Parted[] {
  for (const perCell of LIMITS) {
    const limit = Math.min(mostCost, perCell * order * order)
    const found = new RegionSearch(sides, order, limit, farBehind).run()
    if (found.length > 0 || limit === mostCost) return found
  }
  return []
}

const FREE = -1

class RegionSearch {
  /** cell -> its region; FREE while it has none. */
  readonly #regions: number[]
  /** cell -> 1 + the region that it was left out of, while that grows. */
  readonly #leftOut: number[]
  readonly #neighbours: { readonly cell: number; readonly odds: number }[][]
  readonly #found: Parted[] = []
  #decisions = 0

  constructor(
    sides: readonly InnerSide[],
    readonly order: number,
    readonly limit: number,
    readonly farBehind: number,
  ) {
    const cellCount = order * order
    this.#regions = new Array<number>(cellCount).fill(FREE)
    this.#leftOut = new Array<number>(cellCount).fill(0)
    this.#neighbours = Array.from({ length: cellCount }, () => [])
    for (const { cells, odds } of sides) {
      this.#neighbours[cells[0]]!.push({ cell: cells[1], odds })
      this.#neighbours[cells[1]]!.push({ cell: cells[0], odds })
    }
  }

  run(): Parted[] {
    this.#begin(0, 0)
    return this.#found
  }

  #isDear(cost: number): boolean {
    const [best, next] = this.#found
    return cost >= Math.min(this.limit, next?.cost ?? this.limit, (best?.cost ?? this.limit) + this.farBehind)
  }

  #begin(region: number, cost: number): void {
    if (region === this.order) {
      this.#found.push({ regions: [...this.#regions], cost })
      this.#found.sort((a, b) => a.cost - b.cost)
      this.#found.length = Math.min(this.#found.length, 2)
      return
    }
    if (!this.#restFits()) return
    const first = this.#regions.indexOf(FREE)
    this.#regions[first] = region
    this.#grow([first], region, cost)
    this.#regions[first] = FREE
  }

  #grow(members: number[], region: number, cost: number): void {
    if (this.#isDear(cost) || ++this.#decisions > DECISIONS_AT_MOST) return
    if (members.length === this.order) {
      this.#begin(region + 1, cost + this.#closing(members, region))
      return
    }
    const cell = this.#nextBeside(members, region)
    if (cell === undefined) return
    const within = cost + this.#costWithin(cell, region)
    const outside = cost + this.#costOutside(cell, region)
    const takeIn = () => {
      this.#regions[cell] = region
      members.push(cell)
      this.#grow(members, region, within)
      members.pop()
      this.#regions[cell] = FREE
    }
    const leaveOut = () => {
      this.#leftOut[cell] = region + 1
      this.#grow(members, region, outside)
      this.#leftOut[cell] = 0
    }
    if (within <= outside) {
      takeIn()
      leaveOut()
    } else {
      leaveOut()
      takeIn()
    }
  }

  /** The free cell beside a region about which most is known. */
  #nextBeside(members: readonly number[], region: number): number | undefined {
    let next: number | undefined
    let most = -1
    for (const member of members) {
      for (const { cell } of this.#neighbours[member]!) {
        if (this.#regions[cell] !== FREE || this.#leftOut[cell] === region + 1) continue
        const known = Math.abs(this.#costWithin(cell, region) - this.#costOutside(cell, region))
        if (known > most) {
          most = known
          next = cell
        }
      }
    }
    return next
  }

  /** What the sides of a cell say against its being part of a region: walls inside it, none towards cells left out. */
  #costWithin(cell: number, region: number): number {
    let cost = 0
    for (const { cell: other, odds } of this.#neighbours[cell]!) {
      if (this.#regions[other] === region) cost += Math.max(0, odds)
      else if (this.#leftOut[other] === region + 1) cost += Math.max(0, -odds)
    }
    return cost
  }

  /** What they say against its not being part of it: no wall towards it. */
  #costOutside(cell: number, region: number): number {
    let cost = 0
    for (const { cell: other, odds } of this.#neighbours[cell]!)
      if (this.#regions[other] === region) cost += Math.max(0, -odds)
    return cost
  }

  /** What is left to pay when a region has all its cells: the free ones beside it are left out. */
  #closing(members: readonly number[], region: number): number {
    let cost = 0
    for (const member of members) {
      for (const { cell, odds } of this.#neighbours[member]!) {
        if (this.#regions[cell] === FREE && this.#leftOut[cell] !== region + 1) cost += Math.max(0, -odds)
      }
    }
    return cost
  }

  /** Can the free cells be parted at all? Each connected part of them must hold whole regions. */
  #restFits(): boolean {
    const seen = new Uint8Array(this.#regions.length)
    for (const [start, region] of this.#regions.entries()) {
      if (region !== FREE || seen[start]) continue
      const part = [start]
      seen[start] = 1
      for (const cell of part) {
        for (const { cell: other } of this.#neighbours[cell]!) {
          if (this.#regions[other] !== FREE || seen[other]) continue
          seen[other] = 1
          part.push(other)
        }
      }
      if (part.length % this.order !== 0) return false
    }
    return true
  }
}
