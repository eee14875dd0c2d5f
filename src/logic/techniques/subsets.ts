import { hasCandidate } from '../../grid/board/ask.js'
import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Part } from '../facts/context.js'
import { candidatesSeenByAll, cellsAt, type Facts } from '../facts/facts.js'
import { zeros } from '../facts/number-lists.js'
import { type MissCache, missCache } from '../facts/path-memory.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'
import { mayBePicked, visitLockedSelections } from './locked-selection.js'

/** Naked or hidden subsets of a size. */
interface Family {
  readonly name: TechniqueName
  readonly size: number
  /** Writes what is picked from in a house: the candidates of its cells, or the places of its digits. */
  readonly addMasks: (facts: Facts, house: number, masks: number[]) => void
  readonly stepOf: (
    facts: Facts,
    name: TechniqueName,
    house: number,
    picked: readonly number[],
    union: DigitSet,
  ) => Step | typeof REPORTED_ELSEWHERE | undefined
  readonly misses: Part<MissCache>
}

function subset(
  name: TechniqueName,
  size: number,
  { addMasks, stepOf }: Pick<Family, 'addMasks' | 'stepOf'>,
): Technique {
  const family: Family = { name, size, addMasks, stepOf, misses: missCache() }
  return { name, level: 'mark', find: (facts, report) => findSubsets(family, facts, report) }
}

function findSubsets(family: Family, facts: Facts, report: (step: Step) => boolean): void {
  const { board, open, stamps } = facts
  const { size } = family
  const misses = facts.context.of(family.misses)
  const { order } = board.geometry
  const { houses } = layoutOf(board.geometry)
  const masks = zeros(order)
  for (let house = 0; house < houses.length; house++) {
    const stamp = stamps.ofHouse[house]!
    // What fills a house leaves nothing there to remove.
    if (misses.has(house, stamp) || digitCount(open[house]!) <= size) continue
    family.addMasks(facts, house, masks)
    const outcome = mayBePicked(masks, size) ? reportSubsets(family, facts, house, masks, report) : NOTHING
    if (outcome === STOPPED) return
    if (outcome === NOTHING) misses.note(house, stamp)
  }
}

/** What came of a look at a house. */
type Outcome = typeof NOTHING | typeof SOMETHING | typeof STOPPED
const NOTHING = 0
const SOMETHING = 1
const STOPPED = 2

// On its own, as is what needs a closure elsewhere: a loop that has one makes room for it every time round.
function reportSubsets(
  { name, size, stepOf }: Family,
  facts: Facts,
  house: number,
  masks: readonly number[],
  report: (step: Step) => boolean,
): Outcome {
  let found = false
  const stopped = visitLockedSelections(masks, size, (picked, union) => {
    const step = stepOf(facts, name, house, picked, union)
    if (!step) return false
    found = true
    return step !== REPORTED_ELSEWHERE && report(step)
  })
  return stopped ? STOPPED : found ? SOMETHING : NOTHING
}

/**
 * The same cells are reported in another house. That is no miss: the other house may be filled later but for these
 * cells.
 */
const REPORTED_ELSEWHERE = 'reported-elsewhere'

/**
 * n cells of a house with n digits between them: the digits are used up there, so any cell that sees every place a
 * digit has in the set loses it.
 */
function nakedStep(
  facts: Facts,
  name: TechniqueName,
  house: number,
  picked: readonly number[],
  union: DigitSet,
): Step | typeof REPORTED_ELSEWHERE | undefined {
  const { board } = facts
  const { geometry, candidates } = board
  const cells = picked.map((position) => layoutOf(geometry).houses[house]!.cells[position]!)
  if (isTogetherBefore(facts, house, cells)) return REPORTED_ELSEWHERE
  const digits = digitsOf(union)
  const removals = digits.flatMap((digit) =>
    candidatesSeenByAll(
      board,
      digit,
      cells.filter((cell) => hasCandidate(board, cell, digit)),
    ).map((cell) => ({ cell, digit })),
  )
  if (removals.length === 0) return undefined
  return {
    technique: name,
    level: 'mark',
    placements: [],
    removals,
    premises: cells.map((cell) => ({ kind: 'cell', cell, digits: digitsOf(candidates[cell]!) })),
    pattern: { shape: 'subset', hidden: false, house, cells, digits },
  }
}

/**
 * The same cells in a row and a box are one instance: the first of the houses looked at reports it. Houses that the
 * cells fill are not looked at.
 */
function isTogetherBefore(facts: Facts, house: number, cells: readonly number[]): boolean {
  const { board, open } = facts
  const { geometry } = board
  const layout = layoutOf(geometry)
  return layout.housesOf[cells[0]!]!.some(
    (other) =>
      other < house &&
      digitCount(open[other]!) > cells.length &&
      cells.every((cell) => layout.positionIn(other, cell) >= 0),
  )
}

/** n digits of a house with n places between them: those cells hold nothing else. */
function hiddenStep(
  facts: Facts,
  name: TechniqueName,
  house: number,
  picked: readonly number[],
  union: DigitSet,
): Step | undefined {
  const { board, places } = facts
  const { geometry } = board
  const digits = picked.map((index) => index + 1)
  const cells = cellsAt(geometry, house, union)
  const removals = othersIn(board, cells, digits)
  if (removals.length === 0) return undefined
  return {
    technique: name,
    level: 'mark',
    placements: [],
    removals,
    premises: picked.map((index) => ({
      kind: 'house',
      house,
      digit: index + 1,
      cells: cellsAt(geometry, house, places[house * geometry.order + index]!),
    })),
    pattern: { shape: 'subset', hidden: true, house, cells, digits },
  }
}

/** Candidates of these cells other than these digits. */
function othersIn(board: Board, cells: readonly number[], digits: readonly number[]): Candidate[] {
  return cells.flatMap((cell) =>
    digitsOf(board.candidates[cell]!)
      .filter((digit) => !digits.includes(digit))
      .map((digit) => ({ cell, digit })),
  )
}

const naked: Pick<Family, 'addMasks' | 'stepOf'> = {
  addMasks({ board: { geometry, candidates } }, house, masks) {
    const { cells } = layoutOf(geometry).houses[house]!
    for (let i = 0; i < masks.length; i++) masks[i] = candidates[cells[i]!]!
  },
  stepOf: nakedStep,
}

const hidden: Pick<Family, 'addMasks' | 'stepOf'> = {
  addMasks(facts, house, masks) {
    const { places } = facts
    for (let i = 0; i < masks.length; i++) masks[i] = places[house * masks.length + i]!
  },
  stepOf: hiddenStep,
}

export const nakedPair = subset('naked-pair', 2, naked)
export const nakedTriple = subset('naked-triple', 3, naked)
export const nakedQuad = subset('naked-quad', 4, naked)
export const hiddenPair = subset('hidden-pair', 2, hidden)
export const hiddenTriple = subset('hidden-triple', 3, hidden)
export const hiddenQuad = subset('hidden-quad', 4, hidden)
