import { seededRandom } from '../random.js'
import type { LineGraph } from './line-graph.js'

/**
 * An ordered partition of the vertices: `order` lists them class by class, and a vertex's colour is the position where
 * its class begins. Colours depend on the puzzle's structure alone, never on how its lines or digits are numbered.
 */
export interface Partition {
  readonly order: Uint8Array
  readonly colour: Uint8Array
  /** Sum of what was seen while classes were split: equal for equivalent partitions. */
  trace: number
}

/** More than the vertices of any geometry: 48 lines and digits of order 16, its groups and sides. */
const MOST_COLOURS = 96

/** Fixed scrambled numbers; sums of them tell multisets apart but for chance, and chance costs speed only. */
function scrambledTable(seed: number): Int32Array {
  const random = seededRandom(seed)
  return Int32Array.from({ length: MOST_COLOURS * MOST_COLOURS }, () => Math.floor(random() * 4294967296))
}

const LINE_PAIR = scrambledTable(1)
const DIGIT_PAIR = (() => {
  const table = scrambledTable(2)
  for (let a = 0; a < MOST_COLOURS; a++) {
    for (let b = 0; b < a; b++) table[a * MOST_COLOURS + b] = table[b * MOST_COLOURS + a]!
  }
  return table
})()
const CHILD = scrambledTable(3)
const PARENT = scrambledTable(4)

export function emptyPartition(graph: LineGraph): Partition {
  return { order: new Uint8Array(graph.vertexCount), colour: new Uint8Array(graph.vertexCount), trace: 0 }
}

export function copyPartition(from: Partition, to: Partition): void {
  to.order.set(from.order)
  to.colour.set(from.colour)
  to.trace = from.trace
}

/** Lines, digits, groups and sides told apart by kind and by how many ties they take part in. */
export function firstPartition(graph: LineGraph): Partition {
  const partition = emptyPartition(graph)
  const { vertexCount, firstDigit, firstGroup, firstSide, squareBoxes, degree, order } = graph
  const kindOf = (v: number) => {
    if (v < firstDigit) return squareBoxes || v < order ? 0 : 1
    if (v < firstGroup) return 2
    if (v < firstSide) return squareBoxes || graph.parentOf[v] === firstSide ? 3 : 4
    return squareBoxes || v === firstSide ? 5 : 6
  }
  const rank = Array.from({ length: vertexCount }, (_, v) => kindOf(v) * 1024 + degree[v]!)
  const vertices = Array.from({ length: vertexCount }, (_, v) => v).sort((a, b) => rank[a]! - rank[b]!)
  vertices.forEach((v, at) => {
    const before = vertices[at - 1]
    partition.order[at] = v
    partition.colour[v] = before !== undefined && rank[before] === rank[v] ? partition.colour[before]! : at
  })
  return partition
}

/** Gives one vertex of a class the class's colour alone, ahead of the others. */
export function setApart(partition: Partition, vertex: number): void {
  const { order, colour } = partition
  const start = colour[vertex]!
  let at = start
  while (order[at] !== vertex) at++
  order[at] = order[start]!
  order[start] = vertex
  for (let i = start + 1; i < order.length && colour[order[i]!] === start; i++) colour[order[i]!] = start + 1
}

/**
 * Splits classes until vertices of one class see the same colours in the same numbers (colour refinement).
 *
 * @param sums scratch room, one number a vertex
 * @param weights of pairs of lines and of digits, to be seen together with their colours; from `pairWeights`
 */
export function refine(graph: LineGraph, partition: Partition, sums: Int32Array, weights?: Int32Array): void {
  const { ties, parentOf, firstDigit, firstGroup, firstSide, vertexCount } = graph
  const { order, colour } = partition
  let trace = 0
  for (let changed = true; changed; ) {
    sums.fill(0)
    for (let i = 0; i < ties.length; i += 3) {
      const row = ties[i]!
      const column = ties[i + 1]!
      const digit = ties[i + 2]!
      const r = colour[row]!
      const c = colour[column]!
      const d = colour[digit]!
      sums[row]! += LINE_PAIR[c * MOST_COLOURS + d]!
      sums[column]! += LINE_PAIR[r * MOST_COLOURS + d]!
      sums[digit]! += DIGIT_PAIR[r * MOST_COLOURS + c]!
    }
    for (let v = 0; v < firstSide; v++) {
      if (v === firstDigit) v = firstGroup
      const parent = parentOf[v]!
      sums[parent]! += CHILD[colour[v]!]!
      sums[v]! += PARENT[colour[parent]!]!
    }
    if (weights) addPairs(graph, colour, sums, weights)
    changed = false
    for (let start = 0; start < vertexCount; ) {
      let end = start + 1
      while (end < vertexCount && colour[order[end]!] === start) end++
      if (end - start > 1 && splitClass(order, colour, sums, start, end)) changed = true
      for (let at = start; at < end; at++) {
        trace = (Math.imul(trace ^ sums[order[at]!]!, 0x01000193) + colour[order[at]!]!) | 0
      }
      start = end
    }
  }
  partition.trace = trace
}

function addPairs(graph: LineGraph, colour: Uint8Array, sums: Int32Array, weights: Int32Array): void {
  const { order: n, firstGroup } = graph
  for (let first = 0; first < firstGroup; first += n) {
    for (let a = first; a < first + n; a++) {
      let sum = 0
      const row = a * firstGroup
      for (let b = first; b < first + n; b++)
        sum = (sum + Math.imul(CHILD[colour[b]!]!, weights[row + b]!)) | 0
      sums[a]! += sum
    }
  }
}

/** Sorts a class by its sums and gives every run of equal sums its own colour; true when there are several. */
function splitClass(
  order: Uint8Array,
  colour: Uint8Array,
  sums: Int32Array,
  start: number,
  end: number,
): boolean {
  for (let at = start + 1; at < end; at++) {
    const v = order[at]!
    const sum = sums[v]!
    let to = at
    while (to > start && sums[order[to - 1]!]! > sum) {
      order[to] = order[to - 1]!
      to--
    }
    order[to] = v
  }
  let split = false
  let runStart = start
  for (let at = start + 1; at < end; at++) {
    if (sums[order[at]!] !== sums[order[at - 1]!]) {
      runStart = at
      split = true
    }
    colour[order[at]!] = runStart
  }
  return split
}
