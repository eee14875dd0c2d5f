import { type DigitSet, digitBit, firstDigit } from '../../grid/digits.js'
import type { Task, Watch } from '../../limits.js'
import type { Facts } from '../facts/facts.js'
import { type AlmostLockedSet, almostLockedSets, prepareAlmostLocked } from '../sets/almost-locked.js'
import type { LinkLists, StrongReason } from './chain.js'
import { groupedTies, type HouseTie, plainTies } from './house-ties.js'
import { type NodeTable, nodesOf, oncePerTable } from './nodes.js'
import { Sight } from './sight.js'

/** Which links a graph is made of. */
export interface LinkKinds {
  /** Strong links of cells with two candidates. */
  readonly cells?: boolean
  /** Strong links of houses with two places for a digit. */
  readonly houses?: boolean
  /** Strong links of houses whose places for a digit fall into two groups. */
  readonly groups?: boolean
  /** Strong links of almost locked sets of this many cells at most, cells with two candidates among them. */
  readonly setsOf?: number
  /** Weak links between two digits of one cell; off for one-digit chains and chains of cells. */
  readonly withinCells?: boolean
}

/** What only matters while a graph is made: these lists serve graph after graph. */
class MakingLists {
  /** The ends of links, two and two. */
  readonly ends: number[] = []
  /** node -> where the next of its links goes. */
  readonly next: number[] = []
}

const makingLists = (): MakingLists => new MakingLists()

/**
 * What a graph is made of. The next graph of the same kinds takes it over: only the latest board's graphs are asked
 * about.
 */
export class GraphLists {
  readonly reasons: StrongReason[] = []
  readonly strongStart: number[] = []
  readonly strongTo: number[] = []
  readonly strongBy: number[] = []
  readonly weakStart: number[] = []
  readonly weakList: number[] = []
  readonly linked: number[] = []
  readonly sight = new Sight()
}

/**
 * The strong links of a board as a graph, with weak links between their ends. Strong links go both ways:
 * `strongTo[strongStart[n] .. strongStart[n + 1]]` are the nodes that hold when node n does not. Likewise
 * `weakList[weakStart[n] .. weakStart[n + 1]]` are the nodes with strong links that cannot hold when node n, one of
 * them, does. Lists may be longer than that: the rest is of other graphs.
 *
 * Every node of a chain is seen by a candidate: one next to it in the chain, or the one that the chain is against. Most
 * places of a digit in an almost locked set are not, so their links are left out.
 */
export class LinkGraph implements LinkLists {
  readonly nodes: NodeTable
  /** How many nodes there were when the graph was made: those that came later have no links. */
  readonly size: number
  readonly reasons: readonly StrongReason[]
  readonly strongStart: readonly number[]
  readonly strongTo: readonly number[]
  /** For each entry of `strongTo`: index into `reasons`. */
  readonly strongBy: readonly number[]
  readonly weakStart: readonly number[]
  readonly weakList: readonly number[]
  readonly withinCells: boolean
  /** Nodes that have strong links, and how many they are. */
  readonly linked: readonly number[]
  readonly linkedCount: number
  private readonly sight: Sight
  /** What `refutedIn` says of it, once asked. */
  refuted: readonly number[] | undefined

