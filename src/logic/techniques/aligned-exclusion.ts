import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import { factsOf } from '../facts.js'
import { once } from '../identity.js'
import { type Aftermath, aftermathOf } from '../links/aftermath.js'
import { isProvenBy, trimPremises } from '../links/trim.js'
import { oneOfEach } from '../one-of-each.js'
import { oncePerBoard } from '../path-memory.js'
import { cellPremise } from '../premise-holds.js'
import type { Excluded, Premise, Step } from '../step.js'
import type { Technique } from '../technique.js'

/**
 * Aligned pair exclusion: two cells that see each other cannot both be one digit, nor can they take two digits of an
 * almost locked set at once, where each sees every place of its digit there: the set would be left with a cell more than
 * digits. A digit of one cell that goes with no digit of the other is gone. Two-candidate cells are the smallest such sets.
 */
export const alignedPairExclusion: Technique = {
  name: 'aligned-pair-exclusion',
  level: 'chain',
  find(board, report) {
    const aftermath = aftermathOf(board)
    // the same cells may be told with pair and set exchanged
    const tell = once(report)
    for (const one of factsOf(board).openCells) {
      for (const other of openPeersAfter(board, one)) {
        const removals: Candidate[] = []
        addAlone(aftermath, one, other, removals)
        addAlone(aftermath, other, one, removals)
        if (removals.length === 0) continue
        const step = exclusionStep(board, 'aligned-pair-exclusion', [one, other], removals)
        if (step && tell(step)) return
      }
    }
  },
}

/**
 * Aligned triple exclusion: the same for three cells that see each other. Besides the pairs among them, a cell with three
 * candidates that sees them all rules out those three digits in them.
 */
export const alignedTripleExclusion: Technique = {
  name: 'aligned-triple-exclusion',
  level: 'chain',
  find(board, report) {
    const { geometry } = board
    const tell = once(report)
    for (const one of factsOf(board).openCells) {
      const others = openPeersAfter(board, one)
      for (const [i, second] of others.entries()) {
        for (const third of others.slice(i + 1)) {
          if (!geometry.arePeers(second, third)) continue
          const cells = [one, second, third]
          const removals = cells.flatMap((cell) => {
            const [a, b] = cells.filter((other) => other !== cell) as [number, number]
            return candidatesOf(board, cell).filter((candidate) => goesWithNone(board, candidate, a, b))
          })
          if (removals.length === 0) continue
          const step = exclusionStep(board, 'aligned-triple-exclusion', cells, removals)
          if (step && tell(step)) return
        }
      }
    }
  },
}

function openPeersAfter({ geometry, candidates }: Board, cell: number): number[] {
  return geometry.peersOf[cell]!.filter((peer) => peer > cell && candidates[peer])
}

/** Adds the candidates of a cell that leave its partner none. */
function addAlone(aftermath: Aftermath, cell: number, partner: number, removals: Candidate[]): void {
  for (let rest = aftermath.board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
    const candidate = { cell, digit: 32 - Math.clz32(rest & -rest) }
    if (aftermath.leftBy(candidate)[partner] === 0) removals.push(candidate)
  }
}

function candidatesOf({ candidates }: Board, cell: number): Candidate[] {
  return digitsOf(candidates[cell]!).map((digit) => ({ cell, digit }))
}

/** Does each way to fill the other two cells clash with the candidate or within itself, though each alone can be filled? */
function goesWithNone(board: Board, candidate: Candidate, a: number, b: number): boolean {
  const aftermath = aftermathOf(board)
  const left = aftermath.leftBy(candidate)
  if (left[a] === 0 || left[b] === 0) return false
  for (const digit of digitsOf(left[a]!)) {
    const rest = left[b]! & aftermath.leftBy({ cell: a, digit })[b]!
    for (const last of digitsOf(rest))
      if (watcherOf(board, [candidate, { cell: a, digit }, { cell: b, digit: last }]) < 0) return false
  }
  return true
}

/** Set of three digits -> cells with just these candidates. */
const threes = oncePerBoard(({ candidates }) => {
  const cells = new Map<DigitSet, number[]>()
  candidates.forEach((set, cell) => {
    if (digitCount(set) === 3) cells.set(set, [...(cells.get(set) ?? []), cell])
  })
  return cells
})

/** A cell whose three candidates these are and which sees them all; -1 when there is none. */
function watcherOf(board: Board, three: readonly Candidate[]): number {
  const digits = three.reduce((set, { digit }) => set | (1 << (digit - 1)), 0)
  const cells = threes(board).get(digits) ?? []
  return cells.find((cell) => three.every((one) => board.geometry.arePeers(cell, one.cell))) ?? -1
}

function exclusionStep(
  board: Board,
  technique: string,
  cells: readonly number[],
  claimed: readonly Candidate[],
): Step | undefined {
  const { geometry } = board
  const partnersOf = (cell: number) => cells.filter((other) => other !== cell)
  const premisesFor = (removals: readonly Candidate[], excluded: readonly Excluded[]): Premise[] => {
    const needed = new Set(removals.flatMap(({ cell }) => partnersOf(cell)))
    for (const { by } of excluded) for (const cell of by) needed.add(cell)
    return [...needed].map((cell) => cellPremise(board, cell))
  }
  // what can do without one of the cells is a smaller pattern
  const removals = claimed.filter((candidate) => {
    const premises = premisesFor([candidate], exclusions(board, cells, [candidate]))
    return partnersOf(candidate.cell).every((partner) => {
      const fewer = premises.filter((premise) => premise.kind !== 'cell' || premise.cell !== partner)
      return !isProvenBy(geometry, fewer, { placements: [], removals: [candidate] })
    })
  })
  if (removals.length === 0) return undefined
  const excluded = exclusions(board, cells, removals)
  return {
    technique,
    level: 'chain',
    placements: [],
    removals,
    premises: trimPremises(geometry, premisesFor(removals, excluded), { placements: [], removals }),
    pattern: { shape: 'exclusion', cells, excluded },
  }
}

/** The ways to fill the cells that the removals would need, each ruled out by a part of it. */
function exclusions(board: Board, cells: readonly number[], removals: readonly Candidate[]): Excluded[] {
  const excluded = new Map<string, Excluded>()
  for (const removal of removals) {
    const others = cells.filter((cell) => cell !== removal.cell).map((cell) => candidatesOf(board, cell))
    for (const way of oneOfEach(others)) {
      const reason = reasonAgainst(board, [removal, ...way])
      if (reason) excluded.set(reason.candidates.map(({ cell, digit }) => `${cell}.${digit}`).join(), reason)
    }
  }
  return [...excluded.values()]
}

/** Why these cannot all be true: two that see each other, two that a set keeps apart, or three that a cell needs one of. */
function reasonAgainst(board: Board, candidates: readonly Candidate[]): Excluded | undefined {
  let best: Excluded | undefined
  for (const [i, one] of candidates.entries()) {
    for (const other of candidates.slice(i + 1)) {
      const by = aftermathOf(board).setBetween(one, other)
      if (by && !(best && best.by.length <= by.length)) best = { candidates: [one, other].sort(byCell), by }
    }
  }
  if (best || candidates.length < 3) return best
  const watcher = watcherOf(board, candidates)
  return watcher < 0 ? undefined : { candidates: [...candidates].sort(byCell), by: [watcher] }
}

function byCell(a: Candidate, b: Candidate): number {
  return a.cell - b.cell
}
