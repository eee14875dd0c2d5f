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
  /** node -> a number shared by all nodes whose failing leads to each other's: a loop runs through such nodes only. */
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
  // nodes without strong links lead nowhere; from here on the others go by their place in the list
  const places = zeros(nodes.size)
  for (let i = 0; i < linked.length; i++) places[linked[i]!] = i
  const components = failingOf(graph, places)
  const failingTogether = filled(nodes.size, -1)
  for (let i = 0; i < linked.length; i++) failingTogether[linked[i]!] = components.of[i]!
  return { refuted: refutedBy(graph, places, components), failingTogether }
}

/** The linked nodes by what fails when they do. */
function failingOf(graph: LinkGraph, places: readonly number[]): Components {
  const { linked, strongStart, strongTo } = graph
  const from = zeros(linked.length + 1)
  const to: number[] = []
  for (let i = 0; i < linked.length; i++) {
    const end = strongStart[linked[i]! + 1]!
    for (let k = strongStart[linked[i]!]!; k < end; k++) {
      const weak = graph.weakTo(strongTo[k]!)
      for (let j = 0; j < weak.length; j++) to.push(places[weak[j]!]!)
    }
    from[i + 1] = to.length
  }
  return componentsOf(from, to)
}

/** The candidates that make a node fail that makes them fail. */
function refutedBy(graph: LinkGraph, places: readonly number[], { count, of, nodes }: Components): number[] {
  const { linked, strongStart, strongTo } = graph
  const words = (graph.nodes.candidates + 31) >>> 5
  const seen = seenBy(graph, words)
  /** component -> the candidates that fail when its nodes do, as a mask */
  const failing = zeros(count * words)
  for (let i = 0; i < nodes.length; i++) {
    const node = linked[nodes[i]!]!
    const to = of[nodes[i]!]! * words
    for (let k = strongStart[node]!; k < strongStart[node + 1]!; k++) {
      const holds = strongTo[k]!
      const own = places[holds]! * words
      for (let w = 0; w < words; w++) failing[to + w]! |= seen[own + w]!
      const weak = graph.weakTo(holds)
      for (let j = 0; j < weak.length; j++) {
        const other = of[places[weak[j]!]!]! * words
        if (other !== to) for (let w = 0; w < words; w++) failing[to + w]! |= failing[other + w]!
      }
    }
  }
  const refuted: number[] = []
  for (let w = 0; w < words; w++) {
    let mask = 0
    for (let i = 0; i < linked.length; i++) mask |= seen[i * words + w]! & failing[of[i]! * words + w]!
    for (; mask !== 0; mask &= mask - 1) refuted.push(w * 32 + 31 - Math.clz32(mask & -mask))
  }
  return refuted
}

/** place of a linked node -> the candidates that cannot hold when it does, as a mask of so many words. */
function seenBy({ nodes, linked, withinCells }: LinkGraph, wordsOfCandidates: number): number[] {
  const { words, peers, digitCells, candidateNode, board } = nodes
  const { order } = board.geometry
  const seen = zeros(linked.length * wordsOfCandidates)
  for (let i = 0; i < linked.length; i++) {
    const node = linked[i]!
    const at = i * wordsOfCandidates
    const digit = nodes.digit[node]!
    for (let w = 0; w < words; w++) {
      let rest = peers[node * words + w]! & digitCells[(digit - 1) * words + w]!
      for (; rest !== 0; rest &= rest - 1) {
        const candidate = candidateNode[(w * 32 + 31 - Math.clz32(rest & -rest)) * order + digit - 1]!
        seen[at + (candidate >>> 5)]! |= 1 << (candidate & 31)
      }
    }
    const cells = nodes.cells[node]!
    if (!withinCells || cells.length !== 1) continue
    for (let rest = board.candidates[cells[0]!]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1) {
      const candidate = nodes.candidate(cells[0]!, 32 - Math.clz32(rest & -rest))
      seen[at + (candidate >>> 5)]! |= 1 << (candidate & 31)
    }
  }
  return seen
}
