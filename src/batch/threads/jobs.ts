import type { Geometry } from '../../grid/geometry.js'
import type { Puzzle } from '../../grid/puzzle.js'
import type { PictureInput } from '../../photo/decode/picture-input.js'
import type { PhotoReader, PhotoReaderOptions } from '../../photo/reader.js'
import type { Readings } from '../../photo/reading.js'
import { type BatchError, batchError } from '../batch-error.js'
import { type GradedPage, gradedPage } from '../records/graded-page.js'
import { type GradedPuzzle, gradedPuzzle, type PuzzleOptions } from '../records/graded-puzzle.js'
import { type PhotoAnswer, photoAnswer } from './photo-answer.js'

/** How a picture is read; all of it can be cloned. */
export interface JobReadOptions extends Pick<PhotoReaderOptions, 'maxPixels'> {
  readonly timeLimit?: number
  readonly cellPictures?: boolean
}

interface PictureJob {
  readonly picture: PictureInput
  readonly options: JobReadOptions
  readonly geometry?: Geometry
}

/** Work for one thread, and what comes of it. Everything in here can be cloned. */
export type Job =
  | { readonly kind: 'grade'; readonly puzzle: Puzzle; readonly options: PuzzleOptions }
  | ({ readonly kind: 'read' } & PictureJob)
  /** As `read`, with the errors of reading whole. */
  | ({ readonly kind: 'photo' } & PictureJob)
  | ({ readonly kind: 'grade-picture'; readonly gradeOptions: PuzzleOptions } & PictureJob)

export interface JobResults {
  readonly grade: GradedPuzzle
  readonly read: Readings
  readonly photo: PhotoAnswer
  readonly 'grade-picture': GradedPage
}

export type JobOutcome<K extends Job['kind'] = Job['kind']> =
  | { readonly ok: true; readonly value: JobResults[K] }
  | { readonly ok: false; readonly error: BatchError }

/** Readers by their options: what a reader has loaded serves all pictures of a thread. */
const readers = new Map<string, Promise<PhotoReader>>()

function readerFor({ maxPixels }: JobReadOptions): Promise<PhotoReader> {
  const options = maxPixels === undefined ? {} : { maxPixels }
  const key = JSON.stringify(options)
  let reader = readers.get(key)
  if (!reader) {
    // Loaded here and not above, so that grading needs no image library.
    reader = import('../../photo/node.js').then(({ createPhotoReader }) => createPhotoReader(options))
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
      case 'grade':
        return { ok: true, value: await gradedPuzzle(job.puzzle, job.options, signal) }
      case 'read':
        return { ok: true, value: await readingsOf(job, signal) }
      case 'photo':
        return { ok: true, value: await photoAnswer(readingsOf(job, signal)) }
      case 'grade-picture': {
        const grade = (puzzle: Puzzle) => gradedPuzzle(puzzle, job.gradeOptions, signal)
        return { ok: true, value: await gradedPage(await readingsOf(job, signal), grade) }
      }
      default:
        return job satisfies never
    }
  } catch (error) {
    return { ok: false, error: batchError(error) }
  }
}

async function readingsOf(
  { picture, options, geometry }: PictureJob,
  signal: AbortSignal | undefined,
): Promise<Readings> {
  const reader = await readerFor(options)
  return reader.read(picture, {
    ...(options.timeLimit !== undefined && { timeLimit: options.timeLimit }),
    ...(options.cellPictures && { cellPictures: true }),
    ...(signal && { signal }),
    ...(geometry && { geometry }),
  })
}
