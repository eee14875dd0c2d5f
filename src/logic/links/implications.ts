import type { LinkGraph } from './graph.js'

/**
 * What the links of a graph lead to, however long the way, told without looking for a chain.
 *
 * Links are implications: a node that holds makes what it sees fail, and one that fails makes its strong partners hold. What
 * follows is gathered once for all nodes that lead to each other (Tarjan's strongly connected components, which come out in such
 * an order that all they lead to is known), so the time is that of looking at every link once. Most boards hold no chain of a
 * kind, and this settles it.
 */
export interface Implications {
  /** The candidates, as nodes, that some chain is against: their holding leads to their failing. */
  readonly refuted: readonly number[]
  /** node -> a number shared by all nodes whose failing leads to each other's: a loop runs through such nodes only. */
  readonly failingTogether: Int32Array
}

class Exploration {
  private readonly graph: LinkGraph
  // Node n holds: vertex n; it fails: vertex size + n.
  private readonly size: number
  /** vertex -> the candidates that fail when it is so, as a mask of this many words. */
  private readonly failing: Int32Array
  private readonly words: number
  /** node -> the candidates that it sees. */
  private readonly seen: Int32Array
  /** vertex -> order of discovery (0: not yet), lowest reached, and the vertex that stands for its component (-1: not yet). */
  private readonly found: Int32Array
  private readonly lowest: Int32Array
  private readonly standIn: Int32Array
  /** vertex -> how many of its implications have been followed. */
  private readonly followed: Int32Array
  private readonly path: Int32Array
  private readonly open: Int32Array
  private pathLength = 0
  private openLength = 0
  private discovered = 0

  constructor(graph: LinkGraph) {
    const { size } = graph.nodes
    this.graph = graph
    this.size = size
    this.words = (graph.nodes.candidates + 31) >>> 5
    this.failing = zeros('failing', 2 * size * this.words)
    this.seen = zeros('seen', size * this.words)
    this.found = zeros('found', 2 * size)
    this.lowest = zeros('lowest', 2 * size)
    this.standIn = zeros('standIn', 2 * size).fill(-1, 0, 2 * size)
    this.followed = zeros('followed', 2 * size)
    this.path = zeros('path', 2 * size)
    this.open = zeros('open', 2 * size)
  }

  implications(): Implications {
    const { graph, size, found, standIn } = this
    for (const node of graph.linked) if (found[size + node] === 0) this.explore(size + node)
    return { refuted: this.refutedCandidates(), failingTogether: standIn.slice(size, 2 * size) }
  }

  /** Those that make a node fail that makes them fail. */
  private refutedCandidates(): number[] {
    const { failing, seen, standIn, size, words } = this
    const refuted: number[] = []
    for (let w = 0; w < words; w++) {
      let mask = 0
      for (const node of this.graph.linked)
        mask |= seen[node * words + w]! & failing[standIn[size + node]! * words + w]!
      for (; mask !== 0; mask &= mask - 1) refuted.push(w * 32 + 31 - Math.clz32(mask & -mask))
    }
    return refuted
  }

  private explore(start: number): void {
    const { graph, size, path, found, lowest, standIn, followed } = this
    this.discover(start)
    while (this.pathLength > 0) {
      const vertex = path[this.pathLength - 1]!
      const at = followed[vertex]!++
      let next: number
      if (vertex < size) {
        const weak = graph.weakTo(vertex)
        next = at < weak.length ? size + weak[at]! : -1
      } else {
        const k = graph.strongStart[vertex - size]! + at
        next = k < graph.strongStart[vertex - size + 1]! ? graph.strongTo[k]! : -1
      }
      if (next < 0) this.close(vertex)
      else if (found[next] === 0) this.discover(next)
      else if (standIn[next]! >= 0) this.add(vertex, standIn[next]!)
      else lowest[vertex] = Math.min(lowest[vertex]!, found[next]!)
    }
  }

  private discover(vertex: number): void {
    this.found[vertex] = this.lowest[vertex] = ++this.discovered
    this.path[this.pathLength++] = vertex
    this.open[this.openLength++] = vertex
    if (vertex < this.size) this.addSeen(vertex)
  }

  /** All it leads to is known: it joins the vertex that led to it, or its component is complete. */
  private close(vertex: number): void {
    const { path, open, found, lowest, standIn } = this
    this.pathLength--
    if (lowest[vertex] === found[vertex]) {
      for (let member = -1; member !== vertex; ) {
        member = open[--this.openLength]!
        standIn[member] = vertex
        if (member !== vertex) this.add(vertex, member)
      }
    }
    if (this.pathLength === 0) return
    const before = path[this.pathLength - 1]!
    if (standIn[vertex]! >= 0) this.add(before, vertex)
    else lowest[before] = Math.min(lowest[before]!, lowest[vertex]!)
  }

  private add(vertex: number, other: number): void {
    const { failing, words } = this
    const [to, from] = [vertex * words, other * words]
    for (let w = 0; w < words; w++) failing[to + w]! |= failing[from + w]!
  }

  /** The candidates that cannot hold when a node does. */
  private addSeen(node: number): void {
    const { nodes, withinCells } = this.graph
    const { words, peers, digitCells, board } = nodes
    const digit = nodes.digit[node]!
    for (let w = 0; w < words; w++) {
      let rest = peers[node * words + w]! & digitCells[(digit - 1) * words + w]!
      for (; rest !== 0; rest &= rest - 1)
        this.mark(node, nodes.candidate(w * 32 + 31 - Math.clz32(rest & -rest), digit))
    }
    const cells = nodes.cells[node]!
    if (!withinCells || cells.length !== 1) return
    for (let rest = board.candidates[cells[0]!]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1)
      this.mark(node, nodes.candidate(cells[0]!, 32 - Math.clz32(rest & -rest)))
  }

  private mark(node: number, candidate: number): void {
    const at = node * this.words + (candidate >>> 5)
    this.seen[at]! |= 1 << (candidate & 31)
    this.failing[at]! |= 1 << (candidate & 31)
  }
}

const kept = new Map<string, Int32Array>()

/** Zeros up to this length, and what there may be beyond; the same array serves one graph after the other. */
function zeros(name: string, length: number): Int32Array {
  let array = kept.get(name)
  if (array && array.length >= length) return array.fill(0, 0, length)
  array = new Int32Array(2 * length)
  kept.set(name, array)
  return array
}

const known = new WeakMap<LinkGraph, Implications>()

/** Worked out once for a graph, which techniques may share. */
export function implicationsOf(graph: LinkGraph): Implications {
  let implications = known.get(graph)
  if (!implications) {
    implications = new Exploration(graph).implications()
    known.set(graph, implications)
  }
  return implications
}
