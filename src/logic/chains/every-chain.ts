import type { Task, Watch } from '../../limits.js'
import { filled, zeros } from '../facts/number-lists.js'
import type { Chain, ChainLimits, StrongReason } from './chain.js'
import { searchOf } from './chain-search.js'
import { conclude } from './chain-step.js'
import type { LinkGraph } from './graph.js'
import { refutedIn } from './implications.js'

/**
 * Every chain that touches no node twice and concludes something, short ones first; each is met once, though it can be
 * read from either end. Their number grows about tenfold with each strong link.
 *
 * What a chain removes sees both its ends, so only ends that see a candidate which some chain is against are worth a
 * look. A loop is met from those of its weak links that conclude something.
 */
export function* visitAllChains(
  graph: LinkGraph,
  { least, most }: ChainLimits,
  visit: (chain: Chain) => boolean,
  watch: Watch,
): Task<void> {
  const { strongStart, strongTo, strongBy, weakStart, weakList, reasons } = graph
  const maybeEnd = endsOfChains(graph)
  const nodes: number[] = []
  const by: StrongReason[] = []
  /** Lengthens the chain by its last strong link, which begins at `fails`; true when the visitor has had enough. */
  const finish = (fails: number): boolean => {
    nodes.push(fails)
    for (let k = strongStart[fails]!; k < strongStart[fails + 1]!; k++) {
      const holds = strongTo[k]!
      if (nodes[0]! >= holds || maybeEnd[holds] !== 1 || nodes.includes(holds)) continue
      if (visit({ nodes: [...nodes, holds], by: [...by, reasons[strongBy[k]!]!] })) return true
    }
    nodes.pop()
    return false
  }
  /** The same where `left` more strong links are to come. */
  const extend = function* (fails: number, left: number): Task<boolean> {
    if (left === 1) return finish(fails)
    if (watch.isDue()) yield
    nodes.push(fails)
    for (let k = strongStart[fails]!; k < strongStart[fails + 1]!; k++) {
      const holds = strongTo[k]!
      if (nodes.includes(holds)) continue
      nodes.push(holds)
      by.push(reasons[strongBy[k]!]!)
      for (let j = weakStart[holds]!; j < weakStart[holds + 1]!; j++) {
        const next = weakList[j]!
        if (nodes.includes(next)) continue
        if (left === 2 ? finish(next) : yield* extend(next, left - 1)) return true
      }
      nodes.pop()
      by.pop()
    }
    nodes.pop()
    return false
  }
  for (let length = least; length <= most; length++)
    for (let node = 0; node < graph.size; node++)
      if (maybeEnd[node] === 1 && (yield* extend(node, length))) return
}

/**
 * For each set of removals that a chain of the graph makes, a shortest chain that makes it, short ones first. The
 * shortest chain against each candidate, which is what people are shown, may remove less than one with other ends does.
 */
export function* visitChainsByRemovals(
  graph: LinkGraph,
  { least, most }: ChainLimits,
  visit: (chain: Chain) => boolean,
  watch: Watch,
): Task<void> {
  const search = searchOf(graph)
  const maybeEnd = endsOfChains(graph)
  const chains = new Map<string, Chain>()
  for (let node = 0; node < graph.size; node++) {
    if (maybeEnd[node] !== 1 || !graph.isLinked(node)) continue
    if (watch.isDue()) yield
    search.runFailing(node, most)
    for (const other of search.holding()) {
      if (other <= node || maybeEnd[other] !== 1 || search.lengthTo(other) < least) continue
      const { removals } = conclude(graph, search.chainTo(other))
      if (removals.length === 0) continue
      const key = removals.map(({ cell, digit }) => cell * 32 + digit).join()
      const before = chains.get(key)
      if (!before || before.by.length > search.lengthTo(other)) chains.set(key, search.chainTo(other))
    }
  }
  for (const chain of [...chains.values()].sort((a, b) => a.by.length - b.by.length)) {
    if (watch.isDue()) yield
    if (visit(chain)) return
  }
}

/**
 * node -> 1 if it sees a candidate that some chain is against, and any node where loops conclude more than their links
 * do.
 */
function endsOfChains(graph: LinkGraph): readonly number[] {
  if (graph.reasons.some(({ kind }) => kind === 'set')) return filled(graph.size, 1)
  const ends = zeros(graph.size)
  const seeing: number[] = []
  for (const candidate of refutedIn(graph)) {
    const count = graph.addWeak(candidate, seeing, 0)
    for (let i = 0; i < count; i++) ends[seeing[i]!] = 1
  }
  return ends
}
