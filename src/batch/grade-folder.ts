import { argumentError, checkOptions, type OptionChecks, object } from '../check-arguments.js'
import { throwIfAborted } from '../errors.js'
import type { Grade } from '../grade/grade.js'
import { GRADE_CHECKS, type GradeOptions } from '../grade/grade-puzzle.js'
import { checkGeometry, type Geometry } from '../grid/geometry.js'
import { savedGeometry } from '../grid/json.js'
import type { Puzzle } from '../grid/puzzle.js'
import { parsePuzzle } from '../grid/text/parse.js'
import { readPuzzles } from '../grid/text/stream.js'
import { formatPuzzle } from '../grid/text/write.js'
import { BATCH_CHECKS, type BatchOptions, checkTargets } from './batch-options.js'
import { type Piece, runBatch } from './batch-run.js'
import { type BatchError, batchError, type Job } from './jobs.js'
import { listFiles, unreadable } from './list-files.js'
import { readBytes } from './read-bytes.js'

/** A batch record, one puzzle or one error, as it is written to JSON. */
export type GradeRecord = GradedPuzzle | UngradedPuzzle

interface GradedPuzzle {
  readonly file: string
  /** First line of the puzzle in its file, from 1. */
  readonly line: number
  /** A heading above the puzzle, if there is one. */
  readonly title?: string | undefined
  /** The puzzle's cells in one line; what they mean depends on `geometry`, and `recordedPuzzle` reads both. */
  readonly puzzle: string
  /** The rules of the puzzle: boxes or regions, and diagonals if they count. */
  readonly geometry: Geometry
  readonly grade: Grade
}

interface UngradedPuzzle {
  readonly file: string
  readonly line?: number | undefined
  readonly title?: string | undefined
  readonly error: BatchError
}

/**
 * The puzzle of a record, with its rules; records may come from a file of JSON.
 *
 * @throws InputError for a puzzle or a geometry that a record does not hold
 */
export function recordedPuzzle(record: Extract<GradeRecord, { puzzle: string }>): Puzzle {
  object(record, 'record')
  const { puzzle, geometry } = record
  if (typeof puzzle !== 'string')
    throw argumentError('record.puzzle', 'the puzzle of a record that has no error', puzzle)
  return parsePuzzle(puzzle, { geometry: savedGeometry(geometry) })
}

export interface GradeFolderOptions extends BatchOptions, Omit<GradeOptions, 'signal'> {
  /** The geometry of all puzzles; worked out from each puzzle's text when left out. */
  readonly geometry?: Geometry
}

/** Text files that are taken from folders. */
const TEXT_EXTENSIONS = ['.txt', '.csv', '.tsv', '.json'] as const

interface Place {
  readonly file: string
  readonly line?: number
  readonly title?: string
  readonly puzzle?: string
  readonly geometry?: Geometry
}

type GradeJob = Extract<Job, { kind: 'grade' }>

const FOLDER_CHECKS: OptionChecks<GradeFolderOptions> = {
  ...GRADE_CHECKS,
  ...BATCH_CHECKS,
  geometry: checkGeometry,
}

/**
 * Grades every puzzle of files and folders, on all cores, in input order.
 *
 * ```ts
 * for await (const record of gradeFolder('puzzles')) {
 *   if ('grade' in record) console.log(record.file, record.line, record.grade.level)
 * }
 * ```
 *
 * Files are read as streams; what cannot be read comes out as a record with an error and its line, and the rest goes
 * on. Pipes and devices are read for as long as they give, or until the signal fires. Breaking off the loop stops the
 * threads. A time limit is for each puzzle: one that takes longer comes out as a record with the error `time-limit`.
 *
 * @throws StoppedError `aborted` when the signal fires; InputError `argument` for an unknown technique, preset or
 *   worker count
 */
export function gradeFolder(
  targets: string | readonly string[],
  options: GradeFolderOptions = {},
): AsyncGenerator<GradeRecord> {
  checkTargets(targets)
  checkOptions<GradeFolderOptions>(options, FOLDER_CHECKS)
  const {
    workers: _,
    signal,
    onProgress: __,
    workerFile: ___,
    extensions,
    geometry,
    ...gradeOptions
  } = options
  return runBatch(
    pieces(targets, extensions ?? TEXT_EXTENSIONS, geometry, gradeOptions, signal),
    options,
    ({ file, line, title, puzzle, geometry }, outcome): GradeRecord => {
      const place = { file, ...(title !== undefined && { title }) }
      return outcome.ok
        ? { ...place, line: line!, puzzle: puzzle!, geometry: geometry!, grade: outcome.value }
        : { ...place, ...(line !== undefined && { line }), error: outcome.error }
    },
  )
}

async function* pieces(
  targets: string | readonly string[],
  extensions: readonly string[],
  geometry: Geometry | undefined,
  options: GradeJob['options'],
  signal: AbortSignal | undefined,
): AsyncGenerator<Piece<GradeJob, Place>> {
  for await (const found of listFiles(targets, extensions)) {
    const { file } = found
    if ('error' in found) {
      yield { place: { file }, error: batchError(found.error) }
      continue
    }
    try {
      const reading = { ...(geometry && { geometry }), ...(signal && { signal }) }
      for await (const entry of readPuzzles(readBytes(file, signal), reading)) {
        const { line, title } = entry
        const place = { file, line, ...(title !== undefined && { title }) }
        if (!entry.ok) yield { place, error: batchError(entry.error) }
        else {
          yield {
            place: {
              ...place,
              puzzle: formatPuzzle(entry.puzzle, { geometryLine: false }),
              geometry: entry.puzzle.geometry,
            },
            job: { kind: 'grade', puzzle: entry.puzzle, options },
          }
        }
      }
    } catch (cause) {
      throwIfAborted(signal)
      yield { place: { file }, error: batchError(unreadable(file, cause)) }
    }
  }
}
