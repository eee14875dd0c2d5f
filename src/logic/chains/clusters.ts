import type { Bilocal, Facts } from '../facts/facts.js'
import { oncePerPlaces } from '../facts/path-memory.js'
import { holderMask, maskOf, seenFromAny } from './cell-masks.js'

/**
 * Cells tied to each other by houses with two places for a digit, in two colours: all of one or all of the other hold
 * it.
 */
export interface Cluster {
  readonly digit: number
  /** The cells of each colour, ascending. */
  readonly colours: readonly [readonly number[], readonly number[]]
  /** For each colour: its cells, and the cells that see one of them, as sets (`cell-masks.ts`). */
  readonly cells: readonly [Uint32Array, Uint32Array]
  readonly seen: readonly [Uint32Array, Uint32Array]
  /** Cells that have the digit and neither colour. */
  readonly outside: Uint32Array
  /** cell -> the strong links it is an end of. */
  readonly linksOf: ReadonlyMap<number, readonly Bilocal[]>
}

/** The clusters of a digit that two colours fit, each with the colour of its first cell first. */
export const clustersOf: (facts: Facts, digit: number) => readonly Cluster[] = oncePerPlaces(makeClusters)

function makeClusters(facts: Facts, digit: number): Cluster[] {
  const { board } = facts
  // a single link has nothing to be joined with
  if (facts.bilocal(digit).length < 2) return []
  const linksOf = new Map<number, Bilocal[]>()
  for (const link of facts.bilocal(digit)) {
    for (const end of link.ends) {
      const links = linksOf.get(end)
      if (links) links.push(link)
      else linksOf.set(end, [link])
    }
  }
  const { geometry } = board
  const holders = holderMask(facts, digit)
  const colourOf = new Map<number, number>()
  const clusters: Cluster[] = []
  for (const start of [...linksOf.keys()].sort((a, b) => a - b)) {
    if (colourOf.has(start)) continue
    const colours: [number[], number[]] = [[], []]
    // On a board without a solution links may make a ring of odd length, which two colours cannot go round.
    let isColoured = true
    const queue = [start]
    colourOf.set(start, 0)
    for (const cell of queue) {
      const colour = colourOf.get(cell)!
      colours[colour]!.push(cell)
      for (const link of linksOf.get(cell)!) {
        const other = otherEnd(link, cell)
        if (colourOf.get(other) === colour) isColoured = false
        if (colourOf.has(other)) continue
        colourOf.set(other, 1 - colour)
        queue.push(other)
      }
    }
    if (!isColoured) continue
    for (const cells of colours) cells.sort((a, b) => a - b)
    const [one, other] = colours
    const cells: [Uint32Array, Uint32Array] = [maskOf(geometry, one), maskOf(geometry, other)]
    clusters.push({
      digit,
      colours,
      cells,
      seen: [seenFromAny(geometry, one), seenFromAny(geometry, other)],
      outside: holders.map((set, w) => set & ~cells[0][w]! & ~cells[1][w]!),
      linksOf,
    })
  }
  return clusters
}

function otherEnd({ ends }: Bilocal, cell: number): number {
  return ends[0] === cell ? ends[1] : ends[0]
}

/** The fewest links that lead from one of `sources` to one of `goals` within a cluster; undefined if none do. */
export function shortestPath(
  cluster: Cluster,
  sources: readonly number[],
  goals: readonly number[],
): Bilocal[] | undefined {
  if (sources.length === 0 || goals.length === 0) return undefined
  const cameBy = new Map<number, Bilocal | undefined>(sources.map((cell) => [cell, undefined]))
  const queue = [...sources]
  for (const cell of queue) {
    if (goals.includes(cell)) {
      const path: Bilocal[] = []
      for (let at = cell, link = cameBy.get(at); link; link = cameBy.get(at)) {
        path.push(link)
        at = otherEnd(link, at)
      }
      return path
    }
    for (const link of cluster.linksOf.get(cell)!) {
      const other = otherEnd(link, cell)
      if (cameBy.has(other)) continue
      cameBy.set(other, link)
      queue.push(other)
    }
  }
  return undefined
}
