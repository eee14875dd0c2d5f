import { type FinnedLink, FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'
import { ChainSearch } from './search.js'

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
  const targets = [...graph.nodes.candidateNode].filter((node) => node >= 0)
  const best = shortestAgainstAny(search, targets, most)
  if (best > most) return
  for (const target of targets) {
    const chain = settled(target) ? undefined : search.run(target, best)
    if (chain && visit(chain)) return
  }
  if (best === most) return
  const longer: FinnedChain[] = []
  for (const target of targets) {
    const chain = settled(target) ? undefined : search.run(target, most)
    if (chain) longer.push(chain)
  }
  longer.sort((a, b) => a.strong.length - b.strong.length)
  for (const chain of longer) if (!settled(chain.target) && visit(chain)) return
}

/**
 * The length of the shortest chain against any of the candidates, more than `most` if there is none. What is short is looked
 * for everywhere before anything longer, as few boards have long chains only.
 */
function shortestAgainstAny(search: FinnedSearch, targets: readonly number[], most: number): number {
  for (let upTo = 3, above = 0; above < most; above = upTo, upTo *= 2) {
    let best = Math.min(upTo, most) + 1
    for (const target of targets) {
      const chain = search.run(target, best - 1)
      if (chain) best = chain.strong.length
      if (best === above + 1) break
    }
    if (best <= Math.min(upTo, most)) return best
  }
  return most + 1
}

/**
 * Supposes a candidate and follows breadth first what holds then. As links work both ways, two nodes that hold and see each
 * other end two halves of one chain against the candidate; so only half the length of a chain need be followed.
 */
class FinnedSearch {
  private readonly graph: LinkGraph
  private readonly own: FinnedLinks
  private readonly plain: ChainSearch
  /** Nodes of the graph itself; nodes that only candidates' own links have come after them. */
  private readonly plainNodes: number
  private readonly queue: number[] = []
  private depth = new Int32Array(0)
  private onRun = new Int32Array(0)
  private offRun = new Int32Array(0)
  private from = new Int32Array(0)
  /** node that holds -> the strong link it came by: an index into the graph's reasons, or ~index of an own tie. */
  private by = new Int32Array(0)
  private failedBy = new Int32Array(0)
  private runs = 0
  private target = -1
  private following = -1
  private nextDepth = 0
  /** The length of the shortest chain so far, and the last nodes of its halves. */
  private shortest = 0
  private one = -1
  private other = -1
  private readonly followOwn = (node: number, tie: number): void => this.hold(node, ~tie)

  constructor(graph: LinkGraph) {
    this.plainNodes = graph.strongStart.length - 1
    this.graph = graph
    this.own = new FinnedLinks(graph)
    this.plain = new ChainSearch(graph)
  }

  /** A shortest chain of `most` strong links or fewer against the candidate, unless a plain one is as short. */
  run(target: number, most: number): FinnedChain | undefined {
    const { graph, own, queue } = this
    const { nodes } = graph
    own.makeFor(target)
    if (nodes.size > this.onRun.length) this.makeRoom(nodes.size * 2)
    this.runs++
    this.target = target
    this.shortest = most + 1
    queue.length = 0
    queue.push(target)
    this.onRun[target] = this.runs
    this.depth[target] = 0
    for (let head = 0; head < queue.length; head++) {
      const holds = queue[head]!
      const depth = this.depth[holds]!
      // what has not been met by now takes two halves of this depth or more
      if (2 * depth >= this.shortest) break
      this.nextDepth = depth + 1
      const weak = graph.weakTo(holds)
      for (let i = 0; i < weak.length; i++) this.fail(weak[i]!, holds)
      const ends = own.ends[nodes.digit[holds]!]!
      for (let i = own.endCount[nodes.digit[holds]!]! - 1; i >= 0; i--) {
        const node = ends[i]!
        if (this.offRun[node] !== this.runs && nodes.sees(holds, node)) this.fail(node, holds)
      }
      const cells = nodes.cells[holds]!
      if (cells.length > 1) continue
      for (let digit = 1; digit <= nodes.board.geometry.order; digit++) {
        const node = nodes.candidate(cells[0]!, digit)
        if (node >= 0 && node !== holds && own.isEnd(node)) this.fail(node, holds)
      }
    }
    if (this.shortest > most) return undefined
    return this.plain.run(target, this.shortest) ? undefined : this.chain()
  }

  private makeRoom(size: number): void {
    this.depth = longer(this.depth, size)
    this.onRun = longer(this.onRun, size)
    this.offRun = longer(this.offRun, size)
    this.from = longer(this.from, size)
    this.by = longer(this.by, size)
    this.failedBy = longer(this.failedBy, size)
  }

  private fail(fails: number, holds: number): void {
    if (this.offRun[fails] === this.runs) return
    this.offRun[fails] = this.runs
    this.failedBy[fails] = holds
    if (this.onRun[fails] === this.runs) this.meet(holds, fails)
    this.following = fails
    if (fails < this.plainNodes) {
      const { strongStart, strongTo, strongBy } = this.graph
      const end = strongStart[fails + 1]!
      for (let k = strongStart[fails]!; k < end; k++) this.hold(strongTo[k]!, strongBy[k]!)
    }
    this.own.forEachAt(fails, this.followOwn)
  }

  private hold(node: number, by: number): void {
    if (this.onRun[node] === this.runs) return
    this.onRun[node] = this.runs
    this.depth[node] = this.nextDepth
    this.from[node] = this.following
    this.by[node] = by
    this.queue.push(node)
    if (this.graph.areWeaklyLinked(node, this.target)) this.meet(node, this.target)
    else if (this.offRun[node] === this.runs) this.meet(node, this.failedBy[node]!)
  }

  /** Both nodes hold, and they see each other. */
  private meet(one: number, other: number): void {
    const length = this.depth[one]! + this.depth[other]!
    if (length >= this.shortest) return
    this.shortest = length
    this.one = one
    this.other = other
  }

  private chain(): FinnedChain {
    const nodes: number[] = []
    const strong: FinnedLink[] = []
    for (let node = this.one; node !== this.target; node = this.failedBy[this.from[node]!]!) {
      nodes.push(node, this.from[node]!)
      strong.push(this.linkOf(node))
    }
    nodes.reverse()
    strong.reverse()
    for (let node = this.other; node !== this.target; node = this.failedBy[this.from[node]!]!) {
      nodes.push(node, this.from[node]!)
      strong.push(this.linkOf(node))
    }
    return { target: this.target, nodes, strong }
  }

  private linkOf(node: number): FinnedLink {
    const by = this.by[node]!
    return by < 0 ? this.own.linkOf(~by) : { reason: this.graph.reasons[by]!, fins: [] }
  }
}

function longer(numbers: Int32Array<ArrayBuffer>, size: number): Int32Array<ArrayBuffer> {
  const copy = new Int32Array(size)
  copy.set(numbers)
  return copy
}
