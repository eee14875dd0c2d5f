import type { Board } from '../../grid/board.js'
import type { Level } from '../level.js'
import { LARGEST_SET } from '../links/almost-locked.js'
import { chainPattern, conclude, isLoop, premisesOf } from '../links/chain-step.js'
import type { LinkGraph } from '../links/graph.js'
import { type LinkKinds, linkGraph } from '../links/graph.js'
import type { Chain } from '../links/search.js'
import { type ChainLimits, visitShortestChains } from '../links/search.js'
import { trimPremises } from '../links/trim.js'
import type { Pattern, Step } from '../step.js'
import type { FindOptions, Technique } from '../technique.js'

/** A family of chains: which links it is made of, how long it gets, and how it is shown. */
export interface ChainFamily {
  readonly name: string
  readonly level: Level
  readonly kinds: LinkKinds
  readonly limits?: Partial<ChainLimits>
  readonly only?: 'loops'
  readonly pattern?: (graph: LinkGraph, chain: Chain) => Pattern
}

/**
 * The technique of a family: for every candidate that such chains remove, a shortest one, short chains first. A chain
 * tells all it concludes at once; a candidate it removed gets no other chain.
 */
export function chainTechnique(family: ChainFamily): Technique {
  return {
    name: family.name,
    level: family.level,
    find: (board, report, options) => findChains(board, family, report, options),
  }
}

function findChains(
  board: Board,
  family: ChainFamily,
  report: (step: Step) => boolean,
  options: FindOptions,
): void {
  const graph = linkGraph(board, family.kinds)
  // n strong links have n - 1 weak ones between them
  const allowed = Math.floor(((options.maxLinks ?? Number.POSITIVE_INFINITY) + 1) / 2)
  const least = family.limits?.least ?? 2
  const most = Math.min(family.limits?.most ?? graph.nodes.size, allowed, graph.nodes.size)
  const settled = new Uint8Array(graph.nodes.size)
  visitShortestChains(graph, { least, most }, settled, (chain) => {
    if (family.only === 'loops' && !isLoop(graph, chain)) return false
    const conclusion = conclude(graph, chain)
    settled[chain.target] = 1
    for (const { cell, digit } of conclusion.removals) settled[graph.nodes.candidate(cell, digit)] = 1
    for (const { cell, digit } of conclusion.placements) settleAround(graph, cell, digit, settled)
    return report({
      technique: family.name,
      level: family.level,
      ...conclusion,
      premises: trimPremises(board.geometry, premisesOf(graph, chain.by), conclusion),
      pattern: (family.pattern ?? chainPattern)(graph, chain),
    })
  })
}

/** A digit placed settles its cell and every candidate that sees it. */
function settleAround(graph: LinkGraph, cell: number, digit: number, settled: Uint8Array): void {
  const { nodes } = graph
  const placed = nodes.candidate(cell, digit)
  for (const node of nodes.candidateNode)
    if (node >= 0 && nodes.areWeaklyLinked(node, placed)) settled[node] = 1
}

/** One digit, strong links within houses: skyscraper and kite are the shortest. */
export const xChain = chainTechnique({
  name: 'x-chain',
  level: 'pattern',
  kinds: { houses: true },
})

/** Cells with two candidates, each passing a digit on to the next; an XY-wing is one of three cells. */
export const xyChain = chainTechnique({
  name: 'xy-chain',
  level: 'chain',
  kinds: { cells: true },
  limits: { least: 3 },
})

/** Strong links of cells and of houses by turns with weak ones, any digits. */
export const alternatingInferenceChain = chainTechnique({
  name: 'alternating-inference-chain',
  level: 'chain',
  kinds: { cells: true, houses: true, withinCells: true },
})

/** The same with groups: a digit's places in a house parted into two, each within a crossing of houses. */
export const groupedChain = chainTechnique({
  name: 'grouped-alternating-inference-chain',
  level: 'chain',
  kinds: { cells: true, houses: true, groups: true, withinCells: true },
})

/** Chains with almost locked sets among their strong links: without one of its digits such a set holds all the others. */
export const chainWithSets = chainTechnique({
  name: 'alternating-inference-chain-with-sets',
  level: 'chain',
  kinds: { cells: true, houses: true, groups: true, setsOf: LARGEST_SET, withinCells: true },
})
