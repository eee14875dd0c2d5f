import type { Task, Watch } from '../../limits.js'
import type { LinkGraph } from './graph.js'
import type { Chain, ChainLimits } from './search.js'

/** Every loop of two strong links, each once. */
export function visitShortLoops(graph: LinkGraph, visit: (chain: Chain) => boolean): void {
  const { strongStart, strongTo, strongBy, weakStart, weakList } = graph
  for (let a = 0; a < graph.size; a++) {
    for (let k = strongStart[a]!; k < strongStart[a + 1]!; k++) {
      const b = strongTo[k]!
      if (b < a) continue
      for (let j = weakStart[b]!; j < weakStart[b + 1]!; j++) {
        const c = weakList[j]!
        // told from its lowest node
        if (c <= a) continue
        for (let m = strongStart[c]!; m < strongStart[c + 1]!; m++) {
          const d = strongTo[m]!
          if (d <= a || d === b || !graph.areWeaklyLinked(d, a)) continue
          if (visit({ nodes: [a, b, c, d], by: [strongBy[k]!, strongBy[m]!] })) return
        }
      }
    }
  }
}

/**
 * Every chain that touches no node twice, short ones first; each is met once, though it can be read from either end. Their
 * number grows about tenfold with each strong link.
 */
export function* visitAllChains(
  graph: LinkGraph,
  { least, most }: ChainLimits,
  visit: (chain: Chain) => boolean,
  watch: Watch,
): Task<void> {
  const { strongStart, strongTo, strongBy } = graph
  const nodes: number[] = []
  const by: number[] = []
  /** Lengthens the chain whose next strong link begins at `fails`; true when the visitor has had enough. */
  const extend = function* (fails: number, length: number): Task<boolean> {
    if (watch.isDue()) yield
    nodes.push(fails)
    for (let k = strongStart[fails]!; k < strongStart[fails + 1]!; k++) {
      const holds = strongTo[k]!
      if (nodes.includes(holds)) continue
      nodes.push(holds)
      by.push(strongBy[k]!)
      if (by.length === length) {
        if (nodes[0]! < holds && visit({ nodes: [...nodes], by: [...by] })) return true
      } else {
        for (const next of graph.weakTo(holds)) {
          if (!nodes.includes(next) && (yield* extend(next, length))) return true
        }
      }
      nodes.pop()
      by.pop()
    }
    nodes.pop()
    return false
  }
  for (let length = least; length <= most; length++) {
    for (let node = 0; node < graph.size; node++) if (yield* extend(node, length)) return
  }
}
