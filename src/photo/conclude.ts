import { argumentError, checkOptions, listOf, type OptionChecks, object, whole } from '../check-arguments.js'
import { checkUniqueness } from '../count/check-uniqueness.js'
import { checkGeometry, type Geometry } from '../grid/geometry.js'
import { findClashes, makePuzzle } from '../grid/puzzle.js'
import { LIMIT_CHECKS, type Limits, runNow, type Task, type Watch } from '../limits.js'
import { CERTAIN, checkReasons, marginAsked } from './certainty.js'
import { reading as checkReading } from './check-photo.js'
import { solutionCounter } from './decide/counter.js'
import { type Decision, decideTask } from './decide/decide.js'
import { type CellOptions, cellOptions, settledCell } from './decide/options.js'
import { cellCorners, type Lattice } from './lattice.js'
import { type CellWriting, readWriting, writingDoubts } from './print-or-hand/read-writing.js'
import type { Decider, DigitChance, Evidence, ReadCell, Reading, SettledWriting } from './reading.js'
import type { QuarterTurns } from './turn.js'

/** Options this many nats or less behind the chosen one make a cell doubtful. */
const DOUBT = 3
const ALTERNATIVES_AT_MOST = 3
const LEAST_ALTERNATIVE = 0.001

/**
 * From what was seen to what is read: decides all cells together and says how far to trust each.
 *
 * @param geometry of the lattice's order
 */
export function concludeReading(
  geometry: Geometry,
  lattice: Lattice,
  turns: QuarterTurns,
  evidence: Evidence,
  limits: Limits = {},
): Reading {
  return runNow(limits, (watch) => conclude(geometry, lattice, turns, evidence, watch))
}

/** The same as work that can be paused. */
export function* conclude(
  geometry: Geometry,
  lattice: Lattice,
  turns: QuarterTurns,
  evidence: Evidence,
  watch: Watch,
): Task<Reading> {
  const options = evidence.scores.map((scores, cell) => {
    const settled = evidence.settled[cell]
    return settled === undefined ? cellOptions(scores, geometry.order) : settledCell(settled)
  })
  const decision = yield* decideTask(geometry, options, solutionCounter(geometry), watch)
  const puzzle = makePuzzle(decision.digits, geometry)
  const handwritingDoubts = evidence.handwritten.flatMap((share, cell) =>
    decision.digits[cell] !== 0 && share > CERTAIN.handwritten && !(cell in evidence.settled) ? [cell] : [],
  )
  const outside = evidence.outside.filter((cell) => !(cell in evidence.settled))
  const misreads = expectedMisreads(evidence)
  const margin = marginAsked(evidence.handwritten, misreads, lattice)
  const verdict = checkUniqueness(puzzle)
  const solution = verdict.kind === 'unique' ? verdict.solution : undefined
  const written = evidence.scores.map((_, cell) =>
    readWriting(evidence, cell, decision.digits[cell] !== 0, geometry.order, solution?.[cell]),
  )
  const writing = writingDoubts(written)
  const reasons = checkReasons({
    decision,
    margin,
    lattice,
    turnLead: evidence.turnLead,
    misreads,
    handwritingDoubts: handwritingDoubts.length,
    cellsOutside: outside.length,
    geometrySource: evidence.geometrySource,
    writing,
  })
  const doubtful = doubtfulCells(geometry, options, decision, margin, [
    ...handwritingDoubts,
    ...outside,
    ...writing.entries,
    ...writing.marks,
  ])
  return {
    puzzle,
    status: reasons.length === 0 ? 'certain' : 'check',
    reasons,
    verdict,
    cells: options.map((_, cell) => ({
      ...readCell(cell, lattice, evidence, options, decision),
      ...written[cell]!,
    })),
    doubtful,
    lattice,
    turns,
    margin: decision.margin,
    evidence,
  }
}

export interface SettleOptions extends Limits {
  /** The grid's geometry, where the reading has another or is not sure of it (`box-shape`); of the same order. */
  readonly geometry?: Geometry
}

const SETTLE_CHECKS: OptionChecks<SettleOptions> = { ...LIMIT_CHECKS, geometry: checkGeometry }
const checkChanges = listOf(object, 'a list of { cell, digit, entry, marks }')

/** What a person says of a cell; what is left out stays as it was read. */
export interface CellChange {
  readonly cell: number
  /** The printed digit; 0: none. A given leaves no room for anything written. */
  readonly digit?: number
  /** The entered digit; 0: none. Where there is one, nothing is printed. */
  readonly entry?: number
  /** The pencil marks; an empty list: none. Where there are some, nothing is printed or entered. */
  readonly marks?: readonly number[]
}

/**
 * A person confirms or corrects cells, or says which geometry the grid has; everything else is decided again in that
 * light.
 *
 * @throws InputError `argument` for a cell or digit that the grid does not have, a change that says nothing or
 *   contradicts itself, or a geometry of another order
 * @throws StoppedError `time-limit`, or `aborted` when the signal has fired already
 *
 * @example
 * const settled = settleCells(reading, [{ cell: 12, digit: 8 }]) // a person says that it is an 8
 * settled.status
 */
