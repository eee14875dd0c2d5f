import { amount, argumentError, checkOptions, type OptionChecks, string } from '../check-arguments.js'
import { GRADE_CHECKS, type GradeOptions } from '../grade/grade-puzzle.js'
import { checkGeometry, type Geometry } from '../grid/geometry.js'
import type { TextChunks } from '../grid/text/stream.js'
import { BATCH_CHECKS, type BatchOptions, checkExtensions, checkTargets } from './batch-options.js'
import { type Batch, runBatch } from './batch-run.js'
import { filePieces, type GradeJob, type GradePiece, type PieceQuery, streamPieces } from './grade-pieces.js'
import { type FoundFile, listFiles, namedFiles } from './input/list-files.js'
import { ProgressCounter } from './progress.js'
import { type GradeRecord, RECORD_VERSION } from './records/grade-record.js'
import type { JobOutcome } from './threads/jobs.js'
import { LIBRARY_VERSION } from './version.js'

/** How files are graded. */
export interface GradeFilesOptions extends BatchOptions, Omit<GradeOptions, 'signal'> {
  /** The geometry of all puzzles; worked out from each puzzle's text or picture when left out. */
  readonly geometry?: Geometry
  /** Pictures with more pixels are refused before they are decoded. */
  readonly maxPixels?: number
  /**
   * The folder that the `path` of records is below, for the parts of a folder that are graded one by one; each folder
   * that is named, and that of each file named, when left out.
   */
  readonly root?: string
}

/** How folders are graded. */
export interface GradeFolderOptions extends GradeFilesOptions {
  /**
   * Extensions that count within folders, with or without their dot, in any case; those of text and pictures when left
   * out. Files packed with gzip count by the extension before `.gz`.
   */
  readonly extensions?: readonly string[]
}

/** How a stream of text is graded. */
export interface GradeStreamOptions extends Omit<GradeFilesOptions, 'root'> {
  /** What records call the stream; `stream` when left out. */
  readonly name?: string
}

/**
 * Files that are taken from folders: text, and pictures, also in formats that cannot be read, which get an error that
 * says how to save them.
 */
export const USUAL_EXTENSIONS = [
  ...['txt', 'csv', 'tsv', 'json', 'jsonl', 'ndjson', 'gz'],
  ...['jpg', 'jpeg', 'png', 'webp', 'tif', 'tiff', 'avif', 'gif', 'heic', 'heif', 'bmp', 'pdf'],
] as const

const GRADING_CHECKS: OptionChecks<Omit<GradeFilesOptions, 'root'>> = {
  ...GRADE_CHECKS,
  ...BATCH_CHECKS,
  geometry: checkGeometry,
  maxPixels: amount(1),
}
const FILES_CHECKS: OptionChecks<GradeFilesOptions> = { ...GRADING_CHECKS, root: string }
export const FOLDER_CHECKS: OptionChecks<GradeFolderOptions> = {
  ...FILES_CHECKS,
  extensions: checkExtensions,
}
export const STREAM_CHECKS: OptionChecks<GradeStreamOptions> = { ...GRADING_CHECKS, name: string }

/**
 * Grades every puzzle of files and folders, on all cores, in input order: text in any format, JSON, JSON Lines, CSV and
 * pictures, packed with gzip or not, recognised by their contents. Folders within folders and links are followed.
 *
 * ```ts
 * for await (const record of gradeFolder('puzzles')) {
 *   if ('grade' in record) console.log(record.path, record.line, record.grade.level)
 * }
 * ```
 *
 * Files are read as streams; what cannot be read comes out as a record with an error and its place, what is passed over
 * as a record that says why, and the rest goes on. Pipes and devices that are named are read for as long as they give,
 * or until the signal fires. Breaking off the loop stops the threads. A time limit is for each puzzle and each picture:
 * one that takes longer comes out as a record with the error `time-limit`.
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
  return runBatch(folderBatch(targets, options), options)
}

/**
 * The same for files that are named one by one, whatever their extensions; the list may be a stream of names.
 *
 * @throws StoppedError `aborted` when the signal fires; InputError `argument`
 *
 * @example
 * for await (const record of gradeFiles(['monday.txt', 'tuesday.jpg'], { workers: 2 }))
 *   if ('grade' in record) console.log(record.path, record.grade.effort)
 */
export function gradeFiles(
  files: Iterable<string> | AsyncIterable<string>,
  options: GradeFilesOptions = {},
): AsyncGenerator<GradeRecord> {
  checkChunks(files, 'files', 'a list or a stream of paths')
  checkOptions<GradeFilesOptions>(options, FILES_CHECKS)
  const counter = new ProgressCounter()
  return runBatch(
    gradeBatch(filePieces(checkedNames(files, options.root), queryOf(options)), options, counter),
    options,
  )
}

/**
 * The same for one stream of text, or of the bytes of one picture, such as the standard input.
 *
 * @throws StoppedError `aborted` when the signal fires; InputError `argument`
 *
 * @example
 * for await (const record of gradeStream(process.stdin, { order: 'as-done' }))
 *   if ('grade' in record) console.log(record.line, record.grade.level)
 */
