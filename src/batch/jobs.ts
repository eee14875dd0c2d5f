import { GridreasonError } from '../errors.js'
import type { Grade } from '../grade/grade.js'
import { type GradeOptions, gradePuzzleAsync } from '../grade/grade-puzzle.js'
import type { Geometry } from '../grid/geometry.js'
import type { Puzzle } from '../grid/puzzle.js'
import type { PhotoReader, PhotoReaderOptions } from '../photo/reader.js'
import type { Reading, Readings } from '../photo/reading.js'

/** Work for one thread, and what comes of it. Everything in here can be cloned. */
export type Job =
  | {
      readonly kind: 'grade'
      readonly puzzle: Puzzle
      readonly options: Omit<GradeOptions, 'signal'>
    }
  | {
      readonly kind: 'read'
      readonly file: string
      readonly options: Pick<PhotoReaderOptions, 'maxPixels'>
      readonly geometry?: Geometry
    }

export interface JobResults {
  readonly grade: Grade
  /** What was read of a picture, and what was not. */
  readonly read: { readonly readings: readonly Reading[]; readonly unread: Readings['unread'] }
}

export type JobOutcome<K extends Job['kind'] = Job['kind']> =
  | { readonly ok: true; readonly value: JobResults[K] }
  | { readonly ok: false; readonly error: BatchError }

/** An error as a record: `code` is a stable one of this package, or `internal` for a fault nobody foresaw. */
export interface BatchError {
  readonly code: string
  readonly message: string
  readonly line?: number
  readonly column?: number
}

export function batchError(error: unknown): BatchError {
  if (error instanceof GridreasonError) {
    const { line, column } = error.place
    return {
      code: error.code,
      message: error.message,
      ...(line !== undefined && { line }),
      ...(column !== undefined && { column }),
    }
  }
  return { code: 'internal', message: error instanceof Error ? error.message : String(error) }
}

/** Readers by their options: what a reader has loaded serves all pictures of a thread. */
const readers = new Map<string, Promise<PhotoReader>>()

function readerFor(options: PhotoReaderOptions): Promise<PhotoReader> {
  const key = JSON.stringify(options)
  let reader = readers.get(key)
  if (!reader) {
    // Loaded here and not above, so that grading needs no image library.
    reader = import('../photo/reader.js').then(({ createPhotoReader }) => createPhotoReader(options))
    readers.set(key, reader)
  }
  return reader
}

/** Frees the readers that this thread opened. */
export async function closeReaders(): Promise<void> {
  const open = [...readers.values()]
  readers.clear()
  for (const reader of open) await (await reader).close()
}

/** Does one job in this thread. Errors become outcomes, so that one bad puzzle or picture never ends a batch. */
export async function runJob(job: Job, signal?: AbortSignal): Promise<JobOutcome> {
  try {
    switch (job.kind) {
      case 'grade': {
        const options = { ...job.options, ...(signal && { signal }) }
        return { ok: true, value: await gradePuzzleAsync(job.puzzle, options) }
      }
      case 'read': {
        const reader = await readerFor(job.options)
        const options = { ...(signal && { signal }), ...(job.geometry && { geometry: job.geometry }) }
        const readings = await reader.read(job.file, options)
        return { ok: true, value: { readings: [...readings], unread: readings.unread } }
      }
      default:
        return job satisfies never
    }
  } catch (error) {
    return { ok: false, error: batchError(error) }
  }
}
