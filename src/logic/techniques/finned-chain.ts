import type { Candidate } from '../../grid/board.js'
import { strongLinks } from '../chain-length.js'
import { LARGEST_SET } from '../links/almost-locked.js'
import { chainNode, place, premisesOf } from '../links/chain-step.js'
import type { FinnedLink } from '../links/finned-links.js'
import { type FinnedChain, visitFinnedChains } from '../links/finned-search.js'
import { type LinkGraph, type LinkKinds, linkGraphTask } from '../links/graph.js'
import { chainLinks, type StrongLink } from '../links/link.js'
import { neededPattern } from '../links/needed-chain.js'
import type { NodeTable } from '../links/nodes.js'
import { ShorterChains } from '../links/search.js'
import { trimPremises } from '../links/trim.js'
import type { ChainLink, Step } from '../step.js'
import { slowTechnique, type Technique } from '../technique.js'

const KINDS: LinkKinds = {
  cells: true,
  houses: true,
  groups: true,
  setsOf: LARGEST_SET,
  withinCells: true,
}

/**
 * A chain with fins: an alternating chain some of whose strong links would be spoilt by further candidates, all of
 * which see the candidate removed. It stands to plain chains as a finned fish does to a fish: if a fin is true the
 * candidate goes at once, and if none is the chain holds.
 */
export const finnedChain: Technique = slowTechnique({
  name: 'finned-chain',
  level: 'chain',
  *search(facts, report, options, watch) {
    const graph = yield* linkGraphTask(facts, KINDS, watch)
    const most = Math.min(strongLinks(options.maxLinks), graph.nodes.size)
    const settled = new Set<number>()
    const shorter = new ShorterChains(graph, 2)
    yield* visitFinnedChains(
      graph,
      most,
      (node) => settled.has(node),
      (chain) => {
        const step = stepOf(graph, chain, options.maxLinks, shorter)
        for (const { cell, digit } of step.removals) settled.add(graph.nodes.candidate(cell, digit))
        return report(step)
      },
      watch,
    )
  },
})

function stepOf(
  graph: LinkGraph,
  { nodes, strong }: FinnedChain,
  maxLinks: number | undefined,
  shorter: ShorterChains,
): Step {
  const { board } = graph.nodes
  const fins = strong.flatMap((link) => link.fins)
  const removals = seenByAll(graph, [nodes[0]!, nodes[nodes.length - 1]!, ...fins])
  const conclusion = shorter.leftBy({ placements: [], removals })
  const premises = premisesOf(
    board,
    strong.map(({ reason }) => reason),
  )
  const needed = trimPremises(board.geometry, premises, conclusion)
  return {
    technique: 'finned-chain',
    level: 'chain',
    placements: conclusion.placements,
    removals: conclusion.removals,
    premises: needed,
    pattern:
      needed.length === premises.length
        ? { shape: 'chain', links: linksOf(graph, nodes, strong), loop: false }
        : neededPattern(board.geometry, KINDS, needed, conclusion, strongLinks(maxLinks)),
  }
}

function linksOf(graph: LinkGraph, nodes: readonly number[], strong: readonly FinnedLink[]): ChainLink[] {
  const told = nodes.map((node) => chainNode(graph, node))
  const links = strong.map(({ reason, fins }): StrongLink => {
    const by = place(reason)
    return fins.length > 0 ? { by, fins: fins.flatMap((fin) => candidatesOf(graph, fin)) } : { by }
  })
  return chainLinks(graph.nodes.board.geometry, told, links, false)
}

function candidatesOf(graph: LinkGraph, node: number): Candidate[] {
  const { digit, cells } = chainNode(graph, node)
  return cells.map((cell) => ({ cell, digit }))
}

/** The candidates that cannot be true beside any of these nodes. */
function seenByAll({ nodes }: LinkGraph, ends: readonly number[]): Candidate[] {
  const seen: Candidate[] = []
  for (let node = 0; node < nodes.candidates; node++)
    if (seesAll(nodes, node, ends)) seen.push({ cell: nodes.cells[node]![0]!, digit: nodes.digit[node]! })
  return seen
}

function seesAll(nodes: NodeTable, node: number, ends: readonly number[]): boolean {
  for (let i = 0; i < ends.length; i++) if (!nodes.areWeaklyLinked(node, ends[i]!)) return false
  return true
}
