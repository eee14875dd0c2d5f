import { amount, checkOptions, type OptionChecks } from '../check-arguments.js'
import { checkGeometry } from '../grid/geometry.js'
import type { PhotoReaderOptions, ReadOptions } from '../photo/reader.js'
import type { Readings } from '../photo/reading.js'
import { type BatchError, batchError } from './batch-error.js'
import { BATCH_CHECKS, type BatchOptions, checkExtensions, checkTargets } from './batch-options.js'
import { runBatch, type Todo } from './batch-run.js'
import { listFiles } from './input/list-files.js'
import type { Skipped } from './input/skipped.js'
import type { Job } from './threads/jobs.js'

/** How the pictures of folders are read. */
export interface ReadFolderOptions
  extends BatchOptions,
    Pick<PhotoReaderOptions, 'maxPixels'>,
    Pick<ReadOptions, 'geometry'> {
  /** Extensions that count within folders, with or without their dot, in any case. */
  readonly extensions?: readonly string[]
}

const FOLDER_CHECKS: OptionChecks<ReadFolderOptions> = {
  ...BATCH_CHECKS,
  maxPixels: amount(1),
  geometry: checkGeometry,
  extensions: checkExtensions,
}

/**
 * All grids of one picture, in reading order, with those that it shows and that were not read; or why there are none;
 * or why a file was passed over.
 */
export type ReadRecord =
  | ({ readonly file: string } & Readings)
  | { readonly file: string; readonly error: BatchError }
  | { readonly file: string; readonly skipped: Skipped }

const PICTURE_EXTENSIONS = ['.jpg', '.jpeg', '.png', '.webp', '.tif', '.tiff', '.avif', '.gif'] as const

type ReadJob = Extract<Job, { kind: 'read' }>

/**
 * Reads every picture of files and folders, on all cores, in input order. A picture without a grid, or one that cannot
 * be decoded, comes out as a record with an error. Each thread keeps one reader for all its pictures.
 *
 * ```ts
 * for await (const record of readFolder('photos', { onProgress: ({ done }) => console.log(done) }))
 *   if ('reading' in record) console.log(record.file, record.reading.status)
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
  return runBatch<ReadJob, PicturePlace & Todo<ReadJob>, ReadRecord>(
    {
      pieces: pieces(targets, options.extensions ?? PICTURE_EXTENSIONS, {
        options: readerOptions,
        ...(options.geometry && { geometry: options.geometry }),
      }),
      toRecords: ({ file, skipped }, outcome): ReadRecord[] =>
        outcome === 'skipped'
          ? [{ file, skipped: skipped! }]
          : [outcome.ok ? { file, ...outcome.value } : { file, error: outcome.error }],
      weigh: () => READINGS_BYTES,
    },
    options,
  )
}

/** Bytes of memory that the readings of a page take. */
const READINGS_BYTES = 150_000

interface PicturePlace {
  readonly file: string
  readonly bytes: number
  readonly skipped?: Skipped
}

async function* pieces(
  targets: string | readonly string[],
  extensions: readonly string[],
  how: Omit<ReadJob, 'kind' | 'picture'>,
): AsyncGenerator<PicturePlace & Todo<ReadJob>> {
  let bytes = 0
  for await (const found of listFiles(targets, extensions)) {
    const { file } = found
    if ('error' in found) yield { file, bytes, known: { ok: false, error: batchError(found.error) } }
    else if ('skipped' in found) yield { file, bytes, skipped: found.skipped, known: 'skipped' }
    else {
      bytes += found.size ?? 0
      yield { file, bytes, job: { kind: 'read', picture: file, ...how } }
    }
  }
}
