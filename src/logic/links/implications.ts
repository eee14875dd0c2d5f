import { filled, zeros } from '../number-lists.js'
import { type Components, componentsOf } from './components.js'
import type { LinkGraph } from './graph.js'

/**
 * What the links of a graph lead to, however long the way, told without looking for a chain.
 *
 * Links are implications: when a node fails its strong partners hold, and what these see fails. What follows is gathered once for
 * all nodes whose failing leads to each other's, so the time is that of looking at every link once. Most boards hold no chain of
 * a kind, and this settles it.
 */
export interface Implications {
  /** The candidates, as nodes, that some chain is against: their holding leads to their failing. */
  readonly refuted: readonly number[]
  /** node -> a number shared by all nodes whose failing leads to each other's: a loop runs through such nodes only; -1 for none. */
  readonly failingTogether: readonly number[]
}

const known = new WeakMap<LinkGraph, Implications>()

/** Worked out once for a graph, which techniques may share. */
export function implicationsOf(graph: LinkGraph): Implications {
  let implications = known.get(graph)
  if (!implications) {
    implications = workedOut(graph)
    known.set(graph, implications)
  }
  return implications
}

function workedOut(graph: LinkGraph): Implications {
  const { linked, nodes } = graph
  // a node that no other sees only begins or ends a chain; from here on the others go by their place in this list
  const places = filled(nodes.size, -1)
  const inner: number[] = []
  for (let i = 0; i < linked.length; i++)
    if (graph.weakTo(linked[i]!).length > 0) places[linked[i]!] = inner.push(linked[i]!) - 1
  const components = innerComponents(graph, inner, places)
  const failingTogether = filled(nodes.size, -1)
  for (let i = 0; i < inner.length; i++) failingTogether[inner[i]!] = components.of[i]!
  return { refuted: new Gathering(graph, inner, places, components).refuted(), failingTogether }
}

/** Where links lead; serves graph after graph, as far as it is filled. */
const to: number[] = []

/** What leads to each other among the failing of each inner node, by its place, and its holding, by the number of them + its place. */
function innerComponents(graph: LinkGraph, inner: readonly number[], places: readonly number[]): Components {
  const { strongStart, strongTo } = graph
  const from = zeros(2 * inner.length + 1)
  let count = 0
  for (let i = 0; i < inner.length; i++) {
    const end = strongStart[inner[i]! + 1]!
    for (let k = strongStart[inner[i]!]!; k < end; k++) {
      const place = places[strongTo[k]!]!
      if (place >= 0) to[count++] = inner.length + place
    }
    from[i + 1] = count
  }
  for (let i = 0; i < inner.length; i++) {
    const weak = graph.weakTo(inner[i]!)
    for (let j = 0; j < weak.length; j++) to[count++] = places[weak[j]!]!
    from[inner.length + i + 1] = count
  }
  return componentsOf(from, to)
}

/** Sets of candidates, a few words each: what nodes see, and what fails with a component. They serve graph after graph. */
let seenSets: Int32Array = new Int32Array(0)
let failingSets: Int32Array = new Int32Array(0)

function cleared(list: Int32Array, length: number): Int32Array {
  if (list.length < length) return new Int32Array(2 * length)
  list.fill(0, 0, length)
  return list
}

/** What fails with each component, gathered component by component. */
class Gathering {
  private readonly graph: LinkGraph
  private readonly inner: readonly number[]
  private readonly places: readonly number[]
  private readonly components: Components
  private readonly words: number
  private readonly seen: Int32Array
  /** The sets of the components, and one more for the nodes that have none. */
  private readonly failing: Int32Array

  constructor(graph: LinkGraph, inner: readonly number[], places: readonly number[], components: Components) {
    const { nodes, linked } = graph
    this.graph = graph
    this.inner = inner
    this.places = places
    this.components = components
    this.words = (nodes.candidates + 31) >>> 5
    this.seen = seenSets = cleared(seenSets, nodes.size * this.words)
    this.failing = failingSets = cleared(failingSets, (components.count + 1) * this.words)
    for (let i = 0; i < linked.length; i++) this.see(linked[i]!)
  }

  /** The candidates that make a node fail that makes them fail. */
  refuted(): number[] {
    const { graph, inner, places, words, seen, failing } = this
    const { count, of, nodes: vertices } = this.components
    for (let i = 0; i < vertices.length; i++) {
      const vertex = vertices[i]!
      if (vertex < inner.length) this.addPartners(inner[vertex]!, of[vertex]! * words)
      else this.addSeen(inner[vertex - inner.length]!, of[vertex]! * words)
    }
    const met = zeros(words)
    const { linked } = graph
    for (let i = 0; i < linked.length; i++) {
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
    const { inner, places, words, seen, failing } = this
    const { of } = this.components
    const { strongStart, strongTo } = this.graph
    const end = strongStart[node + 1]!
    for (let k = strongStart[node]!; k < end; k++) {
      const holds = strongTo[k]!
      const place = places[holds]!
      const other = place < 0 ? holds * words : of[inner.length + place]! * words
      if (place < 0) for (let w = 0; w < words; w++) failing[set + w]! |= seen[other + w]!
      else if (other !== set) for (let w = 0; w < words; w++) failing[set + w]! |= failing[other + w]!
    }
  }

  /** Adds to a set what fails when an inner node holds. */
  private addSeen(node: number, set: number): void {
    const { places, words, seen, failing } = this
    const { of } = this.components
    for (let w = 0; w < words; w++) failing[set + w]! |= seen[node * words + w]!
    const weak = this.graph.weakTo(node)
    for (let i = 0; i < weak.length; i++) {
      const other = of[places[weak[i]!]!]! * words
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
