import type { Candidate, Conclusion } from '../../grid/board.js'
import type { Task, Watch } from '../../limits.js'
import { zeros } from '../number-lists.js'
import { ChainHalves } from './chain-halves.js'
import type { LinkGraph } from './graph.js'
import { failingTogether, refutedIn } from './implications.js'

/**
 * An alternating chain: `nodes` come in pairs joined by strong links, `nodes[0]`=`nodes[1]`, `nodes[2]`=`nodes[3]`, …,
 * with weak links between the pairs. If the first node does not hold, the last one does.
 */
export interface Chain {
  readonly nodes: readonly number[]
  /** Index into `graph.reasons` for each strong link. */
  readonly by: readonly number[]
}

/** A chain against a candidate (a node of one cell), which is weakly linked to both ends and so cannot hold. */
export interface ChainAgainst extends Chain {
  readonly target: number
}

export interface ChainLimits {
  /** Fewest and most strong links. */
  readonly least: number
  readonly most: number
}

/**
 * The shortest chain against each candidate, short ones first.
 *
 * Suppose a candidate holds: its weak neighbours do not, so their strong partners do, and so on breadth first, until
 * something contradicts the candidate. The way back is a shortest chain against it. `visit` says by `settled` which
 * candidates a chain has dealt with; those get no chain of their own. Stops when `visit` returns true, and then returns
 * true.
 *
 * Of equally short chains against a candidate, some may also show that a digit stands in a cell. What stands is told in
 * any case, by a chain of its own if those so far happened to be others.
 */
export function* visitShortestChains(
  graph: LinkGraph,
  limits: ChainLimits,
  settled: number[],
  visit: (chain: Chain) => boolean,
  watch: Watch,
): Task<boolean> {
  const targets = refutedIn(graph)
  if (targets.length === 0) return false
  const { least, most } = limits
  const search = searchOf(graph)
  const length = search.shortestLength(targets, limits)
  if (length > most) return false
  const placed = new Set<number>()
  const tell = (chain: ChainAgainst): boolean => {
    if (chain.nodes[0] === chain.nodes[chain.nodes.length - 1]) placed.add(chain.nodes[0]!)
    return visit(chain)
  }
  for (const target of targets) {
    if (watch.isDue()) yield
    const found = settled[target] ? 0 : search.run(target, length)
    if (found === 0) continue
    if (found < least) settled[target] = 1
    else if (tell({ ...search.chain(), target })) return true
  }
  if (length < most) {
    for (const chain of yield* chainsUpTo(search, targets, limits, settled, watch)) {
      if (watch.isDue()) yield
      if (!settled[chain.target] && tell(chain)) return true
    }
  }
  for (const chain of yield* proofs(search, graph, targets, limits, watch)) {
    if (watch.isDue()) yield
    if (!placed.has(chain.nodes[0]!) && visit(chain)) return true
  }
  return false
}

/**
 * For each candidate that must hold, the shortest chain that shows it, if it is also a shortest one against any other.
 */
function* proofs(
  search: ChainSearch,
  graph: LinkGraph,
  targets: readonly number[],
  { least, most }: ChainLimits,
  watch: Watch,
): Task<Chain[]> {
  const { nodes, linked, linkedCount } = graph
  const refuted = zeros(nodes.candidates)
  for (let i = 0; i < targets.length; i++) refuted[targets[i]!] = 1
  const chains: Chain[] = []
  for (let i = 0; i < linkedCount && linked[i]! < nodes.candidates; i++) {
    const node = linked[i]!
    if (watch.isDue()) yield
    // it does away with all that it sees
    if (!seesOnly(graph, node, refuted)) continue
    const length = search.runBack(node, most)
    if (length < least) continue
    const chain = search.chainTo(node)
    const seen = nodes.candidateNode.filter((other) => other >= 0 && graph.areWeaklyLinked(node, other))
    if (seen.some((other) => search.run(other, length - 1) === 0)) chains.push(chain)
  }
  return chains.sort((a, b) => a.by.length - b.by.length)
}

/** Does a candidate see others, and only such as are marked? Most see one that is not. */
function seesOnly({ nodes, withinCells }: LinkGraph, node: number, marks: readonly number[]): boolean {
  const { words, peers, digitCells, board } = nodes
  const cell = nodes.cells[node]![0]!
  const digit = nodes.digit[node]!
  let sees = false
  for (let w = 0; w < words; w++) {
    let rest = peers[node * words + w]! & digitCells[(digit - 1) * words + w]!
    for (; rest !== 0; rest &= rest - 1) {
      if (!marks[nodes.candidate(w * 32 + 31 - Math.clz32(rest & -rest), digit)]) return false
      sees = true
    }
  }
  if (!withinCells) return sees
  for (let rest = board.candidates[cell]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1) {
    if (!marks[nodes.candidate(cell, 32 - Math.clz32(rest & -rest))]) return false
    sees = true
  }
  return sees
}