export function settleCells(
  reading: Reading,
  changes: readonly CellChange[],
  options: SettleOptions = {},
): Reading {
  checkReading(reading, 'reading')
  checkChanges(changes, 'changes')
  checkOptions<SettleOptions>(options, SETTLE_CHECKS)
  const geometry = options.geometry ?? reading.puzzle.geometry
  const { order } = reading.puzzle.geometry
  if (geometry.order !== order) {
    throw argumentError('geometry', `a geometry of order ${order}, as the grid read has`, geometry)
  }
  const settled: Record<number, number> = { ...reading.evidence.settled }
  const settledWriting: Record<number, SettledWriting> = { ...reading.evidence.settledWriting }
  for (const change of changes) {
    const { cell, digit, entry, marks } = checkedChange(change, reading.puzzle.geometry)
    const isWritten = (entry ?? 0) !== 0 || (marks ?? []).length > 0
    if (digit !== undefined) settled[cell] = digit
    else if (isWritten) settled[cell] = 0
    if (entry !== undefined || marks !== undefined) {
      settledWriting[cell] = {
        ...(isWritten ? {} : settledWriting[cell]),
        ...(entry !== undefined && { entry }),
        ...(marks !== undefined && { marks: [...marks].sort((a, b) => a - b) }),
      }
    } else if (digit) delete settledWriting[cell]
  }
  // a person's word counts over what the lines show
  const geometrySource = options.geometry ? 'caller' : reading.evidence.geometrySource
  const evidence = {
    ...reading.evidence,
    settled,
    geometrySource,
    ...(Object.keys(settledWriting).length > 0 && { settledWriting }),
  } as const
  return concludeReading(geometry, reading.lattice, reading.turns, evidence, options)
}

function checkedChange(change: CellChange, { order, cellCount }: Geometry): CellChange {
  const { cell, digit, entry, marks } = change
  whole(0, cellCount - 1)(cell, 'cell')
  if (digit !== undefined) whole(0, order)(digit, 'digit')
  if (entry !== undefined) whole(0, order)(entry, 'entry')
  if (marks !== undefined) listOf(whole(1, order), `a list of digits from 1 to ${order}`)(marks, 'marks')
  const said = [digit, entry, marks?.length].filter((part) => part !== undefined)
  if (said.length === 0) throw argumentError('changes', 'digit, entry or marks in each change', change)
  if (said.filter((part) => part !== 0).length > 1)
    throw argumentError('changes', 'either a printed digit, an entry or marks in a cell', change)
  return change
}

/** The pixels' doubts about their own first choices, added up over the cells that nobody has settled. */
function expectedMisreads({ scores, settled }: Evidence): number {
  return scores.reduce((sum, cell, i) => (i in settled ? sum : sum + 1 - Math.max(...cell)), 0)
}

function readCell(
  cell: number,
  lattice: Lattice,
  evidence: Evidence,
  options: readonly CellOptions[],
  decision: Decision,
): Omit<ReadCell, keyof CellWriting> {
  const scores = evidence.scores[cell]!
  const chances: DigitChance[] = Array.from({ length: lattice.order + 1 }, (_, digit) => ({
    digit,
    probability: scores[digit] ?? 0,
  })).sort((a, b) => b.probability - a.probability)
  const digit = decision.digits[cell]!
  const raw = chances[0]!
  const settled = cell in evidence.settled
  const decidedBy: Decider = settled ? 'user' : digit === raw.digit ? 'pixels' : 'logic'
  const [topLeft, topRight, bottomLeft, bottomRight] = cellCorners(lattice, cell)
  return {
    digit,
    confidence: settled ? 1 : confidence(options[cell]!, digit, decision, cell),
    alternatives: chances
      .filter((chance) => chance.digit !== digit && chance.probability >= LEAST_ALTERNATIVE)
      .slice(0, ALTERNATIVES_AT_MOST),
    raw,
    decidedBy,
    handwritten: evidence.handwritten[cell]!,
    bounds: [topLeft, topRight, bottomRight, bottomLeft],
  }
}

/**
 * The chosen digit against each other option of the cell: any reading that has another digit here loses at least what
 * the pixels of this cell say and, where the reading is sound, at least the margin to the next sound one.
 */
function confidence(options: CellOptions, digit: number, decision: Decision, cell: number): number {
  const own = options.costs[options.digits.indexOf(digit)]!
  const rivalHere = decision.runnerUp !== undefined && decision.runnerUp[cell] !== digit
  let others = 0
  options.digits.forEach((other, rank) => {
    if (other === digit) return
    const pixels = options.costs[rank]! - own
    const lead =
      decision.kind === 'as-read' ? pixels : rivalHere ? decision.margin : Math.max(pixels, decision.margin)
    others += Math.exp(-lead)
  })
  return 1 / (1 + others)
}

function doubtfulCells(
  geometry: Geometry,
  options: readonly CellOptions[],
  decision: Decision,
  margin: number,
  otherwise: readonly number[],
): number[] {
  const lead = options.map(({ digits, costs }, cell) => {
    const chosen = decision.digits[cell]!
    let least = Number.POSITIVE_INFINITY
    digits.forEach((digit, rank) => {
      if (digit !== chosen) least = Math.min(least, costs[rank]! - costs[digits.indexOf(chosen)]!)
    })
    return least
  })
  const doubtful = new Set<number>(otherwise)
  lead.forEach((nats, cell) => {
    if (nats < DOUBT) doubtful.add(cell)
  })
  if (decision.margin < margin) {
    decision.runnerUp?.forEach((digit, cell) => {
      if (digit !== decision.digits[cell]) doubtful.add(cell)
    })
  }
  for (const clash of findClashes(geometry, decision.digits))
    for (const cell of clash.cells) doubtful.add(cell)
  return [...doubtful].sort((a, b) => lead[a]! - lead[b]!)
}
