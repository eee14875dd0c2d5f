import { ComponentLists, type Components, componentsOf } from './components.js'
import type { LinkGraph } from './graph.js'

/**
 * The candidates, as nodes, that some chain of a graph is against, however long: told without looking for a chain.
 *
 * Links are implications: when a node fails its strong partners hold, and what these see fails. What follows is
 * gathered once for all nodes whose failing leads to each other's, so the time is that of looking at every link once.
 * Most boards hold no chain of a kind, and this settles it. Worked out once for a graph, which techniques may share.
 */
export function refutedIn(graph: LinkGraph): readonly number[] {
  if (!graph.refuted) {
    const lists = graph.nodes.facts.context.of(innerLists)
    const inner = innerNodes(graph, lists)
    graph.refuted = new Gathering(graph, inner, lists, innerComponents(graph, inner, lists)).refuted()
  }
  return graph.refuted
}

/**
 * node -> a number shared by all nodes whose failing leads to each other's: a loop runs through such nodes only; -1 for
 * none.
 */
export function failingTogether(graph: LinkGraph): readonly number[] {
  const lists = graph.nodes.facts.context.of(innerLists)
  const { of } = innerComponents(graph, innerNodes(graph, lists), lists)
  const { places } = lists
  return Array.from({ length: graph.size }, (_, node) => (places[node]! < 0 ? -1 : of[places[node]!]!))
}

/** What only matters while these are worked out: such lists serve graph after graph, as far as they are filled. */
class InnerLists {
  /** node -> its place among the inner nodes, -1 for none. */
  readonly places: number[] = []
  readonly innerList: number[] = []
  readonly from: number[] = []
  /** Where links lead. */
  readonly to: number[] = []
  /** Sets of candidates, a few words each: what nodes see, and what fails with a component. */
  seenSets: Int32Array = new Int32Array(0)
  failingSets: Int32Array = new Int32Array(0)
  readonly met: number[] = []
  readonly components = new ComponentLists()
}

const innerLists = (): InnerLists => new InnerLists()

/** The nodes that others see, how many. A node that no other sees only begins or ends a chain. */
function innerNodes({ size, weakStart }: LinkGraph, { places, innerList }: InnerLists): number {
  let inner = 0
  for (let node = 0; node < size; node++) {
    places[node] = -1
    if (weakStart[node + 1]! === weakStart[node]!) continue
    innerList[inner] = node
    places[node] = inner++
  }
  return inner
}

/**
 * What leads to each other among the failing of each inner node, by its place, and its holding, by the number of them +
 * its place.
 */
function innerComponents(graph: LinkGraph, inner: number, lists: InnerLists): Components {
  const { places, innerList, from, to } = lists
  const { strongStart, strongTo, weakStart, weakList } = graph
  let count = 0
  from[0] = 0
  for (let i = 0; i < inner; i++) {
    const end = strongStart[innerList[i]! + 1]!
    for (let k = strongStart[innerList[i]!]!; k < end; k++) {
      const place = places[strongTo[k]!]!
      if (place >= 0) to[count++] = inner + place
    }
    from[i + 1] = count
  }
  for (let i = 0; i < inner; i++) {
    const end = weakStart[innerList[i]! + 1]!
    for (let k = weakStart[innerList[i]!]!; k < end; k++) to[count++] = places[weakList[k]!]!
    from[inner + i + 1] = count
  }
  return componentsOf(2 * inner, from, to, lists.components)
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
  private readonly lists: InnerLists
  private readonly components: Components
  private readonly words: number
  private readonly seen: Int32Array
  /** The sets of the components, and one more for the nodes that have none. */
  private readonly failing: Int32Array

  constructor(graph: LinkGraph, inner: number, lists: InnerLists, components: Components) {
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
    const { innerList, met, places } = this.lists
    const { graph, inner, words, seen, failing } = this
    const { count, of, nodes: vertices } = this.components
    for (let i = 0; i < 2 * inner; i++) {
      const vertex = vertices[i]!
      if (vertex < inner) this.addPartners(innerList[vertex]!, of[vertex]! * words)
      else this.addSeen(innerList[vertex - inner]!, of[vertex]! * words)
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
      for (let rest = met[w]!; rest !== 0; rest &= rest - 1)
        refuted.push(w * 32 + 31 - Math.clz32(rest & -rest))
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
        const candidate = candidateNode[(w * 32 + 31 - Math.clz32(rest & -rest)) * order + digit - 1]!
        seen[at + (candidate >>> 5)]! |= 1 << (candidate & 31)
      }
    }
    const cells = nodes.cells[node]!
    if (!withinCells || cells.length !== 1) return
    for (let rest = board.candidates[cells[0]!]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1) {
      const candidate = nodes.candidate(cells[0]!, 32 - Math.clz32(rest & -rest))
      seen[at + (candidate >>> 5)]! |= 1 << (candidate & 31)
    }
  }
}
