import type { LinkGraph } from './graph.js'

/**
 * An alternating chain: `nodes` come in pairs joined by strong links, `nodes[0]`=`nodes[1]`, `nodes[2]`=`nodes[3]`, …,
 * with weak links between the pairs. If the first node does not hold, the last one does.
 */
export interface Chain {
  readonly nodes: readonly number[]
  /** Index into `graph.reasons` for each strong link. */
  readonly by: readonly number[]
  /** The candidate (a node of one cell) that cannot hold: it is weakly linked to both ends. */
  readonly target: number
}

export interface ChainLimits {
  /** Fewest and most strong links. */
  readonly least: number
  readonly most: number
}

/**
 * The shortest chain against each candidate, short ones first.
 *
 * Suppose a candidate holds: its weak neighbours do not, so their strong partners do, and so on breadth first, until
 * something contradicts the candidate. The way back is a shortest chain against it. `visit` says by `settled` which
 * candidates a chain has dealt with; those get no chain of their own. Stops when `visit` returns true.
 */
export function visitShortestChains(
  graph: LinkGraph,
  limits: ChainLimits,
  settled: Uint8Array,
  visit: (chain: Chain) => boolean,
): void {
  const { least, most } = limits
  const search = new ChainSearch(graph)
  const targets = search.targets()
  // First the shortest chains of all: the bound shrinks as they turn up, so that asking for one chain is cheap.
  let best = most
  let shortest: Chain[] = []
  for (const target of targets) {
    const length = search.run(target, best)
    if (length === 0) continue
    if (length < least) {
      settled[target] = 1
      continue
    }
    if (length < best) shortest = []
    best = length
    shortest.push(search.chain(target))
  }
  if (shortest.length === 0) return
  for (const chain of shortest) if (!settled[chain.target] && visit(chain)) return
  if (best === most) return
  const longer: Chain[] = []
  for (const target of targets) {
    if (settled[target]) continue
    const length = search.run(target, most)
    if (length === 0) continue
    if (length < least) settled[target] = 1
    else longer.push(search.chain(target))
  }
  longer.sort((a, b) => a.by.length - b.by.length)
  for (const chain of longer) if (!settled[chain.target] && visit(chain)) return
}

class ChainSearch {
  private readonly graph: LinkGraph
  private readonly queue: Int32Array
  private readonly depth: Int32Array
  private readonly onRun: Int32Array
  private readonly offRun: Int32Array
  /** node that holds -> the node whose failing made it hold, and the strong link between them. */
  private readonly from: Int32Array
  private readonly by: Int32Array
  /** node that fails -> the node that holds and sees it. */
  private readonly failedBy: Int32Array
  private runs = 0
  private last = -1

  constructor(graph: LinkGraph) {
    const { size } = graph.nodes
    this.graph = graph
    this.queue = new Int32Array(size)
    this.depth = new Int32Array(size)
    this.onRun = new Int32Array(size)
    this.offRun = new Int32Array(size)
    this.from = new Int32Array(size)
    this.by = new Int32Array(size)
    this.failedBy = new Int32Array(size)
  }

  /** Candidates that see something with a strong link. */
  targets(): number[] {
    const { graph } = this
    const found: number[] = []
    for (const node of graph.nodes.candidateNode)
      if (node >= 0 && graph.weakTo(node).length > 0) found.push(node)
    return found
  }

  /** Strong links of a shortest chain against the target, 0 when there is none of `most` or fewer. */
  run(target: number, most: number): number {
    const { graph, queue, depth, onRun, offRun } = this
    const { strongStart, strongTo, strongBy } = graph
    const run = ++this.runs
    let head = 0
    let tail = 0
    queue[tail++] = target
    onRun[target] = run
    depth[target] = 0
    while (head < tail) {
      const holds = queue[head++]!
      const next = depth[holds]! + 1
      if (next > most) return 0
      const weak = graph.weakTo(holds)
      for (let i = 0; i < weak.length; i++) {
        const fails = weak[i]!
        if (offRun[fails] === run) continue
        offRun[fails] = run
        this.failedBy[fails] = holds
        for (let k = strongStart[fails]!; k < strongStart[fails + 1]!; k++) {
          const node = strongTo[k]!
          if (onRun[node] === run) continue
          onRun[node] = run
          depth[node] = next
          this.from[node] = fails
          this.by[node] = strongBy[k]!
          if (graph.areWeaklyLinked(node, target)) {
            this.last = node
            return next
          }
          queue[tail++] = node
        }
      }
    }
    return 0
  }

  /** The chain that the last successful run found. */
  chain(target: number): Chain {
    const nodes: number[] = []
    const by: number[] = []
    for (let node = this.last; node !== target; node = this.failedBy[this.from[node]!]!) {
      nodes.push(node, this.from[node]!)
      by.push(this.by[node]!)
    }
    return { nodes: nodes.reverse(), by: by.reverse(), target }
  }
}
