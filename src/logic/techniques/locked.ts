import type { Board } from '../../grid/board.js'
import { cellsAt, factsOf } from '../facts.js'
import { LookedInVain } from '../path-memory.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'

/**
 * Locked candidates: within the house `from`, every place of a digit lies in the house `to` as well, so the rest of `to`
 * loses it. From a box or region into a line it is called pointing, from a line into a box or region claiming.
 */
function findLocked(
  name: 'pointing' | 'claiming',
  vain: LookedInVain,
  board: Board,
  report: (step: Step) => boolean,
): void {
  const { geometry, candidates } = board
  const { places, stamps } = factsOf(board)
  const { order, houses, housesOf } = geometry
  for (const { index: from, kind } of houses) {
    const fromBlock = kind === 'box' || kind === 'region'
    if (fromBlock !== (name === 'pointing') || vain.at(from, stamps.ofHouse[from]!)) continue
    let found = false
    for (let digit = 1; digit <= order; digit++) {
      const set = places[from * order + digit - 1]!
      if (set === 0 || (set & (set - 1)) === 0) continue
      const first = houses[from]!.cells[31 - Math.clz32(set & -set)]!
      for (const to of housesOf[first]!) {
        if (to === from) continue
        const cells = cellsIn(to, from, set)
        if (!cells) continue
        // Nothing to remove when `to` has no other place for the digit.
        const bit = 1 << (digit - 1)
        const removals = houses[to]!.cells.filter(
          (cell) => candidates[cell]! & bit && !cells.includes(cell),
        ).map((cell) => ({ cell, digit }))
        if (removals.length === 0) continue
        const step: Step = {
          technique: name,
          level: 'mark',
          placements: [],
          removals,
          premises: [{ kind: 'house', house: from, digit, cells }],
          pattern: { shape: 'locked', digit, from, to, cells },
        }
        found = true
        if (report(step)) return
      }
    }
    if (!found) vain.note(from, stamps.ofHouse[from]!)
  }

  /** The cells of `from` at these positions if all of them lie in `to`. */
  function cellsIn(to: number, from: number, positions: number): number[] | undefined {
    const fromCells = houses[from]!.cells
    for (let rest = positions; rest !== 0; rest &= rest - 1) {
      if (geometry.positionIn(to, fromCells[31 - Math.clz32(rest & -rest)]!) < 0) return undefined
    }
    return cellsAt(geometry, from, positions)
  }
}

function locked(name: 'pointing' | 'claiming'): Technique {
  const vain = new LookedInVain()
  return { name, level: 'mark', find: (board, report) => findLocked(name, vain, board, report) }
}

export const pointing = locked('pointing')
export const claiming = locked('claiming')
