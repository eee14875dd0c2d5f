import type { Candidate, Conclusion } from '../../grid/board.js'
import { firstDigit, lowestBit } from '../../grid/digits.js'
import type { Task, Watch } from '../../limits.js'
import { zeros } from '../facts/number-lists.js'
import type { Chain, ChainAgainst, ChainLimits } from './chain.js'
import { type ChainSearch, finnedSearchOf, searchOf } from './chain-search.js'
import type { FinnedLinks } from './finned-links.js'
import type { LinkGraph } from './graph.js'
import { refutedIn, refutedWithFins } from './implications.js'

/**
 * The shortest chain against each candidate, short ones first.
 *
 * Suppose a candidate holds: its weak neighbours do not, so their strong partners do, and so on breadth first, until
 * something contradicts the candidate. The way back is a shortest chain against it. `visit` says by `settled` which
 * candidates a chain has dealt with; those get no chain of their own. Stops when `visit` returns true, and then returns
 * true.
 *
 * Of equally short chains against a candidate, some may also show that a digit stands in a cell. What stands is
 * reported in any case, by a chain of its own if those so far happened to be others.
 *
 * @param finned links with fins to be followed as well: then only chains with fins are visited, and none against
 *   candidates that a plain chain is as short against
 */
export function* visitShortestChains(
  graph: LinkGraph,
  finned: FinnedLinks | undefined,
  limits: ChainLimits,
  settled: number[],
  visit: (chain: Chain) => boolean,
  watch: Watch,
): Task<boolean> {
  const search = new ShortestChains(graph, finned)
  const targets = finned ? refutedWithFins(graph, finned) : refutedIn(graph)
  if (watch.isDue(watch.read())) yield
  const first = yield* shortestOfAll(search, targets, limits, settled, watch)
  if (!first) return false
  const placed = new Set<number>()
  const report = (chain: ChainAgainst): boolean => {
    if (chain.nodes[0] === chain.nodes[chain.nodes.length - 1]) placed.add(chain.nodes[0]!)
    return visit(chain)
  }
  if (report(first)) return true
  for (const chain of yield* chainsUpTo(search, targets, limits, settled, watch)) {
    if (watch.isDue()) yield
    if (!settled[chain.target] && report(chain)) return true
  }
  if (finned) return false
  for (const chain of yield* proofs(graph, targets, limits, watch)) {
    if (watch.isDue()) yield
    if (!placed.has(chain.nodes[0]!) && visit(chain)) return true
  }
  return false
}

/** The shortest chain against one candidate at a time, with fins where these are asked for. */
class ShortestChains {
  private readonly plain: ChainSearch
  private readonly finned: ChainSearch | undefined

  constructor(graph: LinkGraph, finned: FinnedLinks | undefined) {
    this.plain = searchOf(graph)
    this.finned = finned && finnedSearchOf(graph, finned)
  }

  /** Strong links of a shortest chain against the target, 0 when there is none of `most` or fewer. */
  lengthAgainst(target: number, most: number): number {
    if (!this.finned) return this.plain.run(target, most)
    const length = this.finned.run(target, most)
    return length > 0 && this.plain.run(target, length) > 0 ? 0 : length
  }

  /** The chain that the last successful run found. */
  against(target: number): ChainAgainst {
    return { ...(this.finned ?? this.plain).chain(), target }
  }
}

/**
 * The first of the shortest chains against any of the candidates. What is short is looked for everywhere before
 * anything longer, as few boards have long chains only. Candidates that chains too short are against are settled.
 */
function* shortestOfAll(
  search: ShortestChains,
  targets: readonly number[],
  { least, most }: ChainLimits,
  settled: number[],
  watch: Watch,
): Task<ChainAgainst | undefined> {
  let found: ChainAgainst | undefined
  for (let upTo = 6, above = 0; above < most && !found; above = upTo, upTo *= 2) {
    let best = Math.min(upTo, most) + 1
    for (let i = 0; i < targets.length && best > Math.max(least, above + 1); i++) {
      if (watch.isDue()) yield
      const target = targets[i]!
      const length = search.lengthAgainst(target, best - 1)
      if (length === 0) continue
      if (length < least) settled[target] = 1
      else {
        best = length
        found = search.against(target)
      }
    }
  }
  return found
}

/** A shortest chain against each candidate that is not settled, short ones first; candidates with shorter ones are. */
function* chainsUpTo(
  search: ShortestChains,
  targets: readonly number[],
  { least, most }: ChainLimits,
  settled: number[],
  watch: Watch,
): Task<ChainAgainst[]> {
  const chains: ChainAgainst[] = []
  for (const target of targets) {
    if (settled[target]) continue
    if (watch.isDue()) yield
    const length = search.lengthAgainst(target, most)
    if (length === 0) continue
    if (length < least) settled[target] = 1
    else chains.push(search.against(target))
  }
  return chains.sort((a, b) => a.by.length - b.by.length)
}

/**
 * For each candidate that must hold, the shortest chain that shows it, if it is also a shortest one against any other.
 */
function* proofs(
  graph: LinkGraph,
  targets: readonly number[],
  { least, most }: ChainLimits,
  watch: Watch,
): Task<Chain[]> {
  const { nodes, linked, linkedCount } = graph
  const search = searchOf(graph)
  const refuted = zeros(nodes.candidates)
  for (let i = 0; i < targets.length; i++) refuted[targets[i]!] = 1
  const chains: Chain[] = []
  for (let i = 0; i < linkedCount && linked[i]! < nodes.candidates; i++) {
    const node = linked[i]!
    if (watch.isDue()) yield
    // it eliminates all that it sees
    if (!seesOnly(graph, node, refuted)) continue
    search.runFailing(node, most, node)
    const length = search.lengthTo(node)
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
      if (!marks[nodes.candidate(w * 32 + lowestBit(rest), digit)]) return false
      sees = true
    }
  }
  if (!withinCells) return sees
  for (let rest = board.candidates[cell]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1) {
    if (!marks[nodes.candidate(cell, firstDigit(rest))]) return false
    sees = true
  }
  return sees
}

/**
 * The candidates that chains too short for a family are against: locked candidates and subsets, to most people. They
 * get no chain of the family. Which of several equally short chains is reported depends on the order of cells and
 * digits, and one may see such a candidate where another does not: so none of them reports it.
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
