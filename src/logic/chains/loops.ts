import type { Task, Watch } from '../../limits.js'
import type { Chain, ChainLimits, StrongReason } from './chain.js'
import { searchOf } from './chain-search.js'
import type { LinkGraph } from './graph.js'
import { failingTogether } from './implications.js'

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
    search.runFailing(node, most, -1, together)
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

/** Every loop of two strong links, each once. */
export function* visitShortLoops(
  graph: LinkGraph,
  visit: (chain: Chain) => boolean,
  watch: Watch,
): Task<void> {
  const { strongStart, strongTo, strongBy, weakStart, weakList, reasons } = graph
  for (let a = 0; a < graph.size; a++) {
    for (let k = strongStart[a]!; k < strongStart[a + 1]!; k++) {
      const b = strongTo[k]!
      if (b < a) continue
      if (watch.isDue()) yield
      for (let j = weakStart[b]!; j < weakStart[b + 1]!; j++) {
        const c = weakList[j]!
        // reported from its lowest node
        if (c <= a) continue
        for (let m = strongStart[c]!; m < strongStart[c + 1]!; m++) {
          const d = strongTo[m]!
          if (d <= a || d === b || !graph.areWeaklyLinked(d, a)) continue
          if (visit({ nodes: [a, b, c, d], by: [reasons[strongBy[k]!]!, reasons[strongBy[m]!]!] })) return
        }
      }
    }
  }
}

/** The links of a loop, wherever it is begun and whichever way round. */
function ringOf({ nodes, by }: Chain): string {
  const links: string[] = []
  for (let i = 0; i < by.length; i++) {
    links.push(pairOf(nodes[(2 * i + nodes.length - 1) % nodes.length]!, nodes[2 * i]!))
    links.push(`${pairOf(nodes[2 * i]!, nodes[2 * i + 1]!)}${placeOf(by[i]!)}`)
  }
  return links.sort().join()
}

function pairOf(one: number, other: number): string {
  return one < other ? `${one}-${other}` : `${other}-${one}`
}

function placeOf(reason: StrongReason): string {
  if (reason.kind === 'house') return `h${reason.house}`
  return reason.kind === 'set' ? `s${reason.cells.join('.')}` : 'c'
}
