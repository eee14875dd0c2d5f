import type { LinkGraph } from './graph.js'

/**
 * The candidates, as nodes, that any chain of the graph's links is against, however long, told without looking for a chain.
 *
 * Links are implications: a node that holds makes what it sees fail, and one that fails makes its strong partners hold. There is
 * a chain against a candidate just when its holding leads to its failing. What a node leads to is gathered once for all nodes
 * that lead to each other (Tarjan's strongly connected components, which come out in such an order that all they lead to is
 * known), so the time is that of looking at every link once. Most boards hold no chain of a kind, and this settles it.
 */
export function refutedCandidates(graph: LinkGraph): readonly number[] {
  let refuted = known.get(graph)
  if (!refuted) {
    refuted = new Implications(graph).refuted()
    known.set(graph, refuted)
  }
  return refuted
}

const known = new WeakMap<LinkGraph, readonly number[]>()

/** Node n holds: vertex n; it fails: vertex size + n. */
class Implications {
  private readonly graph: LinkGraph
  private readonly size: number
  /** vertex -> the candidates that fail when it is so, as a mask of this many words. */
  private readonly failing: Int32Array
  private readonly words: number
  /** vertex -> order of discovery (0: not yet), lowest reached, and the vertex that stands for its component (-1: not yet). */
  private readonly found: Int32Array
  private readonly lowest: Int32Array
  private readonly standIn: Int32Array
  /** vertex -> how many of its implications have been followed. */
  private readonly followed: Int32Array
  private readonly path: number[] = []
  private readonly open: number[] = []
  private discovered = 0

  constructor(graph: LinkGraph) {
    const { nodes } = graph
    let candidates = 0
    for (const node of nodes.candidateNode) candidates = Math.max(candidates, node + 1)
    this.graph = graph
    this.size = nodes.size
    this.words = (candidates + 31) >>> 5
    this.failing = new Int32Array(2 * nodes.size * this.words)
    this.found = new Int32Array(2 * nodes.size)
    this.lowest = new Int32Array(2 * nodes.size)
    this.standIn = new Int32Array(2 * nodes.size).fill(-1)
    this.followed = new Int32Array(2 * nodes.size)
  }

  refuted(): number[] {
    const { linked, nodes } = this.graph
    for (const node of linked) if (this.found[this.size + node] === 0) this.explore(this.size + node)
    const refuted: number[] = []
    for (const node of nodes.candidateNode) if (node >= 0 && this.isRefuted(node)) refuted.push(node)
    return refuted
  }

  /** Does the candidate make any node fail that makes the candidate fail? */
  private isRefuted(candidate: number): boolean {
    const weak = this.graph.weakTo(candidate)
    const bit = 1 << (candidate & 31)
    for (let i = 0; i < weak.length; i++) {
      const component = this.standIn[this.size + weak[i]!]!
      if (this.failing[component * this.words + (candidate >>> 5)]! & bit) return true
    }
    return false
  }

  private explore(start: number): void {
    const { graph, size, path, found, lowest, standIn, followed } = this
    this.discover(start)
    while (path.length > 0) {
      const vertex = path[path.length - 1]!
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
    this.path.push(vertex)
    this.open.push(vertex)
    if (vertex < this.size) this.addSeen(vertex)
  }

  /** All it leads to is known: it joins the vertex that led to it, or its component is complete. */
  private close(vertex: number): void {
    const { path, open, found, lowest, standIn } = this
    path.pop()
    if (lowest[vertex] === found[vertex]) {
      for (let member = -1; member !== vertex; ) {
        member = open.pop()!
        standIn[member] = vertex
        if (member !== vertex) this.add(vertex, member)
      }
    }
    if (path.length === 0) return
    const before = path[path.length - 1]!
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
      for (
        let rest = peers[node * words + w]! & digitCells[(digit - 1) * words + w]!;
        rest !== 0;
        rest &= rest - 1
      )
        this.markFailing(node, nodes.candidate(w * 32 + 31 - Math.clz32(rest & -rest), digit))
    }
    const cells = nodes.cells[node]!
    if (!withinCells || cells.length !== 1) return
    for (let rest = board.candidates[cells[0]!]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1)
      this.markFailing(node, nodes.candidate(cells[0]!, 32 - Math.clz32(rest & -rest)))
  }

  private markFailing(vertex: number, candidate: number): void {
    this.failing[vertex * this.words + (candidate >>> 5)]! |= 1 << (candidate & 31)
  }
}
