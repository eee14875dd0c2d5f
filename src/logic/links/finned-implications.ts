import { filled, zeros } from '../number-lists.js'
import { componentsOf } from './components.js'
import type { FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'

/**
 * The candidates, as nodes, that some chain with fins or without is against, however long: told without looking for a chain.
 *
 * What the links of the graph lead to is the same for all candidates, and gathered once: for each node, all that holds and fails
 * when it fails, and when it holds. A candidate's own links then join a few of these sets.
 */
export function refutedWithFins(graph: LinkGraph, own: FinnedLinks): number[] {
  const leads = new Leads(graph, own)
  return graph.nodes.candidateNode.filter((node) => node >= 0 && leads.toItsFailing(node))
}

/** What nodes lead to, as bits: one for each node that holds, then one for each that fails. Serves board after board. */
let reached = new Int32Array(0)

class Leads {
  private readonly own: FinnedLinks
  /** node -> its place among those that count. */
  private readonly placeOf: readonly number[]
  private readonly count: number
  /** Words of either half of the bits. */
  private readonly words: number
  /** place, if it fails, and count + place, if it holds -> where its bits start; -1 where it leads nowhere, as for most. */
  private readonly start: readonly number[]
  /** What follows from the candidate asked about. */
  private readonly follows: number[]
  /** The ends and fins of the candidates' own links, by place. */
  private readonly ends: readonly number[]
  private readonly fins: readonly number[]
  private added = 0

  constructor(graph: LinkGraph, own: FinnedLinks) {
    const { linked } = own
    const count = linked.length
    const placeOf = zeros(graph.nodes.size)
    for (let i = 0; i < count; i++) placeOf[linked[i]!] = i
    this.own = own
    this.placeOf = placeOf
    this.ends = own.ends.map((end) => placeOf[end]!)
    this.fins = own.fin.map((fin) => (fin < 0 ? -1 : placeOf[fin]!))
    this.count = count
    this.words = (count + 31) >>> 5
    this.follows = zeros(2 * this.words)
    this.start = this.gather(graph)
  }

  private gather({ strongStart, strongTo }: LinkGraph): number[] {
    const { own, placeOf, count, words } = this
    const from = zeros(2 * count + 1)
    const to: number[] = []
    for (let i = 0; i < count; i++) {
      const node = own.linked[i]!
      const end = strongStart[node + 1] ?? 0
      for (let k = strongStart[node]!; k < end; k++) to.push(count + placeOf[strongTo[k]!]!)
      from[i + 1] = to.length
    }
    for (let i = 0; i < count; i++) {
      const weak = own.weakTo(own.linked[i]!)
      for (let j = 0; j < weak.length; j++) to.push(placeOf[weak[j]!]!)
      from[count + i + 1] = to.length
    }
    const components = componentsOf(from, to)
    const start = filled(2 * count, -1)
    let size = 0
    for (let i = 0, latest = -1; i < 2 * count; i++) {
      const vertex = components.nodes[i]!
      if (from[vertex] === from[vertex + 1]) continue
      if (components.of[vertex] !== latest) size += 2 * words
      latest = components.of[vertex]!
      start[vertex] = size - 2 * words
    }
    if (reached.length < size) reached = new Int32Array(2 * size)
    else reached.fill(0, 0, size)
    const bits = reached
    for (let i = 0; i < 2 * count; i++) {
      const vertex = components.nodes[i]!
      const at = start[vertex]!
      if (at < 0) continue
      bits[at + this.wordOf(vertex)]! |= this.bitOf(vertex)
      for (let k = from[vertex]!; k < from[vertex + 1]!; k++) {
        const next = to[k]!
        const other = start[next]!
        // what leads to it leads to all that it leads to
        if (other === at || (bits[at + this.wordOf(next)]! & this.bitOf(next)) !== 0) continue
        if (other < 0) bits[at + this.wordOf(next)]! |= this.bitOf(next)
        else for (let w = 0; w < 2 * words; w++) bits[at + w]! |= bits[other + w]!
      }
    }
    return start
  }

  private wordOf(vertex: number): number {
    return vertex < this.count ? this.words + (vertex >>> 5) : (vertex - this.count) >>> 5
  }

  private bitOf(vertex: number): number {
    return 1 << ((vertex < this.count ? vertex : vertex - this.count) & 31)
  }

  /** Does a candidate, taken to hold, make something hold and fail? */
  toItsFailing(target: number): boolean {
    const { own, placeOf, follows } = this
    follows.fill(0)
    if (this.add(this.count + placeOf[target]!)) return true
    const lists = own.ofTarget[target]!
    for (let before = -1; before !== this.added; ) {
      before = this.added
      for (let i = 0; i < lists.length; i++) if (this.addTied(lists[i]!)) return true
    }
    return false
  }

  /** Adds what these ties make hold; true when something holds and fails by now. */
  private addTied(ties: readonly number[]): boolean {
    const { ends, fins, follows, words } = this
    const { from, to } = this.own
    for (let i = 0; i < ties.length; i++) {
      const tie = ties[i]!
      for (let j = from[tie]!; j < to[tie]!; j++) {
        const place = ends[j]!
        if (!((follows[words + (place >>> 5)]! >>> (place & 31)) & 1) || place === fins[tie]) continue
        if (this.addOthers(tie, place)) return true
      }
    }
    return false
  }

  /** One end of a tie fails, so all the others hold. */
  private addOthers(tie: number, failing: number): boolean {
    const { ends, fins, follows } = this
    for (let k = this.own.from[tie]!; k < this.own.to[tie]!; k++) {
      const place = ends[k]!
      if (place === failing || place === fins[tie] || (follows[place >>> 5]! >>> (place & 31)) & 1) continue
      if (this.add(this.count + place)) return true
    }
    return false
  }

  /** Adds a node's holding and what it leads to; true when something holds and fails by now. */
  private add(vertex: number): boolean {
    const { follows, words } = this
    const at = this.start[vertex]!
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
