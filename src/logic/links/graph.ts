import type { Board } from '../../grid/board.js'
import { type DigitSet, digitBit } from '../../grid/digits.js'
import { zeros } from '../number-lists.js'
import { oncePerBoard } from '../path-memory.js'
import { almostLockedSets } from './almost-locked.js'
import { groupedTies, type HouseTie, plainTies } from './house-ties.js'
import { type NodeTable, nodesOf } from './nodes.js'
import { Sight } from './sight.js'

/** Why one of two nodes holds: the cell, house or almost locked set that would be left without its digits. */
export type StrongReason =
  | { readonly kind: 'cell'; readonly cell: number }
  | { readonly kind: 'house'; readonly house: number; readonly digit: number }
  | { readonly kind: 'set'; readonly cells: readonly number[] }

/** Which links a graph is made of. */
export interface LinkKinds {
  /** Strong links of cells with two candidates. */
  readonly cells?: boolean
  /** Strong links of houses with two places for a digit. */
  readonly houses?: boolean
  /** Strong links of houses whose places for a digit fall into two groups. */
  readonly groups?: boolean
  /** Strong links of almost locked sets of this many cells at most, cells with two candidates among them. */
  readonly setsOf?: number
  /** Weak links between two digits of one cell; off for one-digit chains and chains of cells. */
  readonly withinCells?: boolean
}

// What only matters while a graph is made: these lists serve graph after graph.
/** The ends of links, two and two. */
const ends: number[] = []
/** node -> where the next of its links goes. */
const next: number[] = []

/**
 * The strong links of a board as a graph, with weak links worked out when first asked for. Strong links go both ways:
 * `strongTo[strongStart[n] .. strongStart[n + 1]]` are the nodes that hold when node n does not.
 *
 * Every node of a chain is seen by a candidate: one beside it in the chain, or the one that the chain is against. Most places
 * of a digit in an almost locked set are not, so their links are left out.
 */
export class LinkGraph {
  readonly nodes: NodeTable
  readonly reasons: readonly StrongReason[]
  readonly strongStart: readonly number[]
  readonly strongTo: readonly number[]
  /** Beside `strongTo`: index into `reasons`. */
  readonly strongBy: readonly number[]
  readonly withinCells: boolean
  /** Nodes that have strong links. */
  readonly linked: readonly number[]
  private readonly sight: Sight
  private readonly weak: (readonly number[] | undefined)[]

  /** @param digits only links of these digits; links of cells and sets are those of all digits */
  constructor(board: Board, kinds: LinkKinds, digits: DigitSet = -1) {
    const nodes = nodesOf(board)
    let count = 0
    const reasons: StrongReason[] = []
    const link: Link = (a, b, reason) => {
      ends[count++] = a
      ends[count++] = b
      reasons.push(reason)
    }
    if (kinds.cells) linkCells(nodes, link)
    if (kinds.houses) linkHouses(nodes, digits, plainTies, link)
    if (kinds.groups) linkHouses(nodes, digits, groupedTies, link)
    if (kinds.setsOf) linkSets(nodes, kinds.setsOf, kinds.cells === true, link)
    this.nodes = nodes
    this.reasons = reasons
    this.withinCells = kinds.withinCells ?? false

    const start = zeros(nodes.size + 1)
    for (let i = 0; i < count; i++) start[ends[i]! + 1]!++
    for (let node = 0; node < nodes.size; node++) start[node + 1]! += start[node]!
    for (let node = 0; node < nodes.size; node++) next[node] = start[node]!
    this.strongStart = start
    const to = zeros(count)
    const by = zeros(count)
    for (let i = 0; i < count; i++) {
      const at = next[ends[i]!]!++
      to[at] = ends[i ^ 1]!
      by[at] = i >> 1
    }
    this.strongTo = to
    this.strongBy = by
    const linked: number[] = []
    for (let node = 0; node < nodes.size; node++) if (start[node + 1]! > start[node]!) linked.push(node)
    this.linked = linked
    this.sight = new Sight(nodes, linked)
    // made in full length: a list that is filled from its far end becomes a slow one
    this.weak = new Array(nodes.size)
  }

