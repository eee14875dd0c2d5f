import type { Verdict } from '../count/check-uniqueness.js'
import type { Puzzle } from '../grid/puzzle.js'
import type { Point } from './image.js'
import type { Lattice } from './lattice.js'
import type { GeometrySource } from './shape/grid-shape.js'
import type { QuarterTurns } from './turn.js'
import type { UnreadGrid } from './unread.js'

/** Who settled a cell: what the pixels showed first, the puzzle's own logic against them, or a person. */
export const DECIDERS = ['pixels', 'logic', 'user'] as const
/** Who had the last word on a cell: pixels, logic, or a person. */
export type Decider = (typeof DECIDERS)[number]

/** A digit (0: none printed) and how likely the pixels alone make it. */
export interface DigitChance {
  readonly digit: number
  readonly probability: number
}

/** The digit that somebody has entered in a cell. */
export interface ReadEntry {
  /** 0 for none; never taken from the puzzle's solution, which has a part in `confidence` alone. */
  readonly digit: number
  /** 0..1 */
  readonly confidence: number
  /** What else the pixels allow, most likely first. */
  readonly alternatives: readonly DigitChance[]
  readonly decidedBy: Decider
}

/** The pencil marks in a cell. */
export interface ReadMarks {
  /** Ascending. */
  readonly digits: readonly number[]
  /** 0..1: how sure it is that these stand there and no others. */
  readonly confidence: number
  readonly decidedBy: Decider
}

/** What was read in a cell. */
export interface ReadCell {
  /** The given read here; 0 for none. */
  readonly digit: number
  /** 0..1: how sure the whole reading is of this digit, pixels and logic together. */
  readonly confidence: number
  /** What else the pixels allow, most likely first. */
  readonly alternatives: readonly DigitChance[]
  /** The pixels' own first choice. */
  readonly raw: DigitChance
  readonly decidedBy: Decider
  /** 0..1: how likely the ink in this cell is handwriting or pencil marks rather than print. */
  readonly handwritten: number
  readonly entry: ReadEntry
  readonly marks: ReadMarks
  /** The cell's corners on the picture: top left, top right, bottom right, bottom left as the page is read. */
  readonly bounds: readonly [Point, Point, Point, Point]
}

/**
 * Why a reading asks to be looked at. `box-shape`: boxes of several shapes fit a grid of this order, and its lines do
 * not say which it has (or say another than the geometry handed in); settle it with `settleCells(reading, [], {
 * geometry })`.
 */
export const CHECK_REASONS = [
  'close-rival',
  'not-sound',
  'hard-to-read',
  'grid-cut',
  'grid-faint',
  'turn-unclear',
  'handwriting',
  'box-shape',
  'entry-unclear',
  'marks-unclear',
] as const
/** Why a person should look at a reading. */
export type CheckReason = (typeof CHECK_REASONS)[number]

/** A grid as it was read off a picture. */
export interface Reading {
  /**
   * Its geometry is the one handed in, or the one that the grid lines show; `check` with `box-shape` where neither says
   * it.
   */
  readonly puzzle: Puzzle
  /** `certain`, or `check`: look at the cells of `doubtful` first. */
  readonly status: 'certain' | 'check'
  /** Why the status is `check`; empty when it is `certain`. */
  readonly reasons: readonly CheckReason[]
  readonly verdict: Verdict
  readonly cells: readonly ReadCell[]
  /** Cells to look at, most doubtful first. */
  readonly doubtful: readonly number[]
  /** The crossings of the rules on the picture, first one top left as the page is read. */
  readonly lattice: Lattice
  /** Quarter turns clockwise that bring the picture upright. */
  readonly turns: QuarterTurns
  /** Nats between this reading and the next best one. */
  readonly margin: number
  /** What the reader saw, kept so that cells can be settled later without the picture. */
  readonly evidence: Evidence
}

/** What was read of a picture. Plain data: it goes through JSON, `structuredClone` and `postMessage`. */
export interface Readings {
  /** Its grids in reading order, one at least. */
  readonly readings: readonly [Reading, ...Reading[]]
  /** Grids that it shows and that were not read. */
  readonly unread: readonly UnreadGrid[]
}

/** What a person says that somebody has written in a cell. */
export interface SettledWriting {
  /** 0 for none. */
  readonly entry?: number
  readonly marks?: readonly number[]
}

/** What the pixels say of the handwriting in a cell, as chances. */
export interface CellEvidence {
  /** In the order of `CELL_KINDS`. */
  readonly kinds: readonly number[]
  /** digit - 1 -> how likely the figure is this one, if there is one. */
  readonly digits: readonly number[]
  /** digit - 1 -> how likely there is a pencil mark of it, if there are marks. */
  readonly marks: readonly number[]
}

/** What the pixels say of each cell of an upright grid. */
export interface Evidence {
  /** cell -> P(no printed digit), P(1), P(2), … */
  readonly scores: readonly (readonly number[])[]
  /** cell -> 0..1 */
  readonly handwritten: readonly number[]
  /** Cells that the picture's edge cuts, where a digit may be missing or mutilated. */
  readonly outside: readonly number[]
  /** Nats by which the chosen turn beats the next best one. */
  readonly turnLead: number
  /** cell -> digit, for those that a person has settled. */
  readonly settled: Readonly<Record<number, number>>
  /** How the geometry of the puzzle is known. */
  readonly geometrySource: GeometrySource
  /** cell -> what it shows, print aside; only of a page that somebody has written in. */
  readonly writing?: readonly CellEvidence[]
  /** cell -> entry and marks, for those of which a person has settled one. */
  readonly settledWriting?: Readonly<Record<number, SettledWriting>>
  /** cell -> its grey picture, `CELL_SIZE` squared bytes in base64; there if `read` was asked for `cellPictures`. */
  readonly pictures?: readonly string[]
}
