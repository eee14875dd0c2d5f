import type { Task, Watch } from '../../limits.js'
import { zeros } from '../number-lists.js'
import { ChainHalves } from './chain-halves.js'
import { refutedWithFins } from './finned-implications.js'
import { type FinnedLink, FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'
import { type ChainSearch, searchOf } from './search.js'

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

/** The latest search of a context. */
class LatestSearch {
  search: FinnedSearch | undefined
}

const latestSearch = (): LatestSearch => new LatestSearch()

/**
 * The shortest such chain against each candidate, short ones first; as in the plain search, `visit` says by `settled`
 * which candidates have been dealt with. Candidates against which a plain chain is as short are passed over.
 */
export function* visitFinnedChains(
  graph: LinkGraph,
  most: number,
  settled: (node: number) => boolean,
  visit: (chain: FinnedChain) => boolean,
  watch: Watch,
): Task<void> {
  const latest = graph.nodes.facts.context.of(latestSearch)
  const search = new FinnedSearch(graph, yield* FinnedLinks.of(graph, watch), latest.search)
  latest.search = search
  if (watch.isDue(watch.read())) yield
  const targets = search.refuted()
  if (watch.isDue(watch.read())) yield
  const first = yield* shortestAgainstAny(search, targets, most, watch)
  if (!first || visit(first)) return
  const others: FinnedChain[] = []
  for (const target of targets) {
    if (watch.isDue()) yield
    const chain = settled(target) ? undefined : search.run(target, most)
    if (chain) others.push(chain)
  }
  others.sort((a, b) => a.strong.length - b.strong.length)
  for (const chain of others) {
    if (watch.isDue()) yield
    if (!settled(chain.target) && visit(chain)) return
  }
}

/**
 * The first of the shortest chains against any of the candidates. What is short is looked for everywhere before
 * anything longer, as few boards have long chains only.
 */
function* shortestAgainstAny(
  search: FinnedSearch,
  targets: Iterable<number>,
  most: number,
  watch: Watch,
): Task<FinnedChain | undefined> {
  for (let upTo = 6, above = 0; above < most; above = upTo, upTo *= 2) {
    let best = Math.min(upTo, most) + 1
    let found: FinnedChain | undefined
    for (const target of targets) {
      if (watch.isDue()) yield
      const chain = search.run(target, best - 1)
      if (!chain) continue
      found = chain
      best = chain.strong.length
      if (best === above + 1) break
    }
    if (found) return found
  }
  return undefined
}

/**
 * Breadth first search along the links of the graph and those that hold if the supposed candidate does; `by` is an
 * index into the graph's reasons, or ~index of an own tie.
 */
export class FinnedSearch extends ChainHalves {
  private readonly graph: LinkGraph
  private readonly own: FinnedLinks
  private readonly plain: ChainSearch
  /**
   * The ties of the target by their ends: node -> latest place if the run is this one's, place -> tie and next place.
   */
  private readonly placeRun: number[]
  private readonly place: number[]
  private readonly tieAt: number[]
  private readonly next: number[]
  private target = -1
  private following = -1
  private nextDepth = 0

  /** @param before a search that is over, whose lists this one takes over */
  constructor(graph: LinkGraph, own: FinnedLinks, before?: FinnedSearch) {
    const { size } = graph.nodes
    super(size, before)
    this.graph = graph
    this.own = own
    this.plain = searchOf(graph)
    const lists = before?.queue === this.queue ? before : undefined
    this.placeRun = lists?.placeRun ?? zeros(this.queue.length)
    this.place = lists?.place ?? zeros(this.queue.length)
    this.tieAt = lists?.tieAt ?? []
    this.next = lists?.next ?? []
  }

  /** The candidates against which there is a chain, with fins or without. */
  refuted(): number[] {
    return refutedWithFins(this.graph, this.own)
  }

  /** A shortest chain of `most` strong links or fewer against the candidate, unless a plain one is as short. */
  run(target: number, most: number): FinnedChain | undefined {
    const { own, queue } = this
    this.runs++
    this.target = target
    this.sortTies()
    this.shortest = most + 1
    queue[0] = target
    this.tail = 1
    this.onRun[target] = this.runs
    this.depth[target] = 0
    for (let head = 0; head < this.tail; head++) {
      const holds = queue[head]!
      const depth = this.depth[holds]!
      // what has not been met by now takes two halves of this depth or more
      if (2 * depth >= this.shortest) break
      this.nextDepth = depth + 1
      const end = own.weakStart[holds + 1]!
      for (let k = own.weakStart[holds]!; k < end; k++) this.fail(own.weakList[k]!, holds)
    }
    if (this.shortest > most) return undefined
    return this.plain.run(target, this.shortest) ? undefined : this.chain()
  }

  private sortTies(): void {
    const { own, target, placeRun, place, tieAt, next, runs } = this
    const { ends, fin, from, to, tieList } = own
    let count = 0
    for (let at = own.targetFrom[target]!; at < own.targetFrom[target + 1]!; at++) {
      const list = own.targetLists[at]!
      for (let i = own.listFrom[list]!; i < own.listTo[list]!; i++) {
        const tie = tieList[i]!
        for (let j = from[tie]!; j < to[tie]!; j++) {
          const end = ends[j]!
          if (end === fin[tie]) continue
          tieAt[count] = tie
          next[count] = placeRun[end] === runs ? place[end]! : -1
          placeRun[end] = runs
          place[end] = count++
        }
      }
    }
  }

  private fail(fails: number, holds: number): void {
    if (this.offRun[fails] === this.runs) return
    this.offRun[fails] = this.runs
    this.failedBy[fails] = holds
    if (this.onRun[fails] === this.runs) this.meet(holds, fails)
    // what it makes hold would be too far to meet anything
    if (2 * this.nextDepth > this.shortest) return
    this.following = fails
    if (fails < this.graph.size) {
      const { strongStart, strongTo, strongBy } = this.graph
      const end = strongStart[fails + 1]!
      for (let k = strongStart[fails]!; k < end; k++)
        if (this.onRun[strongTo[k]!] !== this.runs) this.hold(strongTo[k]!, strongBy[k]!)
    }
    if (this.placeRun[fails] !== this.runs) return
    const { ends, fin, from, to } = this.own
    for (let at = this.place[fails]!; at >= 0; at = this.next[at]!) {
      const tie = this.tieAt[at]!
      for (let j = from[tie]!; j < to[tie]!; j++) {
        const end = ends[j]!
        if (this.onRun[end] !== this.runs && end !== fails && end !== fin[tie]) this.hold(end, ~tie)
      }
    }
  }

  private hold(node: number, by: number): void {
    this.onRun[node] = this.runs
    this.depth[node] = this.nextDepth
    this.from[node] = this.following
    this.by[node] = by
    this.queue[this.tail++] = node
    if (this.graph.areWeaklyLinked(node, this.target)) this.meet(node, this.target)
    else if (this.offRun[node] === this.runs) this.meet(node, this.failedBy[node]!)
  }

  private chain(): FinnedChain {
    const { nodes, by } = this.joined(this.target)
    return { target: this.target, nodes, strong: by.map((reason) => this.linkOf(reason)) }
  }

  private linkOf(by: number): FinnedLink {
    return by < 0 ? this.own.linkOf(~by) : { reason: this.graph.reasons[by]!, fins: [] }
  }
}