  /**
   * @param lists what the graph is made of, taken over from another
   * @param digits only links of these digits; links of cells and sets are those of all digits
   */
  constructor(facts: Facts, kinds: LinkKinds, lists = new GraphLists(), digits: DigitSet = -1) {
    const nodes = nodesOf(facts)
    const { ends, next } = facts.context.of(makingLists)
    const { reasons, strongStart: start, strongTo: to, strongBy: by } = lists
    let count = 0
    const link: Link = (a, b, reason) => {
      reasons[count >> 1] = reason
      ends[count++] = a
      ends[count++] = b
    }
    if (kinds.cells) linkCells(nodes, link)
    if (kinds.houses) linkHouses(nodes, digits, plainTies, link)
    if (kinds.groups) linkHouses(nodes, digits, groupedTies, link)
    if (kinds.setsOf) linkSets(nodes, kinds.setsOf, kinds.cells === true, link)
    const { size } = nodes
    this.nodes = nodes
    this.size = size
    this.reasons = reasons
    this.withinCells = kinds.withinCells ?? false
    this.sight = lists.sight

    for (let node = 0; node <= size; node++) start[node] = 0
    for (let i = 0; i < count; i++) start[ends[i]! + 1]!++
    for (let node = 0; node < size; node++) {
      next[node] = start[node]!
      start[node + 1]! += start[node]!
    }
    // from the first on, as a list that is filled with gaps becomes a slow one
    for (let i = to.length; i < count; i++) {
      to[i] = 0
      by[i] = 0
    }
    for (let i = 0; i < count; i++) {
      const at = next[ends[i]!]!++
      to[at] = ends[i ^ 1]!
      by[at] = i >> 1
    }
    this.strongStart = start
    this.strongTo = to
    this.strongBy = by
    this.linked = lists.linked
    let linked = 0
    for (let node = 0; node < size; node++) if (start[node + 1]! > start[node]!) lists.linked[linked++] = node
    this.linkedCount = linked
    this.sight.take(nodes, lists.linked, linked)
    this.weakStart = lists.weakStart
    this.weakList = lists.weakList
    let weak = 0
    for (let node = 0; node < size; node++) {
      lists.weakStart[node] = weak
      if (start[node + 1]! > start[node]!) weak = this.addWeak(node, lists.weakList, weak)
    }
    lists.weakStart[size] = weak
  }

  get nodeCount(): number {
    return this.nodes.size
  }

  isLinked(node: number): boolean {
    return node < this.size && this.strongStart[node + 1]! > this.strongStart[node]!
  }

  /** Nodes with strong links that cannot hold when this one does, which need have none. */
  weakTo(node: number): readonly number[] {
    if (this.isLinked(node)) return this.weakList.slice(this.weakStart[node]!, this.weakStart[node + 1]!)
    const found: number[] = []
    this.addWeak(node, found, 0)
    return found
  }

  /** Writes the same from a place of a list on; returns the place after them. */
  addWeak(node: number, into: number[], from: number): number {
    const { nodes } = this
    let at = this.sight.addSeen(node, into, from)
    const cells = nodes.cells[node]!
    if (!this.withinCells || cells.length > 1) return at
    const digit = nodes.digit[node]!
    for (let rest = nodes.board.candidates[cells[0]!]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1) {
      const other = nodes.candidate(cells[0]!, firstDigit(rest))
      if (this.isLinked(other)) into[at++] = other
    }
    return at
  }

  /** Does the weak link of two nodes count in this graph? */
  areWeaklyLinked(a: number, b: number): boolean {
    if (!this.withinCells && this.nodes.digit[a] !== this.nodes.digit[b]) return false
    return this.nodes.areWeaklyLinked(a, b)
  }
}

type Link = (a: number, b: number, reason: StrongReason) => void

function linkCells(nodes: NodeTable, link: Link): void {
  const { candidates, geometry } = nodes.board
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    const digits = candidates[cell]!
    const rest = digits & (digits - 1)
    if (rest === 0 || (rest & (rest - 1)) !== 0) continue
    link(nodes.candidate(cell, firstDigit(digits)), nodes.candidate(cell, firstDigit(rest)), {
      kind: 'cell',
      cell,
    })
  }
}

function linkHouses(
  nodes: NodeTable,
  digits: DigitSet,
  tiesOf: (facts: Facts, digit: number) => readonly HouseTie[],
  link: Link,
): void {
  const { board } = nodes
  for (let digit = 1; digit <= board.geometry.order; digit++) {
    if ((digits & digitBit(digit)) === 0) continue
    const ties = tiesOf(nodes.facts, digit)
    for (let i = 0; i < ties.length; i++) {
      const { one, other, reason } = ties[i]!
      link(nodes.of(digit, one), nodes.of(digit, other), reason)
    }
  }
}

