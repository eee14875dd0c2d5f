import type { Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, lowestBit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { cellsAt, type Facts } from '../facts/facts.js'
import { type MissCache, missCache } from '../facts/path-memory.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

/**
 * Locked candidates: within the house `from`, every place of a digit lies in the house `to` as well, so the rest of
 * `to` loses it. From a box or region into a line it is called pointing, from a line into a box or region claiming.
 */
function findLocked(
  name: 'pointing' | 'claiming',
  misses: MissCache,
  facts: Facts,
  report: (step: Step) => boolean,
): void {
  const { board, places, stamps } = facts
  const { geometry } = board
  const { order } = geometry
  const { houses, housesOf } = layoutOf(geometry)
  for (let from = 0; from < houses.length; from++) {
    const { kind } = houses[from]!
    const fromBlock = kind === 'box' || kind === 'region'
    if (fromBlock !== (name === 'pointing') || misses.has(from, stamps.ofHouse[from]!)) continue
    let found = false
    for (let digit = 1; digit <= order; digit++) {
      const set = places[from * order + digit - 1]!
      if (set === 0 || (set & (set - 1)) === 0) continue
      const crossing = housesOf[houses[from]!.cells[lowestBit(set)]!]!
      for (let i = 0; i < crossing.length; i++) {
        const to = crossing[i]!
        // Nothing to remove when `to` has no other place for the digit.
        if (to === from || digitCount(places[to * order + digit - 1]!) === digitCount(set)) continue
        if (!areIn(geometry, to, from, set)) continue
        found = true
        if (report(lockedStep(facts, name, digit, from, to))) return
      }
    }
    if (!found) misses.note(from, stamps.ofHouse[from]!)
  }
}

function lockedStep(facts: Facts, name: TechniqueName, digit: number, from: number, to: number): Step {
  const { board, places } = facts
  const { geometry } = board
  const cells = cellsAt(geometry, from, places[from * geometry.order + digit - 1]!)
  const removals: Candidate[] = []
  for (const cell of cellsAt(geometry, to, places[to * geometry.order + digit - 1]!))
    if (!cells.includes(cell)) removals.push({ cell, digit })
  return {
    technique: name,
    level: 'mark',
    placements: [],
    removals,
    premises: [{ kind: 'house', house: from, digit, cells }],
    pattern: { shape: 'locked', digit, from, to, cells },
  }
}

/** Do all cells of a house at these positions lie in another one as well? */
function areIn(geometry: Geometry, to: number, from: number, positions: DigitSet): boolean {
  const layout = layoutOf(geometry)
  const { cells } = layout.houses[from]!
  for (let rest = positions; rest !== 0; rest &= rest - 1)
    if (layout.positionIn(to, cells[lowestBit(rest)]!) < 0) return false
  return true
}

function locked(name: 'pointing' | 'claiming'): Technique {
  const misses = missCache()
  return {
    name,
    level: 'mark',
    find: (facts, report) => findLocked(name, facts.context.of(misses), facts, report),
  }
}

export const pointing = locked('pointing')
export const claiming = locked('claiming')
