import { ComponentLists, componentsOf } from './components.js'
import type { FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'

/**
 * The candidates, as nodes, that some chain with fins or without is against, however long: told without looking for a
 * chain.
 *
 * What the links of the graph lead to is the same for all candidates, and gathered once: for each node, all that holds
 * and fails when it fails, and when it holds. A candidate's own links then join a few of these sets.
 */
export function refutedWithFins(graph: LinkGraph, own: FinnedLinks): number[] {
  const leads = new Leads(graph, own)
  return graph.nodes.candidateNode.filter((node) => node >= 0 && leads.toItsFailing(node))
}

/** What serves board after board. */
class LeadLists {
  /** What nodes lead to, as bits: one for each node that holds, then one for each that fails. */
  reached = new Int32Array(0)
  /** node -> its place among those that count. */
  readonly placeOf: number[] = []
  /** The ends and fins of the candidates' own links, by place. */
  readonly ends: number[] = []
  readonly fins: number[] = []
  /**
   * place, if it fails, and count + place, if it holds -> where its bits start; -1 where it leads nowhere, as for most.
   */
  readonly start: number[] = []
  /** What follows from the candidate asked about. */
  readonly follows: number[] = []
  /** tie -> the latest candidate, as a node, for which its ends hold. */
  readonly usedFor: number[] = []
  readonly linkFrom: number[] = []
  readonly linkTo: number[] = []
  readonly components = new ComponentLists()
}

const leadLists = (): LeadLists => new LeadLists()

class Leads {
  private readonly own: FinnedLinks
  private readonly lists: LeadLists
  private readonly count: number
  /** Words of either half of the bits. */
  private readonly words: number
  private added = 0

  constructor(graph: LinkGraph, own: FinnedLinks) {
    const { linked, linkedCount: count } = own
    const lists = graph.nodes.facts.context.of(leadLists)
    const { placeOf, ends, fins, usedFor } = lists
    this.lists = lists
    for (let node = 0; node < graph.nodes.size; node++) placeOf[node] = -1
    for (let i = 0; i < count; i++) placeOf[linked[i]!] = i
    this.own = own
    for (let i = 0; i < own.endCount; i++) ends[i] = placeOf[own.ends[i]!]!
    for (let tie = 0; tie < own.ties; tie++) {
      fins[tie] = own.fin[tie]! < 0 ? -1 : placeOf[own.fin[tie]!]!
      usedFor[tie] = -1
    }
    this.count = count
    this.words = (count + 31) >>> 5
    this.gather(graph)
  }

  private gather({ size: plainSize, strongStart, strongTo }: LinkGraph): void {
    const { linkFrom, linkTo, placeOf, start } = this.lists
    const { own, count, words } = this
    let edges = 0
    linkFrom[0] = 0
    for (let i = 0; i < count; i++) {
      const node = own.linked[i]!
      const end = node < plainSize ? strongStart[node + 1]! : 0
      if (node < plainSize)
        for (let k = strongStart[node]!; k < end; k++) linkTo[edges++] = count + placeOf[strongTo[k]!]!
      linkFrom[i + 1] = edges
    }
    for (let i = 0; i < count; i++) {
      const node = own.linked[i]!
      const end = own.weakStart[node + 1]!
      for (let k = own.weakStart[node]!; k < end; k++) linkTo[edges++] = placeOf[own.weakList[k]!]!
      linkFrom[count + i + 1] = edges
    }
    const components = componentsOf(2 * count, linkFrom, linkTo, this.lists.components)
    let size = 0
    for (let vertex = 0; vertex < 2 * count; vertex++) start[vertex] = -1
    for (let i = 0, latest = -1; i < 2 * count; i++) {
      const vertex = components.nodes[i]!
      if (linkFrom[vertex] === linkFrom[vertex + 1]) continue
      if (components.of[vertex] !== latest) size += 2 * words
      latest = components.of[vertex]!
      start[vertex] = size - 2 * words
    }
    const { lists } = this
    if (lists.reached.length < size) lists.reached = new Int32Array(2 * size)
    else lists.reached.fill(0, 0, size)
    const bits = lists.reached
    for (let i = 0; i < 2 * count; i++) {
      const vertex = components.nodes[i]!
      const at = start[vertex]!
      if (at < 0) continue
      bits[at + this.wordOf(vertex)]! |= this.bitOf(vertex)
      for (let k = linkFrom[vertex]!; k < linkFrom[vertex + 1]!; k++) {
        const next = linkTo[k]!
        const other = start[next]!
        // what leads to it leads to all that it leads to
        if (other === at || (bits[at + this.wordOf(next)]! & this.bitOf(next)) !== 0) continue
        if (other < 0) bits[at + this.wordOf(next)]! |= this.bitOf(next)
        else for (let w = 0; w < 2 * words; w++) bits[at + w]! |= bits[other + w]!
      }
    }
  }

  private wordOf(vertex: number): number {
    return vertex < this.count ? this.words + (vertex >>> 5) : (vertex - this.count) >>> 5
  }

  private bitOf(vertex: number): number {
    return 1 << ((vertex < this.count ? vertex : vertex - this.count) & 31)
  }

  /** Does a candidate, taken to hold, make something hold and fail? */
  toItsFailing(target: number): boolean {
    const { follows, placeOf } = this.lists
    const { own } = this
    for (let w = 0; w < 2 * this.words; w++) follows[w] = 0
    if (this.add(this.count + placeOf[target]!)) return true
    const { targetFrom, targetLists } = own
    for (let before = -1; before !== this.added; ) {
      before = this.added
      for (let i = targetFrom[target]!; i < targetFrom[target + 1]!; i++)
        if (this.addTied(targetLists[i]!, target)) return true
    }
    return false
  }

  /** Adds what the ties of a list make hold; true when something holds and fails by now. */
  private addTied(list: number, target: number): boolean {
    const { usedFor, ends, follows, fins } = this.lists
    const { words } = this
    const { from, to, tieList, listFrom, listTo } = this.own
    for (let i = listFrom[list]!; i < listTo[list]!; i++) {
      const tie = tieList[i]!
      if (usedFor[tie] === target) continue
      for (let j = from[tie]!; j < to[tie]!; j++) {
        const place = ends[j]!
        if (!((follows[words + (place >>> 5)]! >>> (place & 31)) & 1) || place === fins[tie]) continue
        if (this.addOthers(tie, place)) return true
        // all its other ends hold by now: one that fails later on is found to hold as well
        usedFor[tie] = target
        break
      }
    }
    return false
  }

  /** One end of a tie fails, so all the others hold. */
  private addOthers(tie: number, failing: number): boolean {
    const { ends, fins, follows } = this.lists
    for (let k = this.own.from[tie]!; k < this.own.to[tie]!; k++) {
      const place = ends[k]!
      if (place === failing || place === fins[tie] || (follows[place >>> 5]! >>> (place & 31)) & 1) continue
      if (this.add(this.count + place)) return true
    }
    return false
  }

  /** Adds a node's holding and what it leads to; true when something holds and fails by now. */
  private add(vertex: number): boolean {
    const { start, follows, reached } = this.lists
    const { words } = this
    const at = start[vertex]!
    this.added++
    if (at < 0) {
      const bit = this.bitOf(vertex)
      follows[this.wordOf(vertex)]! |= bit
      return (follows[words + this.wordOf(vertex)]! & bit) !== 0
    }
    let clash = 0
    for (let w = 0; w < words; w++) {
      follows[w]! |= reached[at + w]!
      follows[words + w]! |= reached[at + words + w]!
      clash |= follows[w]! & follows[words + w]!
    }
    return clash !== 0
  }
}