  /** Nodes with strong links that cannot hold when this one does. */
  weakTo(node: number): readonly number[] {
    const known = this.weak[node]
    if (known) return known
    const { nodes } = this
    const digit = nodes.digit[node]!
    const found = this.sight.seenBy(node)
    const cells = nodes.cells[node]!
    if (this.withinCells && cells.length === 1) {
      const { order } = nodes.board.geometry
      const first = cells[0]! * order
      for (let d = 1; d <= order; d++) {
        const other = nodes.candidateNode[first + d - 1]!
        if (d !== digit && other >= 0 && this.strongStart[other + 1]! > this.strongStart[other]!)
          found.push(other)
      }
    }
    this.weak[node] = found
    return found
  }

  /** Does the weak link of two nodes count in this graph? */
  areWeaklyLinked(a: number, b: number): boolean {
    if (!this.withinCells && this.nodes.digit[a] !== this.nodes.digit[b]) return false
    return this.nodes.areWeaklyLinked(a, b)
  }
}

type Link = (a: number, b: number, reason: StrongReason) => void

function linkCells(nodes: NodeTable, link: Link): void {
  const { candidates, geometry } = nodes.board
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    const digits = candidates[cell]!
    const rest = digits & (digits - 1)
    if (rest === 0 || (rest & (rest - 1)) !== 0) continue
    link(
      nodes.candidate(cell, 32 - Math.clz32(digits & -digits)),
      nodes.candidate(cell, 32 - Math.clz32(rest)),
      { kind: 'cell', cell },
    )
  }
}

function linkHouses(
  nodes: NodeTable,
  digits: DigitSet,
  tiesOf: (board: Board, digit: number) => readonly HouseTie[],
  link: Link,
): void {
  const { board } = nodes
  for (let digit = 1; digit <= board.geometry.order; digit++) {
    if ((digits & digitBit(digit)) === 0) continue
    for (const { house, one, other } of tiesOf(board, digit))
      link(nodes.of(digit, one), nodes.of(digit, other), { kind: 'house', house, digit })
  }
}

function linkSets(nodes: NodeTable, mostCells: number, cellsLinked: boolean, link: Link): void {
  const nodeOf: number[] = new Array(nodes.board.geometry.order + 1).fill(-1)
  for (const { cells, digits, ties, places } of almostLockedSets(nodes.board)) {
    if (cells.length > mostCells) break
    if (cells.length === 1 && cellsLinked) continue
    let seen = 0
    for (let rest = digits, i = 0; rest !== 0; rest &= rest - 1, i++) {
      const digit = 32 - Math.clz32(rest & -rest)
      if (ties[digit - 1]! !== 0 && nodes.isSeen(digit, places[i]!)) seen |= rest & -rest
    }
    // a link has two ends
    if ((seen & (seen - 1)) === 0) continue
    const reason: StrongReason = { kind: 'set', cells }
    for (let rest = digits, i = 0; rest !== 0; rest &= rest - 1, i++) {
      const bit = rest & -rest
      const digit = 32 - Math.clz32(bit)
      const tied = seen & bit ? ties[digit - 1]! & seen : 0
      if (tied === 0) continue
      nodeOf[digit] = nodes.of(digit, places[i]!)
      // each pair once: with the digits met before
      for (let other = tied & (bit - 1); other !== 0; other &= other - 1) {
        link(nodeOf[32 - Math.clz32(other & -other)]!, nodeOf[digit]!, reason)
      }
    }
  }
}

const graphsOf = oncePerBoard(() => new Map<string, LinkGraph>())

/** The graph of a board for these kinds of links; the same value while techniques ask about the same board. */
export function linkGraph(board: Board, kinds: LinkKinds): LinkGraph {
  const graphs = graphsOf(board)
  const key = [kinds.cells, kinds.houses, kinds.groups, kinds.setsOf, kinds.withinCells].map(Number).join()
  let graph = graphs.get(key)
  if (!graph) {
    graph = new LinkGraph(board, kinds)
    graphs.set(key, graph)
  }
  return graph
}
