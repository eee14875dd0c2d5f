import type { Board } from '../../grid/board.js'
import { type DigitSet, digitCount } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import type { Facts, Stamps } from '../facts/facts.js'
import { type LinkKinds, linkGraph } from './graph.js'
import { groupedTies, partings } from './house-ties.js'
import { refutedIn } from './implications.js'
import { nodesOf } from './nodes.js'

/** The latest board without chains, as far as links of cells and houses come from it. */
interface LinksThere {
  /** The same for all boards of a path. */
  readonly path: Stamps
  readonly candidates: readonly DigitSet[]
  /** As in `Facts`. */
  readonly places: readonly DigitSet[]
}

const latestPart = (before?: Map<LinkKinds, LinksThere>): Map<LinkKinds, LinksThere> => new Map(before)

/**
 * Is there no chain of these kinds of links on the board, of whatever length? Along a path candidates only go, and what
 * sees what stays. So where an earlier board had none, a chain has a strong link that is new: without one there is no
 * need to look.
 */
export function hasNoChains(facts: Facts, kinds: LinkKinds): boolean {
  const { board } = facts
  const latest = facts.context.of(latestPart)
  const before = latest.get(kinds)
  if (before && before.path === facts.stamps && !hasNewLinks(board, facts, kinds, before)) {
    // nodes are numbered as they are met, and which of equal chains is reported later must not depend on what was left
    // out here
    if (kinds.groups) numberGroups(facts)
    return true
  }
  const none = refutedIn(linkGraph(facts, kinds)).length === 0
  if (none && !kinds.setsOf) latest.set(kinds, linksOf(facts))
  return none
}

function numberGroups(facts: Facts): void {
  const { board } = facts
  const nodes = nodesOf(facts)
  for (let digit = 1; digit <= board.geometry.order; digit++) {
    const ties = groupedTies(facts, digit)
    for (let i = 0; i < ties.length; i++) {
      nodes.of(digit, ties[i]!.one)
      nodes.of(digit, ties[i]!.other)
    }
  }
}

function linksOf(facts: Facts): LinksThere {
  const { board, stamps, places } = facts
  return { path: stamps, candidates: board.candidates, places: places.slice() }
}

/** A cell or house has the links that it had for as long as its candidates and places stay what they are. */
function hasNewLinks(
  { candidates, geometry }: Board,
  facts: Facts,
  kinds: LinkKinds,
  before: LinksThere,
): boolean {
  const { openCells, places } = facts
  if (kinds.cells)
    for (let i = 0; i < openCells.length; i++) {
      const cell = openCells[i]!
      if (candidates[cell] !== before.candidates[cell] && digitCount(candidates[cell]!) === 2) return true
    }
  for (let entry = 0; entry < places.length; entry++) {
    const set = places[entry]!
    if (set === before.places[entry]) continue
    const count = digitCount(set)
    if (count === 2 ? kinds.houses : count > 2 && kinds.groups && isParted(geometry, entry, set)) return true
  }
  return false
}

function isParted(geometry: Geometry, entry: number, set: DigitSet): boolean {
  return partings(geometry, (entry / geometry.order) | 0, set).length > 0
}