export function gradeStream(
  chunks: TextChunks,
  options: GradeStreamOptions = {},
): AsyncGenerator<GradeRecord> {
  checkChunks(chunks, 'chunks', 'text or bytes in pieces, such as a stream of a file or a list of strings')
  checkOptions<GradeStreamOptions>(options, STREAM_CHECKS)
  return runBatch(streamBatch(chunks, options), options)
}

export type GradeBatch = Batch<GradeJob, GradePiece, GradeRecord> & { readonly counter: ProgressCounter }

export function folderBatch(targets: string | readonly string[], options: GradeFolderOptions): GradeBatch {
  const counter = new ProgressCounter()
  const found = () => listFiles(targets, options.extensions ?? USUAL_EXTENSIONS, options.root)
  return {
    ...gradeBatch(filePieces(found(), queryOf(options)), options, counter),
    begin: () => void countBytes(found(), counter, options.signal),
  }
}

export function streamBatch(chunks: TextChunks, options: GradeStreamOptions): GradeBatch {
  const pieces = streamPieces(chunks, options.name ?? 'stream', queryOf(options))
  return gradeBatch(pieces, options, new ProgressCounter())
}

function gradeBatch(
  pieces: AsyncIterable<GradePiece>,
  options: GradeFilesOptions,
  counter: ProgressCounter,
): GradeBatch {
  const made = madeBy(options)
  return {
    pieces,
    counter,
    toRecords: (piece, outcome) => toRecords(made, piece, outcome),
    weigh: (piece) => ('job' in piece && piece.job.kind === 'grade-picture' ? PAGE_BYTES : PUZZLE_BYTES),
  }
}

/** Bytes of memory that a puzzle takes with its record, and the records of a page with theirs. */
const PUZZLE_BYTES = 2048
const PAGE_BYTES = 8192

/** How the records of a run are made: what decides them, as plain data. */
export function madeBy(options: GradeFilesOptions): Pick<GradeRecord, 'version' | 'library' | 'options'> {
  const { grading, reading, geometry } = queryOf(options)
  return {
    version: RECORD_VERSION,
    library: LIBRARY_VERSION,
    options: { ...grading, ...reading, ...(geometry && { geometry: geometry.key }) },
  }
}

function queryOf(options: GradeFilesOptions): PieceQuery {
  const { geometry, signal, maxPixels, timeLimit } = options
  const grading = Object.fromEntries(
    Object.keys(GRADE_CHECKS).flatMap((name) => {
      const value = options[name as keyof GradeOptions]
      return name === 'signal' || value === undefined ? [] : [[name, value]]
    }),
  )
  const reading = {
    ...(maxPixels !== undefined && { maxPixels }),
    ...(timeLimit !== undefined && { timeLimit }),
  }
  return { geometry, grading, reading, signal }
}

function toRecords(
  made: ReturnType<typeof madeBy>,
  piece: GradePiece,
  outcome: JobOutcome<GradeJob['kind']> | 'skipped',
): readonly GradeRecord[] {
  const { file, path, line, about, skipped, puzzle, geometry } = piece
  const place = {
    ...made,
    piece: piece.piece,
    file,
    path,
    ...(line !== undefined && { line }),
    ...about,
  }
  if (outcome === 'skipped') return [{ ...place, skipped: skipped! }]
  const what = puzzle !== undefined && geometry ? { puzzle, geometry } : undefined
  if (!outcome.ok) return [{ ...place, ...what, error: outcome.error }]
  const { value } = outcome
  if (isPage(value)) return value.map((grid) => ({ ...place, ...grid }))
  return [{ ...place, ...what!, canonical: value.canonical, grade: value.grade }]
}

function isPage<T extends object>(value: T): value is Extract<T, readonly unknown[]> {
  return Array.isArray(value)
}

/** Adds up the sizes of all files, while grading goes on. */
async function countBytes(
  files: AsyncIterable<FoundFile>,
  counter: ProgressCounter,
  signal: AbortSignal | undefined,
): Promise<void> {
  let total = 0
  for await (const found of files) {
    if (signal?.aborted || counter.isOver) return
    if (!('size' in found)) continue
    // a pipe gives as much as it gives
    if (found.size === undefined) return
    total += found.size
  }
  counter.totalBytes = total
}

async function* checkedNames(
  files: Iterable<string> | AsyncIterable<string>,
  root: string | undefined,
): AsyncGenerator<FoundFile> {
  yield* namedFiles(
    (async function* () {
      for await (const file of files) {
        string(file, 'files')
        yield file
      }
    })(),
    root,
  )
}

export function checkChunks(value: unknown, name: string, expected: string): void {
  const { [Symbol.iterator]: plain, [Symbol.asyncIterator]: async } = Object(value)
  if (typeof value === 'string' || (typeof plain !== 'function' && typeof async !== 'function'))
    throw argumentError(name, expected, value)
}
