import type { Board } from '../../grid/board.js'
import { factsOf, type Stamps } from '../facts.js'
import { type LinkKinds, linkGraph } from './graph.js'
import { groupedTies, type HouseTie, plainTies } from './house-ties.js'
import { refutedIn } from './implications.js'
import { nodesOf } from './nodes.js'

/** The links of the latest board without chains, of cells and houses. */
interface LinksThere {
  /** The same for all boards of a path. */
  readonly path: Stamps
  readonly bivalue: readonly number[]
  /** digit - 1 -> its ties. */
  readonly plain: readonly (readonly HouseTie[])[]
  readonly grouped: readonly (readonly HouseTie[])[]
}

const latest = new WeakMap<LinkKinds, LinksThere>()

/**
 * Is there no chain of these kinds of links on the board, of whatever length? Along a path candidates only go, and what sees what
 * stays. So where an earlier board had none, a chain has a strong link that is new: without one there is no need to look.
 */
export function hasNoChains(board: Board, kinds: LinkKinds): boolean {
  const before = latest.get(kinds)
  if (before && before.path === factsOf(board).stamps && !hasNewLinks(board, kinds, before)) {
    // nodes are numbered as they are met, and which of equal chains is told later must not depend on what was left out here
    if (kinds.groups) numberGroups(board)
    return true
  }
  const none = refutedIn(linkGraph(board, kinds)).length === 0
  if (none && !kinds.setsOf) latest.set(kinds, linksOf(board, kinds))
  return none
}

function numberGroups(board: Board): void {
  const nodes = nodesOf(board)
  for (let digit = 1; digit <= board.geometry.order; digit++)
    for (const { one, other } of groupedTies(board, digit)) {
      nodes.of(digit, one)
      nodes.of(digit, other)
    }
}

function linksOf(board: Board, kinds: LinkKinds): LinksThere {
  const { stamps, bivalue } = factsOf(board)
  const tiesBy = (tiesOf: typeof plainTies) =>
    Array.from({ length: board.geometry.order }, (_, d) => tiesOf(board, d + 1))
  return {
    path: stamps,
    bivalue: kinds.cells ? bivalue : [],
    plain: kinds.houses ? tiesBy(plainTies) : [],
    grouped: kinds.groups ? tiesBy(groupedTies) : [],
  }
}

function hasNewLinks(board: Board, kinds: LinkKinds, before: LinksThere): boolean {
  if (kinds.cells && factsOf(board).bivalue.some((cell) => !before.bivalue.includes(cell))) return true
  for (let digit = 1; digit <= board.geometry.order; digit++) {
    if (kinds.houses && hasNewTies(plainTies(board, digit), before.plain[digit - 1]!)) return true
    if (kinds.groups && hasNewTies(groupedTies(board, digit), before.grouped[digit - 1]!)) return true
  }
  return false
}

function hasNewTies(now: readonly HouseTie[], before: readonly HouseTie[]): boolean {
  // ties are kept while the places of their digit stay as they are
  return now !== before && now.some((tie) => !before.some((other) => areSame(tie, other)))
}

function areSame(a: HouseTie, b: HouseTie): boolean {
  return a.one === b.one && a.other === b.other
}
