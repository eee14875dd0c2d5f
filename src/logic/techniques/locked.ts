import type { Board } from '../../grid/board.js'
import { cellsAt, factsOf } from '../facts.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'

/**
 * Locked candidates: within the house `from`, every place of a digit lies in the house `to` as well, so the rest of `to`
 * loses it. From a box or region into a line it is called pointing, from a line into a box or region claiming.
 */
function findLocked(name: 'pointing' | 'claiming', board: Board, report: (step: Step) => boolean): void {
  const { geometry, candidates } = board
  const { places } = factsOf(board)
  const { order, houses, housesOf } = geometry
  for (const { index: from, kind } of houses) {
    const fromBlock = kind === 'box' || kind === 'region'
    if (fromBlock !== (name === 'pointing')) continue
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
        if (report(step)) return
      }
    }
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

export const pointing: Technique = {
  name: 'pointing',
  level: 'mark',
  find: (board, report) => findLocked('pointing', board, report),
}

export const claiming: Technique = {
  name: 'claiming',
  level: 'mark',
  find: (board, report) => findLocked('claiming', board, report),
}