function linkSets(nodes: NodeTable, mostCells: number, cellsLinked: boolean, link: Link): void {
  const { count, ends, reasons } = setLinksOf(nodes)
  for (let i = 0; i < count; i++) {
    const { cells } = reasons[i]!
    if (cells.length > mostCells) break
    if (cells.length > 1 || !cellsLinked) link(ends[2 * i]!, ends[2 * i + 1]!, reasons[i]!)
  }
}

/** The links of almost locked sets, few cells first: their ends, two and two, and what they rest on. */
class SetLinks {
  count = 0
  readonly ends: number[] = []
  readonly reasons: AlmostLockedSet['reason'][] = []
  /** digit -> its node of the set that is looked at. */
  readonly nodeOf: number[] = []
}

const setLinks = (): SetLinks => new SetLinks()

/** The links of a board's almost locked sets, for all graphs that have them. */
const setLinksOf = oncePerTable((nodes): SetLinks => {
  const links = nodes.facts.context.of(setLinks)
  const { ends, reasons, nodeOf } = links
  const sets = almostLockedSets(nodes.facts)
  let count = 0
  for (let s = 0; s < sets.length; s++) {
    const { digits, ties, places, reason } = sets[s]!
    let seen = 0
    for (let rest = digits, i = 0; rest !== 0; rest &= rest - 1, i++) {
      const digit = firstDigit(rest)
      if (ties[digit - 1]! !== 0 && nodes.isSeen(digit, places[i]!)) seen |= rest & -rest
    }
    // a link has two ends
    if ((seen & (seen - 1)) === 0) continue
    for (let rest = digits, i = 0; rest !== 0; rest &= rest - 1, i++) {
      const bit = rest & -rest
      const digit = firstDigit(bit)
      const tied = seen & bit ? ties[digit - 1]! & seen : 0
      if (tied === 0) continue
      nodeOf[digit] = nodes.of(digit, places[i]!)
      // each pair once: with the digits met before
      for (let other = tied & (bit - 1); other !== 0; other &= other - 1) {
        ends[2 * count] = nodeOf[firstDigit(other)]!
        ends[2 * count + 1] = nodeOf[digit]!
        reasons[count++] = reason
      }
    }
  }
  links.count = count
  return links
})

const graphsOf = oncePerTable(() => new Map<number, LinkGraph>())
const graphLists = (): Map<number, GraphLists> => new Map()

/** The graph of a board for these kinds of links; the same value while techniques ask about the same board. */
export function linkGraph(facts: Facts, kinds: LinkKinds): LinkGraph {
  const graphs = graphsOf(nodesOf(facts))
  const key = keyOf(kinds)
  let graph = graphs.get(key)
  if (!graph) {
    const listsOf = facts.context.of(graphLists)
    let lists = listsOf.get(key)
    if (!lists) {
      lists = new GraphLists()
      listsOf.set(key, lists)
    }
    graph = new LinkGraph(facts, kinds, lists)
    graphs.set(key, graph)
  }
  return graph
}

/** The same for calls that may have to stop or pause in between; what is worked out is the same. */
export function* linkGraphTask(facts: Facts, kinds: LinkKinds, watch: Watch): Task<LinkGraph> {
  if (watch.isTimed && kinds.setsOf) yield* prepareAlmostLocked(facts, watch)
  const graph = linkGraph(facts, kinds)
  if (watch.isDue(watch.read())) yield
  return graph
}

/** The same number for kinds that make the same graph. */
function keyOf({ cells, houses, groups, withinCells, setsOf = 0 }: LinkKinds): number {
  return (
    Number(cells ?? 0) |
    (Number(houses ?? 0) << 1) |
    (Number(groups ?? 0) << 2) |
    (Number(withinCells ?? 0) << 3) |
    (setsOf << 4)
  )
}