/** A shortest chain against each candidate that is not settled, short ones first; candidates with shorter ones are. */
function* chainsUpTo(
  search: ChainSearch,
  targets: readonly number[],
  { least, most }: ChainLimits,
  settled: number[],
  watch: Watch,
): Task<ChainAgainst[]> {
  const chains: ChainAgainst[] = []
  for (const target of targets) {
    if (settled[target]) continue
    if (watch.isDue()) yield
    const length = search.run(target, most)
    if (length === 0) continue
    if (length < least) settled[target] = 1
    else chains.push({ ...search.chain(), target })
  }
  return chains.sort((a, b) => a.by.length - b.by.length)
}

/**
 * The shortest continuous loops through each weak link, short ones first: chains whose ends see each other. All of
 * them, as some need less than the whole ring or run through a node twice, and then it would be a matter of order
 * whether another is met.
 */
export function* visitShortestLoops(
  graph: LinkGraph,
  { least, most }: ChainLimits,
  visit: (chain: Chain) => boolean,
  watch: Watch,
): Task<void> {
  const search = searchOf(graph)
  const together = failingTogether(graph)
  const loops: Chain[] = []
  const seen = new Set<string>()
  for (let i = 0; i < graph.linkedCount; i++) {
    const node = graph.linked[i]!
    if (together[node]! < 0) continue
    if (watch.isDue()) yield
    search.runAround(node, most, together)
    for (const other of graph.weakTo(node)) {
      // the same way back, of one link, is no loop
      if (other < node || search.lengthTo(other) < Math.max(least, 2)) continue
      for (const loop of search.chainsTo(other, node)) {
        // a loop is met from every weak link of it
        const key = ringOf(loop)
        if (seen.has(key)) continue
        seen.add(key)
        loops.push(loop)
      }
    }
  }
  loops.sort((a, b) => a.by.length - b.by.length)
  for (const loop of loops) {
    if (watch.isDue()) yield
    if (visit(loop)) return
  }
}

/** The links of a loop, wherever it is begun and whichever way round. */
function ringOf({ nodes, by }: Chain): string {
  const weak = by.map((_, i) => {
    const [one, other] = [nodes[(2 * i + nodes.length - 1) % nodes.length]!, nodes[2 * i]!]
    return one < other ? `${one}-${other}` : `${other}-${one}`
  })
  return [...weak, ...by].sort().join()
}

/** The latest search of a context. */
class LatestSearch {
  search: ChainSearch | undefined
}

const latestSearch = (): LatestSearch => new LatestSearch()

/**
 * The search of a graph, which takes over the lists of the graph before: a chain must be read off before the next run.
 */
export function searchOf(graph: LinkGraph): ChainSearch {
  const latest = graph.nodes.facts.context.of(latestSearch)
  if (!latest.search?.isOf(graph)) latest.search = new ChainSearch(graph, latest.search)
  return latest.search
}

/** Loops through one weak link that are told apart: with more, it is a matter of order which are left out. */
const MOST_LOOPS = 200

/** Breadth first search along strong and weak links by turns. */
export class ChainSearch extends ChainHalves {
  private readonly graph: LinkGraph
  private head = 0
  private readonly seenByTarget: number[]
  /** The node that a run took to hold, -1 when it took one to fail. */
  private origin = -1

  /** @param before a search that is over, whose lists this one takes over */
  constructor(graph: LinkGraph, before?: ChainSearch) {
    super(graph.nodes.size, before)
    this.graph = graph
    this.seenByTarget = before?.seenByTarget ?? []
  }

  isOf(graph: LinkGraph): boolean {
    return this.graph === graph
  }

