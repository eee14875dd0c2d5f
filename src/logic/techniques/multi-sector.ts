import type { Board, Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import type { Task, Watch } from '../../limits.js'
import { factsOf } from '../facts.js'
import { once } from '../identity.js'
import { linesOf } from '../lines.js'
import { type LockedCells, SectorMatching } from '../links/sector-matching.js'
import { isProvenWithin, trimWithin } from '../links/trim.js'
import { cellPremise } from '../premise-holds.js'
import type { Step } from '../step.js'
import { slowTechnique, type Technique } from '../technique.js'

/**
 * Multi-sector locked set: cells that have as many digits to share as there are cells, where each digit is counted once in
 * every house that has it there, by rows, by columns or by blocks, whichever the digit. All those digits of those houses
 * are then used up in these cells, and the other cells of the houses lose them. Rings of four boxes and the cells
 * where some rows cross some columns are well-known forms.
 *
 * A digit is counted by houses of one kind throughout; within that, the smallest sets for each removal are found.
 * Sets of one house are naked subsets; of two, Sue de Coq or doubly linked sets; here they have three houses or more.
 */
export const multiSectorLockedSet: Technique = slowTechnique({
  name: 'multi-sector-locked-set',
  level: 'chain',
  *search(board, report, _, watch) {
    const tell = once(report)
    for (const set of smallestFor(yield* lockedSets(board, watch))) {
      if (housesOf(set) < LEAST_HOUSES) continue
      if (watch.isDue()) yield
      const step = yield* stepOf(board, set, watch)
      if (step && tell(step)) return
    }
  },
})

const LEAST_HOUSES = 3

function housesOf({ sectors }: LockedCells): number {
  return new Set(sectors.map(({ house }) => house)).size
}

/**
 * Most ways tried to choose the kind of house for each open digit: all of three kinds for nine digits. With more digits,
 * rows and columns alone are tried, and where that is still too much, nothing.
 */
const MOST_CHOICES = 20_000

/** For how many digits the choice is tried once all others are settled. */
const LAST_DIGITS = 2

/** Every locked set in order of size, each once with all it removes and in the fewest houses. */
function* lockedSets(board: Board, watch: Watch): Task<LockedCells[]> {
  // the more cells the digits have that are chosen first, the fewer parts are left to the last
  const digits = digitsOf(board.candidates.reduce((all, set) => all | set, 0)).sort(
    (a, b) => factsOf(board).cellsWith(a).length - factsOf(board).cellsWith(b).length,
  )
  const { rows, columns, blocks } = linesOf(board.geometry)
  const kinds = [rows, columns, blocks].filter((kind) => kind.length > 0)
  while (kinds.length ** digits.length > MOST_CHOICES) kinds.pop()
  if (kinds.length < 2) return []
  const matching = yield* SectorMatching.of(board, kinds, watch)
  if (!matching) return []
  const sets = new Map<string, LockedCells>()
  const visit = function* (undecided: number): Task<void> {
    if (undecided === Math.min(LAST_DIGITS, digits.length)) matching.settleAllBut(digits.slice(0, undecided))
    if (undecided === 0) {
      if (watch.isDue()) yield
      if (matching.nothingLocked()) return
      for (const set of matching.lockedCells()) {
        const key = set.cells.join()
        const known = sets.get(key)
        if (!known) sets.set(key, set)
        else {
          const { sectors } = housesOf(set) < housesOf(known) ? set : known
          sets.set(key, { ...known, sectors, removals: joined(known.removals, set.removals) })
        }
      }
      return
    }
    for (let kind = 0; kind < kinds.length; kind++) {
      matching.choose(digits[undecided - 1]!, kind)
      yield* visit(undecided - 1)
    }
  }
  yield* visit(digits.length)
  return [...sets.values()].sort((a, b) => a.cells.length - b.cells.length)
}

const isIn = (list: readonly Candidate[], { cell, digit }: Candidate): boolean =>
  list.some((other) => other.cell === cell && other.digit === digit)

function joined(known: readonly Candidate[], more: readonly Candidate[]): readonly Candidate[] {
  const fresh = more.filter((candidate) => !isIn(known, candidate))
  return fresh.length > 0 ? [...known, ...fresh] : known
}

/**
 * Of sets in order of size, those that remove what no smaller one does. Sets of one size do not stand in each other's way,
 * or it would be a matter of order which of them are told, and whether any is.
 */
function* smallestFor(sets: readonly LockedCells[]): Generator<LockedCells> {
  let gone: readonly Candidate[] = []
  let goneWithThisSize = gone
  for (const [i, set] of sets.entries()) {
    if (i > 0 && sets[i - 1]!.cells.length < set.cells.length) gone = goneWithThisSize
    if (joined(gone, set.removals) !== gone) yield set
    goneWithThisSize = joined(goneWithThisSize, set.removals)
  }
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
