import { amount, checkOptions, type OptionChecks } from '../check-arguments.js'
import { checkGeometry } from '../grid/geometry.js'
import type { PhotoReaderOptions, ReadOptions } from '../photo/reader.js'
import type { Reading } from '../photo/reading.js'
import type { UnreadGrid } from '../photo/unread.js'
import { BATCH_CHECKS, type BatchOptions, checkTargets } from './batch-options.js'
import { type Piece, runBatch } from './batch-run.js'
import { type BatchError, batchError, type Job } from './jobs.js'
import { listFiles } from './list-files.js'

export interface ReadFolderOptions
  extends BatchOptions,
    Pick<PhotoReaderOptions, 'maxPixels'>,
    Pick<ReadOptions, 'geometry'> {}

const FOLDER_CHECKS: OptionChecks<ReadFolderOptions> = {
  ...BATCH_CHECKS,
  maxPixels: amount(1),
  geometry: checkGeometry,
}

/**
 * All grids of one picture, in reading order, with those that it shows and that were not read; or why there are none.
 */
export type ReadRecord =
  | { readonly file: string; readonly readings: readonly Reading[]; readonly unread: readonly UnreadGrid[] }
  | { readonly file: string; readonly error: BatchError }

const PICTURE_EXTENSIONS = ['.jpg', '.jpeg', '.png', '.webp', '.tif', '.tiff', '.avif', '.gif'] as const

type ReadJob = Extract<Job, { kind: 'read' }>

/**
 * Reads every picture of files and folders, on all cores, in input order. A picture without a grid, or one that cannot
 * be decoded, comes out as a record with an error. Each thread keeps one reader for all its pictures.
 *
 * ```ts
 * for await (const record of readFolder('photos', { onProgress: ({ done }) => console.log(done) })) …
 * ```
 *
 * @throws StoppedError `aborted` when the signal fires; InputError `argument` for a number of workers that is none
 */
export function readFolder(
  targets: string | readonly string[],
  options: ReadFolderOptions = {},
): AsyncGenerator<ReadRecord> {
  checkTargets(targets)
  checkOptions<ReadFolderOptions>(options, FOLDER_CHECKS)
  const readerOptions = options.maxPixels === undefined ? {} : { maxPixels: options.maxPixels }
  return runBatch(
    pieces(targets, options.extensions ?? PICTURE_EXTENSIONS, {
      options: readerOptions,
      ...(options.geometry && { geometry: options.geometry }),
    }),
    options,
    ({ file }, outcome): ReadRecord =>
      outcome.ok ? { file, ...outcome.value } : { file, error: outcome.error },
  )
}

async function* pieces(
  targets: string | readonly string[],
  extensions: readonly string[],
  how: Omit<ReadJob, 'kind' | 'file'>,
): AsyncGenerator<Piece<ReadJob, { readonly file: string }>> {
  for await (const found of listFiles(targets, extensions)) {
    const { file } = found
    if ('error' in found) yield { place: { file }, error: batchError(found.error) }
    else yield { place: { file }, job: { kind: 'read', file, ...how } }
  }
}
