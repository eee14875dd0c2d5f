import { type FinnedLink, FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'

/**
 * A chain against one candidate, some of whose strong links hold only because the candidate rules out what else their
 * cell, house or set could take. As with a finned fish, every fin must see the candidate.
 */
export interface FinnedChain {
  /** The candidate, as a node. */
  readonly target: number
  /** As in a plain chain: pairs joined by strong links. */
  readonly nodes: readonly number[]
  readonly strong: readonly FinnedLink[]
}

/**
 * The shortest such chain against each candidate, short ones first; as in the plain search, `visit` says by `settled`
 * which candidates have been dealt with. Candidates against which a plain chain is as short are passed over.
 */
export function visitFinnedChains(
  graph: LinkGraph,
  most: number,
  settled: (node: number) => boolean,
  visit: (chain: FinnedChain) => boolean,
): void {
  const search = new FinnedSearch(graph)
  const targets = graph.nodes.candidateNode.filter((node) => node >= 0)
  let best = most
  let shortest: FinnedChain[] = []
  for (const target of targets) {
    const chain = search.run(target, best)
    if (!chain) continue
    if (chain.strong.length < best) shortest = []
    best = chain.strong.length
    shortest.push(chain)
  }
  if (shortest.length === 0) return
  for (const chain of shortest) if (!settled(chain.target) && visit(chain)) return
  if (best === most) return
  const longer: FinnedChain[] = []
  for (const target of targets) {
    const chain = settled(target) ? undefined : search.run(target, most)
    if (chain) longer.push(chain)
  }
  longer.sort((a, b) => a.strong.length - b.strong.length)
  for (const chain of longer) if (!settled(chain.target) && visit(chain)) return
}

class FinnedSearch {
  private readonly graph: LinkGraph
  private readonly own: FinnedLinks
  /** Nodes of the graph itself; nodes that only candidates' own links have come after them. */
  private readonly plainNodes: number
  private readonly queue: number[] = []
  private readonly depth: number[] = []
  private readonly onRun: number[] = []
  private readonly offRun: number[] = []
  private readonly from: number[] = []
  /** node that holds -> the strong link it came by: an index into the graph's reasons, or ~index of an own link. */
  private readonly by: number[] = []
  private readonly failedBy: number[] = []
  private runs = 0
  private target = -1
  private last = -1
  private following = -1
  private nextDepth = 0
  private readonly followOwn = (node: number, link: number): boolean => this.hold(node, ~link)

  constructor(graph: LinkGraph) {
    this.graph = graph
    this.own = new FinnedLinks(graph)
    this.plainNodes = graph.strongStart.length - 1
  }

  /** A shortest chain of `most` strong links or fewer against the candidate, unless it is a plain one. */
  run(target: number, most: number): FinnedChain | undefined {
    const { graph, own, queue } = this
    const { nodes } = graph
    own.makeFor(target)
    this.runs++
    this.target = target
    queue.length = 0
    queue.push(target)
    this.onRun[target] = this.runs
    this.depth[target] = 0
    for (let head = 0; head < queue.length; head++) {
      const holds = queue[head]!
      this.nextDepth = this.depth[holds]! + 1
      if (this.nextDepth > most) return undefined
      const weak = graph.weakTo(holds)
      for (let i = 0; i < weak.length; i++) if (this.fail(weak[i]!, holds)) return this.chain()
      for (const node of own.endsByDigit[nodes.digit[holds]!]!) {
        if (this.offRun[node] === this.runs || !nodes.sees(holds, node)) continue
        if (this.fail(node, holds)) return this.chain()
      }
      const cells = nodes.cells[holds]!
      if (cells.length > 1) continue
      for (let digit = 1; digit <= nodes.board.geometry.order; digit++) {
        const node = nodes.candidate(cells[0]!, digit)
        if (node < 0 || node === holds || !own.isEnd(node)) continue
        if (this.fail(node, holds)) return this.chain()
      }
    }
    return undefined
  }

  private fail(fails: number, holds: number): boolean {
    if (this.offRun[fails] === this.runs) return false
    this.offRun[fails] = this.runs
    this.failedBy[fails] = holds
    this.following = fails
    if (fails < this.plainNodes) {
      const { strongStart, strongTo, strongBy } = this.graph
      const end = strongStart[fails + 1]!
      for (let k = strongStart[fails]!; k < end; k++) if (this.hold(strongTo[k]!, strongBy[k]!)) return true
    }
    return this.own.someAt(fails, this.followOwn)
  }

  private hold(node: number, by: number): boolean {
    if (this.onRun[node] === this.runs) return false
    this.onRun[node] = this.runs
    this.depth[node] = this.nextDepth
    this.from[node] = this.following
    this.by[node] = by
    this.queue.push(node)
    this.last = node
    return this.graph.areWeaklyLinked(node, this.target)
  }

  private chain(): FinnedChain | undefined {
    const nodes: number[] = []
    const strong: FinnedLink[] = []
    let plain = true
    for (let node = this.last; node !== this.target; ) {
      const from = this.from[node]!
      const by = this.by[node]!
      nodes.push(node, from)
      strong.push(by < 0 ? this.own.links[~by]! : { reason: this.graph.reasons[by]!, fins: [] })
      if (by < 0) plain = false
      node = this.failedBy[from]!
    }
    return plain ? undefined : { target: this.target, nodes: nodes.reverse(), strong: strong.reverse() }
  }
}
