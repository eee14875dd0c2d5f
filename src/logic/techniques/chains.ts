import { digitBit } from '../../grid/digits.js'
import type { Task, Watch } from '../../limits.js'
import type { Chain, ChainLimits } from '../chains/chain.js'
import { LINKS_OF_ALL, strongLinks } from '../chains/chain-length.js'
import { chainPattern, conclude, premisesBehind } from '../chains/chain-step.js'
import { visitAllChains, visitChainsByRemovals } from '../chains/every-chain.js'
import { FinnedLinks } from '../chains/finned-links.js'
import { GraphLists, LinkGraph, type LinkKinds, linkGraph, linkGraphTask } from '../chains/graph.js'
import { refutedIn } from '../chains/implications.js'
import { visitShortestLoops, visitShortLoops } from '../chains/loops.js'
import { neededPattern } from '../chains/needed-chain.js'
import { ShorterChains, visitShortestChains } from '../chains/shortest-chains.js'
import { hasNoChains } from '../chains/without-chains.js'
import { doubtfulDigits } from '../facts/digit-placements.js'
import type { Facts } from '../facts/facts.js'
import { zeros } from '../facts/number-lists.js'
import { type MissCache, missCache } from '../facts/path-memory.js'
import type { Level } from '../level.js'
import { trimPremises } from '../proof/trim.js'
import { LARGEST_SET } from '../sets/almost-locked.js'
import { conclusionsOf, once } from '../steps/identity.js'
import type { Pattern, Step } from '../steps/step.js'
import { type FindOptions, slowTechnique, type Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

/** A family of chains: which links it is made of, how long it gets, and how it is shown. */
export interface ChainFamily {
  readonly name: TechniqueName
  readonly level: Level
  readonly kinds: LinkKinds
  readonly limits?: Partial<ChainLimits>
  /**
   * Do all links of a chain lie in one digit? Digits that have not changed since a search without result need not be
   * searched again.
   */
  readonly withinDigits?: boolean
  /** Chains some of whose strong links have fins, instead of plain ones. */
  readonly finned?: boolean
  /** Also every loop of two strong links, whatever else removes the same candidates: doubly linked sets. */
  readonly pairLoops?: boolean
  readonly pattern?: (graph: LinkGraph, chain: Chain) => Pattern
}

/**
 * The technique of a family: for every candidate that such chains remove, a shortest one, short chains first. A chain
 * reports all it concludes at once; a candidate it removed gets no other chain, unless all lengths are asked for.
 */
export function chainTechnique(family: ChainFamily): Technique {
  const missesPart = missCache()
  const ownLists = (): GraphLists => new GraphLists()
  return slowTechnique({
    name: family.name,
    level: family.level,
    *search(facts, report, options, watch) {
      if (family.finned) {
        const graph = yield* linkGraphTask(facts, family.kinds, watch)
        return yield* findChains(family, graph, report, options, watch)
      }
      if (!family.withinDigits) {
        if (watch.isTimed && family.kinds.setsOf) yield* linkGraphTask(facts, family.kinds, watch)
        if (!options.allLengths && hasNoChains(facts, family.kinds)) return
        if (watch.isDue(watch.read())) yield
        return yield* findChains(family, linkGraph(facts, family.kinds), report, options, watch)
      }
      const misses = facts.context.of(missesPart)
      const places = digitsToSearch(facts, misses)
      if (places.length === 0) return
      let found = false
      const digits = places.reduce((set, { digit }) => set | digitBit(digit), 0)
      yield* findChains(
        family,
        new LinkGraph(facts, family.kinds, facts.context.of(ownLists), digits),
        (step) => {
          found = true
          return report(step)
        },
        options,
        watch,
      )
      const everySearched = options.maxLinks === undefined && !options.allLengths && !options.everyRemoval
      if (!found && everySearched) for (const { digit, stamp } of places) misses.note(digit, stamp)
    },
  })
}

interface Place {
  readonly digit: number
  readonly stamp: number
}

/** The digits in which a search may find something, by what changed since it found nothing there. */
function digitsToSearch(facts: Facts, misses: MissCache): readonly Place[] {
  const { stamps } = facts
  const digits = doubtfulDigits(facts)
  const places: Place[] = []
  for (let i = 0; i < digits.length; i++) {
    const digit = digits[i]!
    const stamp = stamps.ofDigit[digit]!
    if (!misses.has(digit, stamp)) places.push({ digit, stamp })
  }
  return places
}

function* findChains(
  family: ChainFamily,
  graph: LinkGraph,
  report: (step: Step) => boolean,
  options: FindOptions,
  watch: Watch,
): Task<void> {
  const limits = limitsFor(family, graph, options)
  const reportOnce = once(report)
  const settled = zeros(graph.nodes.size)
  const look = (shorter?: ShorterChains) => (chain: Chain) => {
    const step = stepOf(family, graph, chain, options, shorter)
    if (step) settle(graph, step, settled)
    return step !== undefined && reportOnce(step)
  }
  if (options.allLengths && !family.finned) return yield* visitAllChains(graph, limits, look(), watch)
  const finned = family.finned ? yield* FinnedLinks.of(graph, watch) : undefined
  if (!finned && refutedIn(graph).length === 0) return
  const lookBeyond = look(new ShorterChains(graph, Math.max(limits.least, 2)))
  if (options.everyRemoval && !finned) return yield* visitChainsByRemovals(graph, limits, lookBeyond, watch)
  const enough = yield* visitShortestChains(graph, finned, limits, settled, lookBeyond, watch)
  if (!enough && family.pairLoops && limits.most >= 2) yield* visitShortLoops(graph, lookBeyond, watch)
}

/** The technique of loops made of the family's links. */
function loopTechnique(family: ChainFamily): Technique {
  return slowTechnique({
    name: family.name,
    level: family.level,
    *search(facts, report, options, watch) {
      // what sees both ends of a weak link leads to its own failing either way round
      if (hasNoChains(facts, family.kinds)) return
      if (watch.isDue(watch.read())) yield
      const graph = linkGraph(facts, family.kinds)
      // of loops with the same conclusions one of the shortest is reported
      const seen = new Set<string>()
      const limits = limitsFor(family, graph, options)
      const shorter = new ShorterChains(graph, limits.least)
      const look = (loop: Chain): boolean => {
        const step = stepOf(family, graph, loop, options, shorter)
        // what needs less than the whole loop is a chain, and explained as one
        if (step?.pattern.shape !== 'chain' || !step.pattern.loop) return false
        const key = conclusionsOf(step).join()
        if (seen.has(key)) return false
        seen.add(key)
        return report(step)
      }
      yield* visitShortestLoops(graph, limits, look, watch)
    },
  })
}

function limitsFor(family: ChainFamily, graph: LinkGraph, options: FindOptions): ChainLimits {
  const links = options.maxLinks ?? (options.allLengths ? LINKS_OF_ALL : Number.POSITIVE_INFINITY)
  const allowed = Math.min(strongLinks(links), graph.nodes.size)
  return { least: family.limits?.least ?? 2, most: Math.min(family.limits?.most ?? allowed, allowed) }
}

/** The step of a chain, unless it concludes nothing, or nothing but what shorter ones do. */
function stepOf(
  family: ChainFamily,
  graph: LinkGraph,
  chain: Chain,
  { maxLinks }: FindOptions,
  shorter?: ShorterChains,
): Step | undefined {
  const whole = conclude(graph, chain)
  const conclusion = shorter ? shorter.leftBy(whole) : whole
  if (conclusion.placements.length + conclusion.removals.length === 0) return undefined
  const { board } = graph.nodes
  const premises = premisesBehind(board, chain.by)
  const needed = trimPremises(board.geometry, premises, conclusion)
  return {
    technique: family.name,
    level: family.level,
    placements: conclusion.placements,
    removals: conclusion.removals,
    premises: needed,
    pattern:
      needed.length === premises.length
        ? (family.pattern ?? chainPattern)(graph, chain)
        : neededPattern(board.geometry, family.kinds, needed, conclusion, strongLinks(maxLinks)),
  }
}

/** Marks what a step deals with: the candidates it removes, and all that a digit it places rules out. */
function settle({ nodes }: LinkGraph, step: Step, settled: number[]): void {
  for (const { cell, digit } of step.removals) settled[nodes.candidate(cell, digit)] = 1
  for (const { cell, digit } of step.placements) {
    const placed = nodes.candidate(cell, digit)
    for (let node = 0; node < nodes.candidates; node++)
      if (nodes.areWeaklyLinked(node, placed)) settled[node] = 1
  }
}

const WITH_GROUPS: LinkKinds = { cells: true, houses: true, groups: true, withinCells: true }
const WITH_SETS: LinkKinds = { ...WITH_GROUPS, setsOf: LARGEST_SET }

/** One digit, strong links within houses: skyscraper and kite are the shortest. */
export const xChain = chainTechnique({
  name: 'x-chain',
  level: 'pattern',
  kinds: { houses: true },
  withinDigits: true,
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
  kinds: WITH_GROUPS,
})

/**
 * Chains with almost locked sets among their strong links: without one of its digits such a set holds all the others.
 */
export const chainWithSets = chainTechnique({
  name: 'alternating-inference-chain-with-sets',
  level: 'chain',
  kinds: WITH_SETS,
})

/**
 * A chain with fins: an alternating chain some of whose strong links would be spoilt by further candidates, all of
 * which see the candidate removed. It stands to plain chains as a finned fish does to a fish: if a fin is true the
 * candidate goes at once, and if none is the chain holds.
 */
export const finnedChain = chainTechnique({
  name: 'finned-chain',
  level: 'chain',
  kinds: WITH_SETS,
  finned: true,
  // one link is enough where no house has a candidate's all fins and ends
  limits: { least: 1 },
})

/**
 * A ring of strong and weak links by turns: on every weak link one of the two ends holds, so what sees both goes.
 * Of the shortest loops through each place, one is reported for each set of conclusions.
 */
export const continuousLoop: Technique = loopTechnique({
  name: 'continuous-loop',
  level: 'chain',
  kinds: WITH_GROUPS,
})
