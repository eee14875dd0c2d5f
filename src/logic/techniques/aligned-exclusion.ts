import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf, firstDigit } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Task, Watch } from '../../limits.js'
import type { Facts } from '../facts/facts.js'
import { oneOfEach } from '../facts/one-of-each.js'
import { oncePerBoard } from '../facts/path-memory.js'
import { cellPremise } from '../proof/premise-holds.js'
import { isProvenBy, trimPremises } from '../proof/trim.js'
import { type Aftermath, aftermathOf, aftermathTask } from '../sets/aftermath.js'
import { once } from '../steps/identity.js'
import type { Excluded, Premise, Step } from '../steps/step.js'
import { slowTechnique, type Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

/**
 * Aligned pair exclusion: two cells that see each other cannot both be one digit, nor can they take two digits of an
 * almost locked set at once, where each sees every place of its digit there: the set would be left with a cell more
 * than digits. A digit of one cell that goes with no digit of the other is gone. Two-candidate cells are the smallest
 * such sets.
 */
export const alignedPairExclusion: Technique = slowTechnique({
  name: 'aligned-pair-exclusion',
  level: 'chain',
  *search(facts, report, _, watch) {
    const { board } = facts
    // most boards have no such pair of cells
    const aftermath = yield* aftermathTask(facts, watch)
    if (!(yield* areSomeLeftAlone(aftermath, watch))) return
    // the same cells may be reported with pair and set exchanged
    const reportOnce = once(report)
    for (const one of facts.openCells) {
      for (const other of openPeersAfter(board, one)) {
        if (watch.isDue()) yield
        const removals: Candidate[] = []
        addAlone(aftermath, one, other, removals)
        addAlone(aftermath, other, one, removals)
        if (removals.length === 0) continue
        if (exclusionSteps(facts, 'aligned-pair-exclusion', [one, other], removals).some(reportOnce)) return
      }
    }
  },
})

/** Does some candidate leave a cell that it sees none? */
function* areSomeLeftAlone(aftermath: Aftermath, watch: Watch): Task<boolean> {
  const { board, facts } = aftermath
  const { candidates, geometry } = board
  const layout = layoutOf(geometry)
  const { openCells } = facts
  for (let i = 0; i < openCells.length; i++) {
    if (watch.isDue()) yield
    const cell = openCells[i]!
    const peers = layout.peersOf[cell]!
    for (let rest = candidates[cell]!; rest !== 0; rest &= rest - 1) {
      const left = aftermath.leftByDigit(cell, firstDigit(rest))
      for (let j = 0; j < peers.length; j++)
        if (left[peers[j]!] === 0 && candidates[peers[j]!] !== 0) return true
    }
  }
  return false
}

/**
 * Aligned triple exclusion: the same for three cells that see each other. Besides the pairs among them, a cell with
 * three candidates that sees them all rules out those three digits in them.
 */
export const alignedTripleExclusion: Technique = slowTechnique({
  name: 'aligned-triple-exclusion',
  level: 'chain',
  *search(facts, report, _, watch) {
    const { board } = facts
    const { geometry } = board
    const layout = layoutOf(geometry)
    const reportOnce = once(report)
    yield* aftermathTask(facts, watch)
    for (const one of facts.openCells) {
      const others = openPeersAfter(board, one)
      for (const [i, second] of others.entries()) {
        for (const third of others.slice(i + 1)) {
          if (!layout.arePeers(second, third)) continue
          if (watch.isDue()) yield
          const cells = [one, second, third]
          const removals = cells.flatMap((cell) => {
            const [a, b] = cells.filter((other) => other !== cell) as [number, number]
            return candidatesOf(board, cell).filter((candidate) => goesWithNone(facts, candidate, a, b))
          })
          if (removals.length === 0) continue
          if (exclusionSteps(facts, 'aligned-triple-exclusion', cells, removals).some(reportOnce)) return
        }
      }
    }
  },
})

function openPeersAfter({ geometry, candidates }: Board, cell: number): number[] {
  return layoutOf(geometry).peersOf[cell]!.filter((peer) => peer > cell && candidates[peer])
}

/** Adds the candidates of a cell that leave its partner none. */
function addAlone(aftermath: Aftermath, cell: number, partner: number, removals: Candidate[]): void {
  for (let rest = aftermath.board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
    const digit = firstDigit(rest)
    if (aftermath.leftByDigit(cell, digit)[partner] === 0) removals.push({ cell, digit })
  }
}

function candidatesOf({ candidates }: Board, cell: number): Candidate[] {
  return digitsOf(candidates[cell]!).map((digit) => ({ cell, digit }))
}

/**
 * Does each way to fill the other two cells clash with the candidate or within itself, though each alone can be filled?
 */
function goesWithNone(facts: Facts, candidate: Candidate, a: number, b: number): boolean {
  const aftermath = aftermathOf(facts)
  const left = aftermath.leftBy(candidate)
  if (left[a] === 0 || left[b] === 0) return false
  const cells = [candidate.cell, a, b]
  for (let ones = left[a]!; ones !== 0; ones &= ones - 1) {
    const first = (1 << (candidate.digit - 1)) | (ones & -ones)
    const rest = left[b]! & aftermath.leftByDigit(a, firstDigit(ones))[b]!
    for (let others = rest; others !== 0; others &= others - 1)
      if (!areWatched(facts, first | (others & -others), cells)) return false
  }
  return true
}

/** Set of three digits -> cells with just these candidates. */
const threes = oncePerBoard(({ board: { candidates } }) => {
  const cells = new Map<DigitSet, number[]>()
  candidates.forEach((set, cell) => {
    if (digitCount(set) === 3) cells.set(set, [...(cells.get(set) ?? []), cell])
  })
  return cells
})

/** Does a cell with just these three candidates see all of these cells? */
function areWatched(facts: Facts, digits: DigitSet, cells: readonly number[]): boolean {
  const watchers = threes(facts).get(digits)
  if (!watchers) return false
  const { arePeers } = layoutOf(facts.board.geometry)
  return watchers.some((watcher) => cells.every((cell) => arePeers(watcher, cell)))
}

/** The cells whose three candidates these are and which see them all. */
function watchersOf(facts: Facts, three: readonly Candidate[]): number[] {
  const { board } = facts
  const digits = three.reduce((set, { digit }) => set | (1 << (digit - 1)), 0)
  const cells = threes(facts).get(digits) ?? []
  return cells.filter((cell) => three.every((one) => layoutOf(board.geometry).arePeers(cell, one.cell)))
}

/**
 * The steps of removals that an exclusion of these cells claims: one for all of them where they can be explained
 * together.
 */
function exclusionSteps(
  facts: Facts,
  technique: TechniqueName,
  cells: readonly number[],
  claimed: readonly Candidate[],
): Step[] {
  const { board } = facts
  const removals = claimed.filter((candidate) => needsItsPartners(facts, cells, candidate))
  if (removals.length === 0) return []
  const together = exclusionStep(facts, technique, cells, removals)
  const steps =
    together.pattern.shape === 'exclusion' || removals.length === 1
      ? [together]
      : removals.map((removal) => exclusionStep(facts, technique, cells, [removal]))
  // On boards with few digits the proof can be too large for a search: nobody could check such a step.
  return steps.filter((step) => isProvenBy(board.geometry, step.premises, step))
}

/**
 * Does the removal need each of the other cells? What can do without one of them is a smaller pattern. Of several
 * reasons with as few cells all are looked at: which comes first is a matter of order.
 */
function needsItsPartners(facts: Facts, cells: readonly number[], removal: Candidate): boolean {
  const { board } = facts
  const conclusion = { placements: [], removals: [removal] }
  const ways = reasonsAgainstAll(facts, cells, [removal])
  const needed = cellsOf(
    cells,
    [removal],
    ways.flatMap((reasons) => reasons.filter(({ by }) => by.length === reasons[0]!.by.length)),
  )
  return partnersOf(cells, removal).every((partner) => {
    const fewer = needed.filter((cell) => cell !== partner).map((cell) => cellPremise(board, cell))
    return !isProvenBy(board.geometry, fewer, conclusion)
  })
}

/**
 * The step of these removals, explained by reasons that rest on just the cells that the proof needs; by its premises
 * where there are no such reasons, since what is left of the cells then makes another pattern.
 */
function exclusionStep(
  facts: Facts,
  technique: TechniqueName,
  cells: readonly number[],
  removals: readonly Candidate[],
): Step {
  const { board } = facts
  const conclusion = { placements: [], removals }
  const ways = reasonsAgainstAll(facts, cells, removals)
  const all = cellsOf(
    cells,
    removals,
    ways.map((reasons) => reasons[0]!),
  ).map((cell) => cellPremise(board, cell))
  // which of them are left depends on which are tried first
  let premises = trimPremises(board.geometry, all.reverse(), conclusion)
  let excluded = reasonsOf(ways, premises)
  if (!excluded) {
    premises = trimPremises(board.geometry, all.reverse(), conclusion)
    excluded = reasonsOf(ways, premises)
  }
  const isExplained = excluded && cellsOf(cells, removals, excluded).length === premises.length
  return {
    technique,
    level: 'chain',
    placements: [],
    removals,
    premises,
    pattern: isExplained ? { shape: 'exclusion', cells, excluded: unique(excluded!) } : { shape: 'premises' },
  }
}

/** A reason against each way that rests on these premises alone, if all have one. */
function reasonsOf(
  ways: readonly (readonly Excluded[])[],
  premises: readonly Premise[],
): Excluded[] | undefined {
  const needed = new Set(premises.map((premise) => premise.kind === 'cell' && premise.cell))
  const found = ways.flatMap(
    (reasons) => reasons.find(({ by }) => by.every((cell) => needed.has(cell))) ?? [],
  )
  return found.length === ways.length ? found : undefined
}

function partnersOf(cells: readonly number[], { cell }: Candidate): number[] {
  return cells.filter((other) => other !== cell)
}

/** The cells that these reasons for the removals rest on. */
function cellsOf(
  cells: readonly number[],
  removals: readonly Candidate[],
  excluded: readonly Excluded[],
): number[] {
  return [
    ...new Set([
      ...removals.flatMap((removal) => partnersOf(cells, removal)),
      ...excluded.flatMap(({ by }) => by),
    ]),
  ]
}

/** For each way to fill the cells that the removals would need, the reasons against it, few cells first. */
function reasonsAgainstAll(
  facts: Facts,
  cells: readonly number[],
  removals: readonly Candidate[],
): (readonly Excluded[])[] {
  const { board } = facts
  return removals.flatMap((removal) =>
    [...oneOfEach(partnersOf(cells, removal).map((cell) => candidatesOf(board, cell)))].map((way) =>
      reasonsAgainst(facts, [removal, ...way]),
    ),
  )
}

/**
 * Why these cannot all be true: two that see each other, two that a set keeps apart, or three that a cell needs one of.
 */
function reasonsAgainst(facts: Facts, candidates: readonly Candidate[]): Excluded[] {
  const reasons: Excluded[] = []
  for (const [i, one] of candidates.entries())
    for (const other of candidates.slice(i + 1))
      for (const by of aftermathOf(facts).waysBetween(one, other))
        reasons.push({ candidates: [one, other].sort(byCell), by })
  if (candidates.length > 2)
    for (const watcher of watchersOf(facts, candidates))
      reasons.push({ candidates: [...candidates].sort(byCell), by: [watcher] })
  return reasons.sort((a, b) => a.by.length - b.by.length || a.candidates.length - b.candidates.length)
}

function unique(excluded: readonly Excluded[]): Excluded[] {
  return [
    ...new Map(
      excluded.map((one) => [one.candidates.map(({ cell, digit }) => `${cell}.${digit}`).join(), one]),
    ).values(),
  ]
}

function byCell(a: Candidate, b: Candidate): number {
  return a.cell - b.cell
}
