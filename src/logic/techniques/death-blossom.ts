import type { Board } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import { candidatesSeenByAll, factsOf } from '../facts.js'
import { once } from '../identity.js'
import { type AlmostLockedSet, almostLockedSets } from '../links/almost-locked.js'
import { trimPremises } from '../links/trim.js'
import { cellPremise } from '../premise-holds.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'

/** An almost locked set all of whose places for a stem's digit see the stem, and where it keeps another digit then. */
interface Petal {
  readonly set: AlmostLockedSet
  /** Cells that have `digit` of the blossom and see all its places in the set. */
  readonly seen: readonly number[]
}

/**
 * Death blossom: whichever digit the stem takes, an almost locked set that sees it loses that digit and so keeps all its
 * others; when all these petals have another digit in common, cells that see all places of that digit in every petal
 * lose it.
 */
export const deathBlossom: Technique = {
  name: 'death-blossom',
  level: 'chain',
  find(board, report) {
    const sets = almostLockedSets(board)
    // a cell of one blossom's petal may be the stem of another on the same cells
    const tell = once(report)
    for (const stem of factsOf(board).openCells) {
      const digits = digitsOf(board.candidates[stem]!)
      // two petals on a stem of two digits are an ALS-XY-wing
      if (digits.length < 3) continue
      const near = digits.map((digit) => sets.filter((set) => losesTo(board, set, stem, digit)))
      if (near.some((list) => list.length === 0)) continue
      for (let digit = 1; digit <= board.geometry.order; digit++) {
        if (board.hasCandidate(stem, digit)) continue
        if (reportBlossoms(board, stem, digits, near, digit, tell)) return
      }
    }
  },
}

/** Does the set have the digit, and do all its places for it see the stem? */
function losesTo(board: Board, set: AlmostLockedSet, stem: number, digit: number): boolean {
  const bit = 1 << (digit - 1)
  if ((set.digits & bit) === 0) return false
  return set.cells.every((cell) => !(board.candidates[cell]! & bit) || board.geometry.arePeers(cell, stem))
}

function reportBlossoms(
  board: Board,
  stem: number,
  stemDigits: readonly number[],
  near: readonly (readonly AlmostLockedSet[])[],
  digit: number,
  report: (step: Step) => boolean,
): boolean {
  const bit = 1 << (digit - 1)
  const petals: Petal[][] = []
  for (const [i, sets] of near.entries()) {
    const tied = sets.filter((set) => set.ties[stemDigits[i]! - 1]! & bit)
    const fitting = tied
      .map((set) => ({ set, seen: seenBy(board, set, digit) }))
      .filter(({ seen }) => seen.length > 0)
    if (fitting.length === 0) return false
    petals.push(fitting)
  }
  const done = new Set<number>()
  for (const cell of factsOf(board).cellsWith(digit)) {
    if (done.has(cell)) continue
    // sets come smallest first: the first petal of each digit that reaches the cell needs the fewest premises
    const chosen = petals.map((list) => list.find(({ seen }) => seen.includes(cell)))
    if (chosen.some((petal) => petal === undefined)) continue
    const blossom = chosen as Petal[]
    const removed = blossom[0]!.seen.filter((other) => blossom.every(({ seen }) => seen.includes(other)))
    for (const other of removed) done.add(other)
    const removals = removed.map((other) => ({ cell: other, digit }))
    const cells = new Set([stem, ...blossom.flatMap(({ set }) => set.cells)])
    const all = [...cells].map((other) => cellPremise(board, other))
    const premises = trimPremises(board.geometry, all, { placements: [], removals })
    // where cells can be spared, a chain of fewer sets does it
    if (premises.length < all.length) continue
    const step: Step = {
      technique: 'death-blossom',
      level: 'chain',
      placements: [],
      removals,
      premises,
      pattern: {
        shape: 'sets',
        stem,
        sets: blossom.map(({ set }) => ({ cells: set.cells, digits: digitsOf(set.digits) })),
        joins: [],
      },
    }
    if (report(step)) return true
  }
  return false
}

function seenBy(board: Board, set: AlmostLockedSet, digit: number): number[] {
  const places = set.cells.filter((cell) => board.hasCandidate(cell, digit))
  return candidatesSeenByAll(board, digit, places)
}
