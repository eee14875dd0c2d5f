import type { Candidate } from '../../grid/board.js'
import { LARGEST_SET } from '../links/almost-locked.js'
import { chainLinks, place, premisesOf } from '../links/chain-step.js'
import { type FinnedChain, visitFinnedChains } from '../links/finned-search.js'
import { type LinkGraph, linkGraph } from '../links/graph.js'
import { trimPremises } from '../links/trim.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'

/**
 * A chain with fins: an alternating chain some of whose strong links would be spoilt by further candidates, all of which see the
 * candidate removed. It stands to plain chains as a finned fish does to a fish: if a fin is true the candidate goes at
 * once, and if none is the chain holds.
 */
export const finnedChain: Technique = {
  name: 'finned-chain',
  level: 'chain',
  find(board, report, options) {
    const graph = linkGraph(board, {
      cells: true,
      houses: true,
      groups: true,
      setsOf: LARGEST_SET,
      withinCells: true,
    })
    const most = Math.floor(((options.maxLinks ?? 2 * graph.nodes.size) + 1) / 2)
    const settled = new Set<number>()
    visitFinnedChains(
      graph,
      most,
      (node) => settled.has(node),
      (chain) => {
        const step = stepOf(graph, chain)
        for (const { cell, digit } of step.removals) settled.add(graph.nodes.candidate(cell, digit))
        return report(step)
      },
    )
  },
}

function stepOf(graph: LinkGraph, { nodes, strong }: FinnedChain): Step {
  const { board } = graph.nodes
  const fins = strong.flatMap((link) => link.fins)
  const removals = seenByAll(graph, [nodes[0]!, nodes[nodes.length - 1]!, ...fins])
  const reasons = strong.map(({ reason }) => reason)
  const places = strong.map((link) =>
    link.fins.length > 0 ? { kind: 'premises' as const } : place(link.reason),
  )
  return {
    technique: 'finned-chain',
    level: 'chain',
    placements: [],
    removals,
    premises: trimPremises(board.geometry, premisesOf(board, reasons), { placements: [], removals }),
    pattern: { shape: 'chain', links: chainLinks(graph, nodes, places, false), loop: false },
  }
}

/** The candidates that cannot be true beside any of these nodes. */
function seenByAll({ nodes }: LinkGraph, ends: readonly number[]): Candidate[] {
  const seen: Candidate[] = []
  for (const node of nodes.candidateNode) {
    if (node < 0 || !ends.every((end) => nodes.areWeaklyLinked(node, end))) continue
    seen.push({ cell: nodes.cells[node]![0]!, digit: nodes.digit[node]! })
  }
  return seen
}
