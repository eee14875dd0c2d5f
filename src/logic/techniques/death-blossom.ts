import { hasCandidate } from '../../grid/board/ask.js'
import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Task, Watch } from '../../limits.js'
import type { Facts } from '../facts/facts.js'
import { oneOfEach } from '../facts/one-of-each.js'
import { removalNeedsEach } from '../proof/minimal.js'
import { cellPremise } from '../proof/premise-holds.js'
import { ruledOutBy, trimPremises } from '../proof/trim.js'
import { aftermathOf, aftermathTask } from '../sets/aftermath.js'
import { once } from '../steps/identity.js'
import type { Excluded, Premise, Step } from '../steps/step.js'
import { slowTechnique, type Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

/**
 * Death blossom: whichever digit the stem takes, an almost locked set that sees it loses that digit and so keeps all
 * its others; when all these petals have another digit in common, cells that see all places of that digit in every
 * petal lose it.
 */
export const deathBlossom: Technique = slowTechnique({
  name: 'death-blossom',
  level: 'chain',
  *search(facts, report, _, watch) {
    const { board } = facts
    const reportOnce = once(report)
    yield* aftermathTask(facts, watch)
    for (const stem of facts.openCells) {
      // two petals on a stem of two digits are an ALS-XY-wing
      if (digitCount(board.candidates[stem]!) < 3) continue
      for (let digit = 1; digit <= board.geometry.order; digit++) {
        // with the digit in the stem itself, the two cells are an excluded pair
        if (hasCandidate(board, stem, digit)) continue
        const done = new Set<number>()
        for (const cell of facts.cellsWith(digit)) {
          const target = { cell, digit }
          if (done.has(cell) || aftermathOf(facts).leftBy(target)[stem] !== 0) continue
          if (watch.isDue()) yield
          const step = yield* leastBlossom(facts, 'death-blossom', [stem], target, MOST_CHOICES, watch)
          if (!step) continue
          for (const removal of step.removals) done.add(removal.cell)
          if (reportOnce(step)) return
        }
      }
    }
  },
})

/**
 * Ways to choose petals that are tried for one target: for one cell, whose digits seldom have more than two or three
 * petals each, and for each of the many sets of cells.
 */
const MOST_CHOICES = 500
const MOST_CHOICES_OF_SET = 8

/**
 * A blossom against the target of which all cells are needed, small petals first. Petals that share cells may prove
 * more than they seem to, so that some cell can be spared: that is another pattern, and other petals are tried.
 */
function* leastBlossom(
  facts: Facts,
  technique: TechniqueName,
  stem: readonly number[],
  target: Candidate,
  most: number,
  watch: Watch,
): Task<Step | undefined> {
  const { board } = facts
  const taken = takenFrom(board, stem, aftermathOf(facts).leftBy(target))
  const petals = taken.map((candidate) => aftermathOf(facts).waysBetween(target, candidate))
  let choices = 0
  for (const chosen of oneOfEach(petals)) {
    if (choices++ === most) return undefined
    if (watch.isDue()) yield
    if (new Set(chosen.filter(({ length }) => length > 0).map((cells) => cells.join())).size < 2) continue
    const premises = [...new Set([...stem, ...chosen.flat()])].map((cell) => cellPremise(board, cell))
    if (!removalNeedsEach(board.geometry, premises, target)) continue
    const excluded = taken.map((candidate, i) => ({ candidates: [target, candidate], by: chosen[i]! }))
    return blossomStep(facts, technique, stem, target, premises, excluded)
  }
  return undefined
}

const SET_STEM = 'death-blossom-with-set-stem'

/** Most cells in a stem. */
const LARGEST_STEM = 4

/**
 * Death blossom whose stem is a set of cells of one house, not almost locked but looser: petals, and the target itself,
 * would take so many of its digits that fewer are left than it has cells. For each target a smallest stem is reported
 * of which, as of its petals, no cell can be spared. Where there is none, what the proof needs is another pattern, and
 * explained by its premises.
 */
export const setStemBlossom: Technique = slowTechnique({
  name: 'death-blossom-with-set-stem',
  level: 'chain',
  *search(facts, report, _, watch) {
    const { board } = facts
    const reportOnce = once(report)
    const aftermath = yield* aftermathTask(facts, watch)
    for (let digit = 1; digit <= board.geometry.order; digit++) {
      const done = new Set<number>()
      for (const cell of facts.cellsWith(digit)) {
        if (done.has(cell)) continue
        const target = { cell, digit }
        if (watch.isDue()) yield
        const stems = stemsAgainst(board, target, aftermath.leftBy(target))
        if (stems.length === 0) continue
        let step: Step | undefined
        for (let i = 0; i < stems.length && !step; i++)
          step = yield* leastBlossom(facts, SET_STEM, stems[i]!, target, MOST_CHOICES_OF_SET, watch)
        step ??= byPremises(facts, stems[0]!, target)
        for (const removal of step.removals) done.add(removal.cell)
        if (reportOnce(step)) return
      }
    }
  },
})

/** What is left of a blossom of this stem when cells can be spared. */
function byPremises(facts: Facts, stem: readonly number[], target: Candidate): Step {
  const { board } = facts
  const taken = takenFrom(board, stem, aftermathOf(facts).leftBy(target))
  const petals = taken.flatMap((candidate) => aftermathOf(facts).waysBetween(target, candidate)[0]!)
  const premises = [...new Set([...stem, ...petals])].map((cell) => cellPremise(board, cell))
  return {
    ...blossomStep(
      facts,
      'death-blossom-with-set-stem',
      stem,
      target,
      trimPremises(board.geometry, premises, { placements: [], removals: [target] }),
      [],
    ),
    pattern: { shape: 'premises' },
  }
}

/** Loose sets of cells of one house that would have fewer digits left than cells, small ones first. */
function stemsAgainst(board: Board, { cell }: Candidate, left: readonly number[]): (readonly number[])[] {
  const { houses } = layoutOf(board.geometry)
  const search: StemSearch = { board, target: cell, left, picked: [], stems: [] }
  for (let size = 2; size <= LARGEST_STEM; size++)
    for (let i = 0; i < houses.length; i++) addStarved(search, houses[i]!.cells, size, 0, 0, 0)
  return search.stems
}

interface StemSearch {
  readonly board: Board
  /** The target's cell, which is in no stem. */
  readonly target: number
  readonly left: readonly DigitSet[]
  readonly picked: number[]
  readonly stems: (readonly number[])[]
}

function isStarved(stem: readonly number[], left: readonly DigitSet[]): boolean {
  return digitCount(stem.reduce((set, cell) => set | left[cell]!, 0)) < stem.length
}

function digitsIn({ candidates }: Board, cells: readonly number[]): DigitSet {
  return cells.reduce((set, cell) => set | candidates[cell]!, 0)
}

/** Adds the loose sets of so many cells that begin with those picked and have fewer digits left than cells. */
function addStarved(
  search: StemSearch,
  cells: readonly number[],
  size: number,
  count: number,
  digits: DigitSet,
  from: number,
): void {
  const { board, target, left, picked, stems } = search
  if (count === size) {
    const stem = picked.slice(0, size)
    if (digitCount(digitsIn(board, stem)) > size + 1) stems.push(stem)
    return
  }
  for (let i = from; i <= cells.length - size + count; i++) {
    const cell = cells[i]!
    const more = digits | left[cell]!
    if (board.candidates[cell] === 0 || cell === target || digitCount(more) >= size) continue
    picked[count] = cell
    addStarved(search, cells, size, count + 1, more, i + 1)
  }
}

/** The blossom of a stem that the target would leave with too few digits. */
function blossomStep(
  facts: Facts,
  technique: TechniqueName,
  stem: readonly number[],
  { digit }: Candidate,
  premises: readonly Premise[],
  excluded: readonly Excluded[],
): Step {
  const { board } = facts
  // others that the same blossom is against; what is in the stem itself has blossoms of other stems, or none
  const aftermath = aftermathOf(facts)
  const against = facts
    .cellsWith(digit)
    .filter((cell) => !stem.includes(cell))
    .map((cell) => ({ cell, digit }))
    .filter((candidate) => isStarved(stem, aftermath.leftBy(candidate)))
  const removals = ruledOutBy(board.geometry, premises, against)
  const petals = [...new Map(excluded.map(({ by }) => [by.join(), by])).values()]
  return {
    technique,
    level: 'chain',
    placements: [],
    removals,
    premises,
    pattern:
      stem.length === 1
        ? {
            shape: 'sets',
            stem: stem[0]!,
            sets: petals.map((cells) => ({ cells, digits: digitsOf(digitsIn(board, cells)) })),
            joins: [],
          }
        : { shape: 'exclusion', cells: stem, excluded },
  }
}

/** The candidates of the stem that the target takes away: all of every digit but those that are left to it. */
function takenFrom({ candidates }: Board, stem: readonly number[], left: readonly DigitSet[]): Candidate[] {
  const kept = stem.reduce((set, cell) => set | left[cell]!, 0)
  return stem.flatMap((cell) => digitsOf(candidates[cell]! & ~kept).map((digit) => ({ cell, digit })))
}