  /** Strong links of a shortest chain against the target, 0 when there is none of `most` or fewer. */
  run(target: number, most: number): number {
    const { graph, queue, depth, seenByTarget } = this
    const { weakStart, weakList } = graph
    this.begin()
    this.hold(target, 0)
    this.origin = target
    this.shortest = most + 1
    this.head++
    const first = graph.addWeak(target, seenByTarget, 0)
    this.failAll(seenByTarget, 0, first, target, target)
    while (this.head < this.tail) {
      const holds = queue[this.head++]!
      // what has not been met by now takes two halves of this depth or more
      if (2 * depth[holds]! >= this.shortest) break
      this.failAll(weakList, weakStart[holds]!, weakStart[holds + 1]!, holds, target)
    }
    return this.shortest > most ? 0 : this.shortest
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

  /**
   * Follows what holds when a node fails, by `most` strong links or fewer.
   *
   * @param together what fails together in the graph: what cannot be part of a loop is not followed
   */
  runAround(node: number, most: number, together: readonly number[]): void {
    const { queue, depth } = this
    const { weakStart, weakList } = this.graph
    this.beginFailing(node)
    while (this.head < this.tail) {
      const holds = queue[this.head++]!
      if (depth[holds]! >= most) continue
      const end = weakStart[holds + 1]!
      for (let k = weakStart[holds]!; k < end; k++)
        if (together[weakList[k]!] === together[node]) this.failAt(weakList[k]!, holds)
    }
  }

  /** The nodes that hold when a node fails, by `most` strong links or fewer. */
  runFrom(node: number, most: number): readonly number[] {
    const { queue, depth } = this
    const { weakStart, weakList } = this.graph
    this.beginFailing(node)
    while (this.head < this.tail) {
      const holds = queue[this.head++]!
      if (depth[holds]! >= most) continue
      const end = weakStart[holds + 1]!
      for (let k = weakStart[holds]!; k < end; k++) this.failAt(weakList[k]!, holds)
    }
    return queue.slice(0, this.tail)
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
    by: readonly number[],
    found: Chain[],
  ): void {
    const { onRun, offRun, runs, depth } = this
    const { strongStart, strongTo, strongBy, weakStart, weakList } = this.graph
    for (let k = strongStart[holds]!; k < strongStart[holds + 1]!; k++) {
      const fails = strongTo[k]!
      if (offRun[fails] !== runs || nodes.includes(fails) || found.length >= MOST_LOOPS) continue
      const links = [strongBy[k]!, ...by]
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

  /**
   * Strong links of a shortest chain from a candidate's failing to its holding, 0 when there is none of `most` or
   * fewer.
   */
  runBack(node: number, most: number): number {
    const { queue, depth } = this
    const { weakStart, weakList } = this.graph
    this.beginFailing(node)
    while (this.head < this.tail && this.onRun[node] !== this.runs) {
      const holds = queue[this.head++]!
      if (depth[holds]! >= most) continue
      const end = weakStart[holds + 1]!
      for (let k = weakStart[holds]!; k < end; k++) this.failAt(weakList[k]!, holds)
    }
    return this.lengthTo(node)
  }

  /**
   * The fewest strong links, `least` or more, of a shortest chain against any of the targets; more than `most` if there
   * is none.
   */
  shortestLength(targets: readonly number[], { least, most }: ChainLimits): number {
    let best = most + 1
    for (let i = 0; i < targets.length && best > least; i++) {
      const length = this.run(targets[i]!, best - 1)
      if (length >= least) best = length
    }
    return best
  }

  private begin(): void {
    this.runs++
    this.head = 0
    this.tail = 0
  }

  private beginFailing(node: number): void {
    this.begin()
    this.origin = -1
    this.other = -1
    this.offRun[node] = this.runs
    this.failedBy[node] = -1
    this.follow(node, 1)
  }

  private hold(node: number, depth: number): void {
    this.onRun[node] = this.runs
    this.depth[node] = depth
    this.queue[this.tail++] = node
  }

  private failAt(fails: number, holds: number): void {
    if (this.offRun[fails] === this.runs) return
    this.offRun[fails] = this.runs
    this.failedBy[fails] = holds
    this.follow(fails, this.depth[holds]! + 1)
  }

  /** The strong partners of a node that fails hold. */
  private follow(fails: number, depth: number): void {
    const { onRun, runs } = this
    const { strongStart, strongTo, strongBy } = this.graph
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
    const { graph, tail: first } = this
    this.follow(fails, depth)
    for (let i = first; i < this.tail; i++) {
      const node = this.queue[i]!
      if (graph.areWeaklyLinked(node, target)) this.meet(node, target)
      else if (this.offRun[node] === this.runs) this.meet(node, this.failedBy[node]!)
    }
  }

  /** The chain that the last successful run found. */
  chain(): Chain {
    return this.joined(this.origin)
  }
}

/**
 * The candidates that chains too short for a family are against: locked candidates and subsets, to most people. They
 * get no chain of the family. Which of several equally short chains is told depends on the order of cells and digits,
 * and one may see such a candidate where another does not: so none of them tells it.
 */
export class ShorterChains {
  private readonly graph: LinkGraph
  private readonly most: number

  constructor(graph: LinkGraph, least: number) {
    this.graph = graph
    this.most = least - 1
  }

  /** What of a conclusion shorter chains do not say. */
  leftBy(conclusion: Conclusion): Conclusion {
    const { removals } = conclusion
    const left = removals.filter((removal) => !this.refute(removal))
    return left.length === removals.length ? conclusion : { ...conclusion, removals: left }
  }

  private refute({ cell, digit }: Candidate): boolean {
    return searchOf(this.graph).run(this.graph.nodes.candidate(cell, digit), this.most) > 0
  }
}
