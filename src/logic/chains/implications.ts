import { firstDigit, lowestBit } from '../../grid/digits.js'
import { ComponentLists, type Components, componentsOf } from './components.js'
import type { FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'

/**
 * The candidates, as nodes, that some chain of a graph is against, however long, without looking for a chain.
 *
 * Links are implications: when a node fails its strong partners hold, and what these see fails. What follows is
 * gathered once for all nodes whose failing leads to each other's, so the time is that of looking at every link once.
 * Most boards hold no chain of a kind, and this settles it. Worked out once for a graph, which techniques may share.
 */
export function refutedIn(graph: LinkGraph): readonly number[] {
  if (!graph.refuted) {
    const lists = graph.nodes.facts.context.of(implicationLists)
    const inner = innerNodes(graph, lists)
    graph.refuted = new Gathering(graph, inner, lists, componentsAmong(graph, graph, inner, lists)).refuted()
  }
  return graph.refuted
}

/**
 * node -> a number shared by all nodes whose failing leads to each other's: a loop runs through such nodes only; -1 for
 * none.
 */
export function failingTogether(graph: LinkGraph): readonly number[] {
  const lists = graph.nodes.facts.context.of(implicationLists)
  const { of } = componentsAmong(graph, graph, innerNodes(graph, lists), lists)
  const { places } = lists
  return Array.from({ length: graph.size }, (_, node) => (places[node]! < 0 ? -1 : of[places[node]!]!))
}

/**
 * The candidates, as nodes, that some chain with fins or without is against, however long.
 *
 * What the links of the graph lead to is the same for all candidates, and gathered once: for each node, all that holds
 * and fails when it fails, and when it holds. A candidate's own links then join a few of these sets.
 */
export function refutedWithFins(graph: LinkGraph, own: FinnedLinks): number[] {
  const leads = new Leads(graph, own)
  return graph.nodes.candidateNode.filter((node) => node >= 0 && leads.toItsFailing(node))
}

/** What only matters while these are worked out: such lists serve graph after graph, as far as they are filled. */
class ImplicationLists {
  /** node -> its place among those that count, -1 for none; and the node at each place. */
  readonly places: number[] = []
  readonly list: number[] = []
  readonly from: number[] = []
  /** Where links lead. */
  readonly to: number[] = []
  readonly components = new ComponentLists()
  /** Of plain links, sets of candidates, a few words each: what nodes see, and what fails with a component. */
  seenSets: Int32Array = new Int32Array(0)
  failingSets: Int32Array = new Int32Array(0)
  readonly met: number[] = []
  /** With fins, what nodes lead to, as bits: one for each node that holds, then one for each that fails. */
  reached: Int32Array = new Int32Array(0)
  /**
   * place, if it fails, and count + place, if it holds -> where its bits start; -1 where it leads nowhere, as for most.
   */
  readonly start: number[] = []
  /** The ends and fins of the candidates' own links, by place. */
  readonly ends: number[] = []
  readonly fins: number[] = []
  /** What follows from the candidate asked about. */
  readonly follows: number[] = []
  /** tie -> the latest candidate, as a node, for which its ends hold. */
  readonly usedFor: number[] = []
}

const implicationLists = (): ImplicationLists => new ImplicationLists()

/** The nodes that others see, how many. A node that no other sees only begins or ends a chain. */
function innerNodes({ size, weakStart }: LinkGraph, { places, list }: ImplicationLists): number {
  let inner = 0
  for (let node = 0; node < size; node++) {
    places[node] = -1
    if (weakStart[node + 1]! === weakStart[node]!) continue
    list[inner] = node
    places[node] = inner++
  }
  return inner
}

/**
 * What leads to each other among the failing of so many nodes of the list, by their places, and their holding, by count
 * + place.
 */
function componentsAmong(
  { size, strongStart, strongTo }: LinkGraph,
  { weakStart, weakList }: Pick<LinkGraph, 'weakStart' | 'weakList'>,
  count: number,
  lists: ImplicationLists,
): Components {
  const { places, list, from, to } = lists
  let edges = 0
  from[0] = 0
  for (let i = 0; i < count; i++) {
    const node = list[i]!
    const end = node < size ? strongStart[node + 1]! : 0
    for (let k = node < size ? strongStart[node]! : 0; k < end; k++) {
      const place = places[strongTo[k]!]!
      if (place >= 0) to[edges++] = count + place
    }
    from[i + 1] = edges
  }
  for (let i = 0; i < count; i++) {
    const end = weakStart[list[i]! + 1]!
    for (let k = weakStart[list[i]!]!; k < end; k++) to[edges++] = places[weakList[k]!]!
    from[count + i + 1] = edges
  }
  return componentsOf(2 * count, from, to, lists.components)
}

function cleared(list: Int32Array, length: number): Int32Array {
  if (list.length < length) return new Int32Array(2 * length)
  list.fill(0, 0, length)
  return list
}

/** What fails with each component, gathered component by component. */
class Gathering {
  private readonly graph: LinkGraph
  private readonly inner: number
  private readonly lists: ImplicationLists
  private readonly components: Components
  private readonly words: number
  private readonly seen: Int32Array
  /** The sets of the components, and one more for the nodes that have none. */
  private readonly failing: Int32Array

  constructor(graph: LinkGraph, inner: number, lists: ImplicationLists, components: Components) {
    const { nodes, linked, linkedCount } = graph
    this.graph = graph
    this.inner = inner
    this.components = components
    this.words = (nodes.candidates + 31) >>> 5
    lists.seenSets = cleared(lists.seenSets, graph.size * this.words)
    lists.failingSets = cleared(lists.failingSets, (components.count + 1) * this.words)
    this.lists = lists
    this.seen = lists.seenSets
    this.failing = lists.failingSets
    for (let i = 0; i < linkedCount; i++) this.see(linked[i]!)
  }

  /** The candidates that make a node fail that makes them fail. */
  refuted(): number[] {
    const { list, met, places } = this.lists
    const { graph, inner, words, seen, failing } = this
    const { count, of, nodes: vertices } = this.components
    for (let i = 0; i < 2 * inner; i++) {
      const vertex = vertices[i]!
      if (vertex < inner) this.addPartners(list[vertex]!, of[vertex]! * words)
      else this.addSeen(list[vertex - inner]!, of[vertex]! * words)
    }
    for (let w = 0; w < words; w++) met[w] = 0
    const { linked, linkedCount } = graph
    for (let i = 0; i < linkedCount; i++) {
      const at = linked[i]! * words
      const place = places[linked[i]!]!
      const set = (place < 0 ? count : of[place]!) * words
      if (place < 0) {
        for (let w = 0; w < words; w++) failing[set + w] = 0
        this.addPartners(linked[i]!, set)
      }
      for (let w = 0; w < words; w++) met[w]! |= seen[at + w]! & failing[set + w]!
    }
    const refuted: number[] = []
    for (let w = 0; w < words; w++)
      for (let rest = met[w]!; rest !== 0; rest &= rest - 1) refuted.push(w * 32 + lowestBit(rest))
    return refuted
  }

  /** Adds to a set what fails when a node does, because its strong partners hold. */
  private addPartners(node: number, set: number): void {
    const { places } = this.lists
    const { inner, words, seen, failing } = this
    const { of } = this.components
    const { strongStart, strongTo } = this.graph
    const end = strongStart[node + 1]!
    for (let k = strongStart[node]!; k < end; k++) {
      const holds = strongTo[k]!
      const place = places[holds]!
      const other = place < 0 ? holds * words : of[inner + place]! * words
      if (place < 0) for (let w = 0; w < words; w++) failing[set + w]! |= seen[other + w]!
      else if (other !== set) for (let w = 0; w < words; w++) failing[set + w]! |= failing[other + w]!
    }
  }

  /** Adds to a set what fails when an inner node holds. */
  private addSeen(node: number, set: number): void {
    const { places } = this.lists
    const { words, seen, failing } = this
    const { of } = this.components
    for (let w = 0; w < words; w++) failing[set + w]! |= seen[node * words + w]!
    const { weakStart, weakList } = this.graph
    const end = weakStart[node + 1]!
    for (let k = weakStart[node]!; k < end; k++) {
      const other = of[places[weakList[k]!]!]! * words
      if (other !== set) for (let w = 0; w < words; w++) failing[set + w]! |= failing[other + w]!
    }
  }

  /** Notes which candidates cannot hold when a node does. */
  private see(node: number): void {
    const { seen } = this
    const { nodes, withinCells } = this.graph
    const { words, peers, digitCells, candidateNode, board } = nodes
    const { order } = board.geometry
    const at = node * this.words
    const digit = nodes.digit[node]!
    for (let w = 0; w < words; w++) {
      let rest = peers[node * words + w]! & digitCells[(digit - 1) * words + w]!
      for (; rest !== 0; rest &= rest - 1) {
        const candidate = candidateNode[(w * 32 + lowestBit(rest)) * order + digit - 1]!
        seen[at + (candidate >>> 5)]! |= 1 << (candidate & 31)
      }
    }
    const cells = nodes.cells[node]!
    if (!withinCells || cells.length !== 1) return
    for (let rest = board.candidates[cells[0]!]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1) {
      const candidate = nodes.candidate(cells[0]!, firstDigit(rest))
      seen[at + (candidate >>> 5)]! |= 1 << (candidate & 31)
    }
  }
}

/** What links lead to, node by node, and what a candidate's own links add. */
class Leads {
  private readonly own: FinnedLinks
  private readonly lists: ImplicationLists
  private readonly count: number
  /** Words of either half of the bits. */
  private readonly words: number
  private added = 0

  constructor(graph: LinkGraph, own: FinnedLinks) {
    const { linked, linkedCount: count } = own
    const lists = graph.nodes.facts.context.of(implicationLists)
    const { places, list, ends, fins, usedFor } = lists
    for (let node = 0; node < graph.nodes.size; node++) places[node] = -1
    for (let i = 0; i < count; i++) {
      places[linked[i]!] = i
      list[i] = linked[i]!
    }
    this.lists = lists
    this.own = own
    for (let i = 0; i < own.endCount; i++) ends[i] = places[own.ends[i]!]!
    for (let tie = 0; tie < own.ties; tie++) {
      fins[tie] = own.fin[tie]! < 0 ? -1 : places[own.fin[tie]!]!
      usedFor[tie] = -1
    }
    this.count = count
    this.words = (count + 31) >>> 5
    this.gather(graph)
  }

  private gather(graph: LinkGraph): void {
    const { lists, own, count, words } = this
    const { from, to, start } = lists
    const components = componentsAmong(graph, own, count, lists)
    let size = 0
    for (let vertex = 0; vertex < 2 * count; vertex++) start[vertex] = -1
    for (let i = 0, latest = -1; i < 2 * count; i++) {
      const vertex = components.nodes[i]!
      if (from[vertex] === from[vertex + 1]) continue
      if (components.of[vertex] !== latest) size += 2 * words
      latest = components.of[vertex]!
      start[vertex] = size - 2 * words
    }
    lists.reached = cleared(lists.reached, size)
    const bits = lists.reached
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
  }

  private wordOf(vertex: number): number {
    return vertex < this.count ? this.words + (vertex >>> 5) : (vertex - this.count) >>> 5
  }

  private bitOf(vertex: number): number {
    return 1 << ((vertex < this.count ? vertex : vertex - this.count) & 31)
  }

  /** Does a candidate, taken to hold, make something hold and fail? */
  toItsFailing(target: number): boolean {
    const { follows, places } = this.lists
    const { own } = this
    for (let w = 0; w < 2 * this.words; w++) follows[w] = 0
    if (this.add(this.count + places[target]!)) return true
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
