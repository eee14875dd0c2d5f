import type { Candidate } from '../grid/board.js'
import type { Task, Watch } from '../limits.js'
import { searchOf } from '../logic/chains/chain-search.js'
import { FinnedLinks } from '../logic/chains/finned-links.js'
import { type LinkKinds, linkGraphTask } from '../logic/chains/graph.js'
import { refutedIn, refutedWithFins } from '../logic/chains/implications.js'
import { hasNoChains } from '../logic/chains/without-chains.js'
import type { Facts } from '../logic/facts/facts.js'
import { LARGEST_SET } from '../logic/sets/almost-locked.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { leastPieces } from './ease.js'

/** Chains of one name: their links, how many strong ones they have at least and at most, and whether some have fins. */
interface ChainKind {
  readonly kinds: LinkKinds
  readonly least?: number
  readonly most?: number
  readonly withFins?: boolean
}

const LINKS: LinkKinds = { cells: true, houses: true, withinCells: true }
const WITH_GROUPS: LinkKinds = { ...LINKS, groups: true }
const WITH_SETS: LinkKinds = { ...WITH_GROUPS, setsOf: LARGEST_SET }
const SETS_ONLY: LinkKinds = { setsOf: LARGEST_SET }

const KINDS: Partial<Record<TechniqueName, ChainKind>> = {
  'x-chain': { kinds: { houses: true } },
  'xy-chain': { kinds: { cells: true } },
  'alternating-inference-chain': { kinds: LINKS },
  'grouped-alternating-inference-chain': { kinds: WITH_GROUPS },
  'als-xz': { kinds: SETS_ONLY, most: 2 },
  'als-xy-wing': { kinds: SETS_ONLY, least: 3, most: 3 },
  'als-chain': { kinds: SETS_ONLY, least: 4 },
  'alternating-inference-chain-with-sets': { kinds: WITH_SETS },
  'finned-chain': { kinds: WITH_SETS, withFins: true },
}

export function isChain(technique: TechniqueName): boolean {
  return technique in KINDS
}

/** All that chains of one name remove. */
export interface RemovedByChains {
  readonly removals: readonly Candidate[]
  /** Strong links of the shortest. */
  readonly pieces: number
}

/**
 * Every candidate that some chain of this name is against. A finder shows one of several chains that conclude nearly
 * the same, so what its steps remove together depends on where it begins; what follows from the links does not.
 */
export function* removedByChains(
  facts: Facts,
  technique: TechniqueName,
  maxLinks: number,
  watch: Watch,
): Task<RemovedByChains | undefined> {
  const { kinds, withFins = false, least = 1, most = Number.POSITIVE_INFINITY } = KINDS[technique]!
  if (!withFins && hasNoChains(facts, kinds)) return undefined
  const graph = yield* linkGraphTask(facts, kinds, watch)
  const refuted = withFins ? refutedWithFins(graph, yield* FinnedLinks.of(graph, watch)) : refutedIn(graph)
  const removals: Candidate[] = []
  let pieces = Number.POSITIVE_INFINITY
  for (const node of refuted) {
    const strong = withFins ? leastPieces(technique) : searchOf(graph).run(node, graph.nodes.size)
    if (strong < least || strong > most || 2 * strong - 1 > maxLinks) continue
    pieces = Math.min(pieces, strong)
    removals.push({ cell: graph.nodes.cells[node]![0]!, digit: graph.nodes.digit[node]! })
  }
  return removals.length > 0 ? { removals, pieces } : undefined
}
