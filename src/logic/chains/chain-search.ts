import { zeros } from '../facts/number-lists.js'
import type { Chain, LinkLists, StrongReason } from './chain.js'
import type { FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'

/**
 * Breadth first search along strong and weak links by turns. Links work both ways: two nodes that hold and see each
 * other end two halves of one chain against the candidate, so only half the length of a chain need be followed.
 *
 * With finned links it also follows those that hold if the supposed candidate does.
 */
export class ChainSearch {
  private readonly links: LinkLists
  private readonly finned: FinnedLinks | undefined
  /** Nodes that hold, in the order in which they were met. */
  private readonly queue: number[]
  /** node that holds -> strong links from the beginning. */
  private readonly depth: number[]
  /** node -> the latest run in which it held, and failed. */
  private readonly onRun: number[]
  private readonly offRun: number[]
  /**
   * node that holds -> the node whose failing made it hold, and the strong link between them (~index of a finned one).
   */
  private readonly from: number[]
  private readonly by: number[]
  /** node that fails -> the node that holds and sees it. */
  private readonly failedBy: number[]
  private readonly seenByTarget: number[]
  /**
   * The target's finned links by their ends: node -> latest place if the run is this one's, place -> link and next
   * place.
   */
  private readonly placeRun: number[]
  private readonly place: number[]
  private readonly linkAt: number[]
  private readonly nextAt: number[]
  private runs = 0
  private head = 0
  private tail = 0
  /** The length of the shortest chain of a run so far, and the last nodes of its halves. */
  private shortest = 0
  private one = -1
  private other = -1
  /** The node that a run took to hold, -1 when it took one to fail. */
  private origin = -1

  /** @param before a search that is over, whose lists this one takes over if they are long enough */
  constructor(links: LinkLists, finned?: FinnedLinks, before?: ChainSearch) {
    const size = links.nodeCount
    const lists = before && before.queue.length >= size ? before : undefined
    this.links = links
    this.finned = finned
    this.runs = lists?.runs ?? 0
    this.queue = lists?.queue ?? zeros(2 * size)
    this.depth = lists?.depth ?? zeros(2 * size)
    this.onRun = lists?.onRun ?? zeros(2 * size)
    this.offRun = lists?.offRun ?? zeros(2 * size)
    this.from = lists?.from ?? zeros(2 * size)
    this.by = lists?.by ?? zeros(2 * size)
    this.failedBy = lists?.failedBy ?? zeros(2 * size)
    this.seenByTarget = before?.seenByTarget ?? []
    this.placeRun = lists?.placeRun ?? zeros(finned ? 2 * size : 0)
    this.place = lists?.place ?? zeros(finned ? 2 * size : 0)
    this.linkAt = lists?.linkAt ?? []
    this.nextAt = lists?.nextAt ?? []
  }

  isOf(links: LinkLists): boolean {
    return this.links === links
  }

  /** Strong links of a shortest chain against the target, 0 when there is none of `most` or fewer. */
  run(target: number, most: number): number {
    const { links, finned, queue, depth, seenByTarget } = this
    const { weakStart, weakList } = finned ?? links
    this.begin(target)
    if (finned) this.takeLinksOf(finned, target)
    this.hold(target, 0)
    this.shortest = most + 1
    this.head++
    if (finned) this.failAll(weakList, weakStart[target]!, weakStart[target + 1]!, target, target)
    else this.failAll(seenByTarget, 0, links.addWeak(target, seenByTarget, 0), target, target)
    while (this.head < this.tail) {
      const holds = queue[this.head++]!
      // what has not been met by now takes two halves of this depth or more
      if (2 * depth[holds]! >= this.shortest) break
      this.failAll(weakList, weakStart[holds]!, weakStart[holds + 1]!, holds, target)
    }
    return this.shortest > most ? 0 : this.shortest
  }

  /**
   * Follows along plain links what holds when a node fails, by `most` strong links or fewer.
   *
   * @param until stops as soon as this node holds
   * @param parts only nodes whose number here is the same as the first one's are followed
   */
  runFailing(node: number, most: number, until = -1, parts?: readonly number[]): void {
    this.begin(-1)
    this.other = -1
    this.failAt(node, -1, 1)
    const { queue, depth, onRun, runs } = this
    const { weakStart, weakList } = this.links
    const part = parts?.[node]
    while (this.head < this.tail && (until < 0 || onRun[until] !== runs)) {
      const holds = queue[this.head++]!
      if (depth[holds]! >= most) continue
      const end = weakStart[holds + 1]!
      for (let k = weakStart[holds]!; k < end; k++)
        if (parts === undefined || parts[weakList[k]!] === part)
          this.failAt(weakList[k]!, holds, depth[holds]! + 1)
    }
  }

  /** The nodes that hold by the latest run. */
  holding(): readonly number[] {
    return this.queue.slice(0, this.tail)
  }

  /** Strong links from the failing of the latest run's node to the holding of another, 0 when it was not met. */
  lengthTo(node: number): number {
    return this.onRun[node] === this.runs ? this.depth[node]! : 0
  }

  /** The chain from the failing of the latest run's node to the holding of another that was met. */
  chainTo(node: number): Chain {
    this.one = node
    return this.chain()
  }

  /** The chain that the last successful run found: the two halves that met, as one. */
  chain(): Chain {
    const nodes: number[] = []
    const by: number[] = []
    this.walkBack(this.one, nodes, by)
    nodes.reverse()
    by.reverse()
    this.walkBack(this.other, nodes, by)
    const reasons = by.map((at) => (at < 0 ? this.finned!.reasons[~at]! : this.links.reasons[at]!))
    if (!this.finned && !this.links.fins) return { nodes, by: reasons }
    return { nodes, by: reasons, fins: by.map((at) => this.finsOf(at)) }
  }

  private walkBack(last: number, nodes: number[], by: number[]): void {
    for (let node = last; node !== this.origin; node = this.failedBy[this.from[node]!]!) {
      nodes.push(node, this.from[node]!)
      by.push(this.by[node]!)
    }
  }

  private finsOf(at: number): readonly number[] {
    return (at < 0 ? this.finned!.finsOf(~at) : this.links.fins?.[at]) ?? []
  }

  /**
   * All the shortest chains from the failing of the latest run's node to the holding of another that was met, but for
   * those that run through a node twice.
   */
  chainsTo(node: number, origin: number): Chain[] {
    const found: Chain[] = []
    this.addChains(node, origin, [node], [], found)
    return found
  }

  /** Adds the chains that end with these nodes and links, the first of which holds. */
  private addChains(
    holds: number,
    origin: number,
    nodes: readonly number[],
    by: readonly StrongReason[],
    found: Chain[],
  ): void {
    const { onRun, offRun, runs, depth } = this
    const { strongStart, strongTo, strongBy, weakStart, weakList, reasons } = this.links
    for (let k = strongStart[holds]!; k < strongStart[holds + 1]!; k++) {
      const fails = strongTo[k]!
      if (offRun[fails] !== runs || nodes.includes(fails) || found.length >= MOST_LOOPS) continue
      const links = [reasons[strongBy[k]!]!, ...by]
      if (fails === origin) {
        if (depth[holds] === 1) found.push({ nodes: [fails, ...nodes], by: links })
        continue
      }
      for (let j = weakStart[fails]!; j < weakStart[fails + 1]!; j++) {
        const before = weakList[j]!
        if (onRun[before] !== runs || depth[before] !== depth[holds]! - 1 || depth[before] === 0) continue
        if (!nodes.includes(before)) this.addChains(before, origin, [before, fails, ...nodes], links, found)
      }
    }
  }

  /** Begins a run that takes a node to hold, -1 for one that takes another to fail. */
  private begin(origin: number): void {
    this.runs++
    this.head = 0
    this.tail = 0
    this.origin = origin
  }

  private hold(node: number, depth: number): void {
    this.onRun[node] = this.runs
    this.depth[node] = depth
    this.queue[this.tail++] = node
  }

  private failAt(fails: number, holds: number, depth: number): void {
    if (this.offRun[fails] === this.runs) return
    this.offRun[fails] = this.runs
    this.failedBy[fails] = holds
    this.follow(fails, depth)
  }

  /** What a node that holds sees fails: the nodes between two places of a list. */
  private failAll(list: readonly number[], from: number, to: number, holds: number, target: number): void {
    const { offRun, onRun, failedBy, runs } = this
    const further = this.depth[holds]! + 1
    for (let k = from; k < to; k++) {
      const fails = list[k]!
      if (offRun[fails] === runs) continue
      offRun[fails] = runs
      failedBy[fails] = holds
      if (onRun[fails] === runs) this.meet(holds, fails)
      // what it makes hold may be too far to meet anything
      if (2 * further <= this.shortest) this.followToTarget(fails, further, target)
    }
  }

  /** The strong partners of a node that fails hold. */
  private follow(fails: number, depth: number): void {
    const { strongStart, strongTo, strongBy, size } = this.links
    if (fails >= size) return
    const { onRun, runs } = this
    const end = strongStart[fails + 1]!
    for (let k = strongStart[fails]!; k < end; k++) {
      const node = strongTo[k]!
      if (onRun[node] === runs) continue
      this.from[node] = fails
      this.by[node] = strongBy[k]!
      this.hold(node, depth)
    }
  }

  /** The same, where halves of a chain against the target may meet. */
  private followToTarget(fails: number, depth: number, target: number): void {
    const { links, tail: first } = this
    this.follow(fails, depth)
    if (this.finned && this.placeRun[fails] === this.runs) this.followFinned(this.finned, fails, depth)
    for (let i = first; i < this.tail; i++) {
      const node = this.queue[i]!
      if (links.areWeaklyLinked(node, target)) this.meet(node, target)
      else if (this.offRun[node] === this.runs) this.meet(node, this.failedBy[node]!)
    }
  }

  /** Both nodes hold, and they see each other. */
  private meet(one: number, other: number): void {
    const length = this.depth[one]! + this.depth[other]!
    if (length >= this.shortest) return
    this.shortest = length
    this.one = one
    this.other = other
  }

  /** Sorts the finned links that hold if the target does by their ends. */
  private takeLinksOf(finned: FinnedLinks, target: number): void {
    const { placeRun, place, linkAt, nextAt, runs } = this
    const { ends, fin, from, to, tieList, targetFrom, targetLists, listFrom, listTo } = finned
    let count = 0
    for (let at = targetFrom[target]!; at < targetFrom[target + 1]!; at++) {
      const list = targetLists[at]!
      for (let i = listFrom[list]!; i < listTo[list]!; i++) {
        const tie = tieList[i]!
        for (let j = from[tie]!; j < to[tie]!; j++) {
          const end = ends[j]!
          if (end === fin[tie]) continue
          linkAt[count] = tie
          nextAt[count] = placeRun[end] === runs ? place[end]! : -1
          placeRun[end] = runs
          place[end] = count++
        }
      }
    }
  }

  /** The partners of a node that fails by the target's finned links hold. */
  private followFinned({ ends, fin, from, to }: FinnedLinks, fails: number, depth: number): void {
    for (let at = this.place[fails]!; at >= 0; at = this.nextAt[at]!) {
      const tie = this.linkAt[at]!
      for (let j = from[tie]!; j < to[tie]!; j++) {
        const end = ends[j]!
        if (this.onRun[end] === this.runs || end === fails || end === fin[tie]) continue
        this.from[end] = fails
        this.by[end] = ~tie
        this.hold(end, depth)
      }
    }
  }
}

/** Loops through one weak link that are told apart: with more, it is a matter of order which are left out. */
const MOST_LOOPS = 200

/** The latest searches of a context: their lists serve the next graph's. */
class LatestSearches {
  plain: ChainSearch | undefined
  finned: ChainSearch | undefined
}

const latestSearches = (): LatestSearches => new LatestSearches()

/**
 * The search of a graph, which takes over the lists of the graph before: a chain must be read off before the next run.
 */
export function searchOf(graph: LinkGraph): ChainSearch {
  const latest = graph.nodes.facts.context.of(latestSearches)
  if (!latest.plain?.isOf(graph)) latest.plain = new ChainSearch(graph, undefined, latest.plain)
  return latest.plain
}

/** The same with the links that hold if the supposed candidate does. */
export function finnedSearchOf(graph: LinkGraph, finned: FinnedLinks): ChainSearch {
  const latest = graph.nodes.facts.context.of(latestSearches)
  latest.finned = new ChainSearch(graph, finned, latest.finned)
  return latest.finned
}
