import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import { factsOf } from '../facts.js'
import { once } from '../identity.js'
import { aftermathOf } from '../links/aftermath.js'
import { isProvenBy, trimPremises } from '../links/trim.js'
import { oneOfEach } from '../one-of-each.js'
import { cellPremise } from '../premise-holds.js'
import type { Excluded, Step } from '../step.js'
import type { Technique } from '../technique.js'

/**
 * Death blossom: whichever digit the stem takes, an almost locked set that sees it loses that digit and so keeps all its
 * others; when all these petals have another digit in common, cells that see all places of that digit in every petal
 * lose it.
 */
export const deathBlossom: Technique = {
  name: 'death-blossom',
  level: 'chain',
  find(board, report) {
    const tell = once(report)
    for (const stem of factsOf(board).openCells) {
      // two petals on a stem of two digits are an ALS-XY-wing
      if (digitCount(board.candidates[stem]!) < 3) continue
      for (let digit = 1; digit <= board.geometry.order; digit++) {
        // with the digit in the stem itself, the two cells are an excluded pair
        if (board.hasCandidate(stem, digit)) continue
        const done = new Set<number>()
        for (const cell of factsOf(board).cellsWith(digit)) {
          const target = { cell, digit }
          if (done.has(cell) || aftermathOf(board).leftBy(target)[stem] !== 0) continue
          const step = leastBlossom(board, stem, target)
          if (!step) continue
          for (const removal of step.removals) done.add(removal.cell)
          if (tell(step)) return
        }
      }
    }
  },
}

/** Ways to choose petals that are tried for one target: a stem's digits seldom have more than two or three petals each. */
const MOST_CHOICES = 500

/**
 * A blossom against the target of which all cells are needed, small petals first. Petals that share cells may prove more than
 * they seem to, so that some cell can be spared: that is another pattern, and other petals are tried.
 */
function leastBlossom(board: Board, stem: number, target: Candidate): Step | undefined {
  const taken = digitsOf(board.candidates[stem]!).map((digit) => ({ cell: stem, digit }))
  const petals = taken.map((candidate) => aftermathOf(board).setsBetween(target, candidate))
  let choices = 0
  for (const chosen of oneOfEach(petals)) {
    if (choices++ === MOST_CHOICES) return undefined
    const excluded = taken.map((candidate, i) => ({ candidates: [target, candidate], by: chosen[i]! }))
    const step = blossomStep(board, 'death-blossom', [stem], target, excluded)
    if (needsAllOf(step)) return step
  }
  return undefined
}

/** Most cells in a stem. */
const LARGEST_STEM = 4

/**
 * Death blossom whose stem is a set of cells of one house, not almost locked but looser: petals, and the target itself, would
 * take so many of its digits that fewer are left than it has cells. A smallest stem is told for each target, rather
 * one of which all cells are needed.
 */
export const setStemBlossom: Technique = {
  name: 'death-blossom-with-set-stem',
  level: 'chain',
  find(board, report) {
    const tell = once(report)
    const aftermath = aftermathOf(board)
    for (let digit = 1; digit <= board.geometry.order; digit++) {
      const done = new Set<number>()
      for (const cell of factsOf(board).cellsWith(digit)) {
        if (done.has(cell)) continue
        const target = { cell, digit }
        let step: Step | undefined
        for (const stem of stemsAgainst(board, target, aftermath.leftBy(target))) {
          const excluded = takenFrom(board, stem, target)
          const other = blossomStep(board, 'death-blossom-with-set-stem', stem, target, excluded)
          const better = needsAllOf(other)
          if (better || !step) step = other
          if (better) break
        }
        if (!step) continue
        for (const removal of step.removals) done.add(removal.cell)
        if (tell(step)) return
      }
    }
  },
}

