import type { Board } from '../../grid/board.js'
import type { Task, Watch } from '../../limits.js'
import { cellPremise } from '../proof/premise-holds.js'
import { isProvenWithin, trimWithin } from '../proof/trim.js'
import { type LockedCells, smallestLockedCells } from '../sets/locked-cells.js'
import { once } from '../steps/identity.js'
import type { Step } from '../steps/step.js'
import { slowTechnique, type Technique } from '../technique.js'

/**
 * Multi-sector locked set: cells that have as many digits to share as there are cells, where each digit is counted once
 * in every house that has it there, by rows, by columns or by blocks, whichever the digit. All those digits of those
 * houses are then used up in these cells, and the other cells of the houses lose them. Rings of four boxes and the
 * cells where some rows cross some columns are well-known forms.
 *
 * A digit is counted by houses of one kind throughout; within that, the smallest sets for each removal are found. Sets
 * of one house are naked subsets; of two, Sue de Coq or doubly linked sets; here they have three houses or more.
 */
export const multiSectorLockedSet: Technique = slowTechnique({
  name: 'multi-sector-locked-set',
  level: 'chain',
  *search(facts, report, _, watch) {
    const { board } = facts
    const reportOnce = once(report)
    for (const set of yield* smallestLockedCells(facts, watch)) {
      if (housesOf(set) < LEAST_HOUSES) continue
      if (watch.isDue()) yield
      const step = yield* stepOf(board, set, watch)
      if (step && reportOnce(step)) return
    }
  },
})

const LEAST_HOUSES = 3

function housesOf({ sectors }: LockedCells): number {
  return new Set(sectors.map(({ house }) => house)).size
}

function* stepOf(
  board: Board,
  { cells, sectors, removals }: LockedCells,
  watch: Watch,
): Task<Step | undefined> {
  const { geometry } = board
  const conclusion = {
    placements: [],
    removals: [...removals].sort((a, b) => a.cell - b.cell || a.digit - b.digit),
  }
  const premises = cells.map((cell) => cellPremise(board, cell))
  // the proof is a count, which a search can only imitate: what is too large for it is left out
  if (!(yield* isProvenWithin(watch, geometry, premises, conclusion))) return undefined
  const houses = [...new Set(sectors.map(({ house }) => house))].sort((a, b) => a - b)
  return {
    technique: 'multi-sector-locked-set',
    level: 'chain',
    placements: conclusion.placements,
    removals: conclusion.removals,
    premises: yield* trimWithin(watch, geometry, premises, conclusion),
    pattern: {
      shape: 'sectors',
      cells,
      houses: houses.map((house) => ({
        house,
        digits: sectors
          .filter((sector) => sector.house === house)
          .map(({ digit }) => digit)
          .sort((a, b) => a - b),
      })),
    },
  }
}
