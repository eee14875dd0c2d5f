import { argumentError, object } from '../../check-arguments.js'
import type { Grade } from '../../grade/grade.js'
import type { Geometry } from '../../grid/geometry.js'
import { savedGeometry } from '../../grid/json.js'
import type { Puzzle } from '../../grid/puzzle.js'
import { parsePuzzle } from '../../grid/text/parse.js'
import type { BatchError } from '../batch-error.js'
import type { Skipped } from '../input/skipped.js'
import type { PhotoStatus, Spot } from './graded-page.js'

/** Version of what a record holds; records of other versions are not taken for this one's. */
export const RECORD_VERSION = 1

/** Where a record comes from, and how it was made. */
export interface RecordPlace {
  readonly version: typeof RECORD_VERSION
  /** Version of this package that made the record. */
  readonly library: string
  /** What was asked for and decides the grade; empty for a call without options. */
  readonly options: Readonly<Record<string, unknown>>
  /** Number of the grid of text, the picture or the file skipped in its run, from 1; the grids of a page share it. */
  readonly piece: number
  /** The file as it was opened. */
  readonly file: string
  /** The file below the folder that was named, with `/` between names: the same on every machine. */
  readonly path: string
  /** First line of the puzzle in its file, from 1. */
  readonly line?: number | undefined
  /** Where the grid is on its page, for pictures. */
  readonly spot?: Spot | undefined
  /** What the page or the file says of the puzzle, as found in headings and comments; see `About`. */
  readonly number?: string | undefined
  readonly title?: string | undefined
  readonly setter?: string | undefined
  readonly date?: string | undefined
  /** The reading it comes from, for pictures. */
  readonly photo?: PhotoStatus | undefined
}

export interface GradedRecord extends RecordPlace {
  /** The puzzle's cells in one line; what they mean depends on `geometry`, and `recordedPuzzle` reads both. */
  readonly puzzle: string
  /** The rules of the puzzle: boxes or regions, and diagonals if they count. */
  readonly geometry: Geometry
  /** Equal for puzzles that are the same under symmetry; null for one too symmetric for the search. */
  readonly canonical: string | null
  readonly grade: Grade
  /** The record that has the same puzzle and comes first, as `mergeGrades` finds it. */
  readonly duplicateOf?: Origin | undefined
}

export interface FailedRecord extends RecordPlace {
  /** Where a grid was read, and grading it failed. */
  readonly puzzle?: string | undefined
  readonly geometry?: Geometry | undefined
  readonly error: BatchError
}

export interface SkippedRecord extends RecordPlace {
  readonly skipped: Skipped
}

/** A batch record, as it is written to JSON: a graded puzzle, an error, or what was passed over. */
export type GradeRecord = GradedRecord | FailedRecord | SkippedRecord

/** Where a puzzle stands: its file below the root, and its line or its number on the page. */
export interface Origin {
  readonly path: string
  readonly line?: number | undefined
  readonly grid?: number | undefined
}

/**
 * The puzzle of a record, with its rules; records may come from a file of JSON.
 *
 * @throws InputError for a puzzle or a geometry that a record does not hold
 *
 * @example
 * for await (const record of readGrades('grades.jsonl'))
 *   if ('grade' in record) console.log(formatPuzzle(recordedPuzzle(record)))
 */
export function recordedPuzzle(record: Pick<GradedRecord, 'puzzle' | 'geometry'>): Puzzle {
  object(record, 'record')
  const { puzzle, geometry } = record
  if (typeof puzzle !== 'string')
    throw argumentError('record.puzzle', 'the puzzle of a record that has no error', puzzle)
  return parsePuzzle(puzzle, { geometry: savedGeometry(geometry) })
}