/** Loose sets of cells of one house that would have fewer digits left than cells, small ones first. */
function* stemsAgainst(
  board: Board,
  target: Candidate,
  left: readonly number[],
): Generator<readonly number[]> {
  const { candidates, geometry } = board
  const open = geometry.houses.map(({ cells }) =>
    cells.filter((cell) => candidates[cell] && cell !== target.cell),
  )
  for (let size = 2; size <= LARGEST_STEM; size++) {
    for (const cells of open) {
      for (const stem of starved(cells, left, size, [], 0, 0))
        if (digitCount(digitsIn(board, stem)) > size + 1) yield stem
    }
  }
}

function isStarved(stem: readonly number[], left: readonly DigitSet[]): boolean {
  return digitCount(stem.reduce((set, cell) => set | left[cell]!, 0)) < stem.length
}

function digitsIn({ candidates }: Board, cells: readonly number[]): DigitSet {
  return cells.reduce((set, cell) => set | candidates[cell]!, 0)
}

function* starved(
  cells: readonly number[],
  left: readonly number[],
  size: number,
  picked: readonly number[],
  digits: number,
  from: number,
): Generator<readonly number[]> {
  if (picked.length === size) {
    yield picked
    return
  }
  for (let i = from; i <= cells.length - size + picked.length; i++) {
    const more = digits | left[cells[i]!]!
    if (digitCount(more) < size) yield* starved(cells, left, size, [...picked, cells[i]!], more, i + 1)
  }
}

/** The blossom of a stem that the target would leave with too few digits. */
function blossomStep(
  board: Board,
  technique: string,
  stem: readonly number[],
  target: Candidate,
  excluded: readonly Excluded[],
): Step {
  const { geometry } = board
  const petals = [...new Map(excluded.map(({ by }) => [by.join(), by])).values()].filter(
    ({ length }) => length > 0,
  )
  const cells = new Set([...stem, ...petals.flat()])
  const premises = trimPremises(
    geometry,
    [...cells].map((cell) => cellPremise(board, cell)),
    { placements: [], removals: [target] },
  )
  // others that the same blossom is against
  const removals = factsOf(board)
    .cellsWith(target.digit)
    .map((cell) => ({ cell, digit: target.digit }))
    .filter(
      (candidate) =>
        isStarved(stem, aftermathOf(board).leftBy(candidate)) &&
        isProvenBy(geometry, premises, { placements: [], removals: [candidate] }),
    )
  const sets = petals.map((members) => ({ cells: members, digits: digitsOf(digitsIn(board, members)) }))
  return {
    technique,
    level: 'chain',
    placements: [],
    removals,
    premises,
    pattern:
      stem.length === 1
        ? { shape: 'sets', stem: stem[0]!, sets, joins: [] }
        : { shape: 'exclusion', cells: stem, excluded },
  }
}

/** Are there two petals or more, and is none of their cells, nor of the stem's, spared by the proof? */
function needsAllOf({ pattern, premises }: Step): boolean {
  const groups =
    pattern.shape === 'sets'
      ? [[pattern.stem!], ...pattern.sets.map(({ cells }) => cells)]
      : pattern.shape === 'exclusion'
        ? [pattern.cells, ...pattern.excluded.map(({ by }) => by)]
        : []
  const petals = new Set(groups.slice(1).map((cells) => cells.join()))
  petals.delete('')
  return petals.size > 1 && new Set(groups.flat()).size === premises.length
}

/** How the target takes from the stem every digit but those that are left to it. */
function takenFrom(board: Board, stem: readonly number[], target: Candidate): Excluded[] {
  const aftermath = aftermathOf(board)
  const left = aftermath.leftBy(target)
  const kept = stem.reduce((set, cell) => set | left[cell]!, 0)
  return stem.flatMap((cell) =>
    digitsOf(board.candidates[cell]! & ~kept).map((digit) => ({
      candidates: [target, { cell, digit }],
      by: aftermath.setBetween(target, { cell, digit })!,
    })),
  )
}
