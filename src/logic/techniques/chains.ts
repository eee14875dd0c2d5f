import { once } from '../identity.js'
import type { Level } from '../level.js'
import { LARGEST_SET } from '../links/almost-locked.js'
import { chainPattern, conclude, premisesOf, reasonsOf } from '../links/chain-step.js'
import { visitAllChains, visitShortLoops } from '../links/every-chain.js'
import { type LinkGraph, type LinkKinds, linkGraph } from '../links/graph.js'
import { type Chain, type ChainLimits, visitShortestChains, visitShortestLoops } from '../links/search.js'
import { trimPremises } from '../links/trim.js'
import type { Pattern, Step } from '../step.js'
import type { FindOptions, Technique } from '../technique.js'

/** A family of chains: which links it is made of, how long it gets, and how it is shown. */
export interface ChainFamily {
  readonly name: string
  readonly level: Level
  readonly kinds: LinkKinds
  readonly limits?: Partial<ChainLimits>
  /** Also every loop of two strong links, whatever else removes the same candidates: doubly linked sets. */
  readonly pairLoops?: boolean
  readonly pattern?: (graph: LinkGraph, chain: Chain) => Pattern
}

/** Longest chain when all lengths are asked for and no limit is named: there are too many longer ones. */
const LINKS_OF_ALL = 7

/**
 * The technique of a family: for every candidate that such chains remove, a shortest one, short chains first. A chain
 * tells all it concludes at once; a candidate it removed gets no other chain, unless all lengths are asked for.
 */
export function chainTechnique(family: ChainFamily): Technique {
  return {
    name: family.name,
    level: family.level,
    find(board, report, options) {
      const graph = linkGraph(board, family.kinds)
      const limits = limitsFor(family, graph, options)
      if (options.allLengths) {
        const tell = once(report)
        visitAllChains(graph, limits, (chain) => {
          const step = stepOf(family, graph, chain)
          return step !== undefined && tell(step)
        })
        return
      }
      const settled = new Uint8Array(graph.nodes.size)
      const tell = once(report)
      const enough = visitShortestChains(graph, limits, settled, (chain) => {
        const step = stepOf(family, graph, chain)!
        settle(graph, step, settled)
        return tell(step)
      })
      if (enough || !family.pairLoops) return
      visitShortLoops(graph, (loop) => {
        const step = stepOf(family, graph, loop)
        return step !== undefined && tell(step)
      })
    },
  }
}

/** The technique of loops made of the family's links. */
function loopTechnique(family: ChainFamily): Technique {
  return {
    name: family.name,
    level: family.level,
    find(board, report, options) {
      const graph = linkGraph(board, family.kinds)
      // the same links may be read as more than one ring where groups overlap
      const tell = once(report)
      visitShortestLoops(graph, limitsFor(family, graph, options), (loop) => {
        const step = stepOf(family, graph, loop)
        return step !== undefined && tell(step)
      })
    },
  }
}

function limitsFor(family: ChainFamily, graph: LinkGraph, options: FindOptions): ChainLimits {
  const links = options.maxLinks ?? (options.allLengths ? LINKS_OF_ALL : Number.POSITIVE_INFINITY)
  // n strong links have n - 1 weak ones between them
  const allowed = Math.min(Math.floor((links + 1) / 2), graph.nodes.size)
  return { least: family.limits?.least ?? 2, most: Math.min(family.limits?.most ?? allowed, allowed) }
}

/** The step of a chain, unless it concludes nothing. */
function stepOf(family: ChainFamily, graph: LinkGraph, chain: Chain): Step | undefined {
  const conclusion = conclude(graph, chain)
  if (conclusion.placements.length + conclusion.removals.length === 0) return undefined
  const { board } = graph.nodes
  return {
    technique: family.name,
    level: family.level,
    ...conclusion,
    premises: trimPremises(board.geometry, premisesOf(board, reasonsOf(graph, chain)), conclusion),
    pattern: (family.pattern ?? chainPattern)(graph, chain),
  }
}

/** Marks what a step deals with: the candidates it removes, and all that a digit it places rules out. */
function settle({ nodes }: LinkGraph, step: Step, settled: Uint8Array): void {
  for (const { cell, digit } of step.removals) settled[nodes.candidate(cell, digit)] = 1
  for (const { cell, digit } of step.placements) {
    const placed = nodes.candidate(cell, digit)
    for (const node of nodes.candidateNode) {
      if (node >= 0 && nodes.areWeaklyLinked(node, placed)) settled[node] = 1
    }
  }
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

/**
 * A ring of strong and weak links by turns: on every weak link one of the two ends holds, so what sees both goes.
 * One shortest loop is told for each place it can run through.
 */
export const continuousLoop: Technique = loopTechnique({
  name: 'continuous-loop',
  level: 'chain',
  kinds: { cells: true, houses: true, groups: true, withinCells: true },
})
