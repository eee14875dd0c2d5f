import { amount, argumentError, checkOptions, type OptionChecks } from '../check-arguments.js'
import { GridreasonError, throwIfAborted } from '../errors.js'
import { pathOfUrl } from '../photo/decode/picture-file.js'
import {
  expectedPicture,
  isUrl,
  loadUsual,
  type PictureInput,
  type RawPicture,
} from '../photo/decode/picture-input.js'
import { type PhotoReaderOptions, READ_CHECKS, type ReadOptions } from '../photo/reader.js'
import type { Readings } from '../photo/reading.js'
import { withinLimits } from '../photo/within-limits.js'
import { BATCH_CHECKS, type BatchOptions, openRunner } from './batch-options.js'
import { errorFrom } from './threads/photo-answer.js'

/** How many threads a pool has, and what they may take. */
export interface PhotoPoolOptions
  extends Pick<BatchOptions, 'workers' | 'workerFile'>,
    Pick<PhotoReaderOptions, 'maxPixels'> {}

const POOL_CHECKS: OptionChecks<PhotoPoolOptions> = {
  workers: BATCH_CHECKS.workers,
  workerFile: BATCH_CHECKS.workerFile,
  maxPixels: amount(1),
}

/** A photo reader whose work is done by worker threads. */
export interface PhotoPool {
  /**
   * What `read` of a photo reader gives, and throws. The time limit counts from the call on, waiting for a thread
   * included. What is handed in is copied and stays the caller's.
   *
   * @throws GridreasonError `thread-lost` when the thread that read the picture has ended, for want of memory perhaps
   * @throws StoppedError `aborted` when the pool is closed meanwhile, too
   */
  read(picture: PictureInput, options?: ReadOptions): Promise<Readings>
  /** Ends the threads; a program with an open pool does not end by itself. */
  close(): Promise<void>
}

/**
 * Reads pictures on all cores, for servers: the thread that calls it is only in the way of others while bytes are
 * copied. Threads start when there is work for them, and each keeps its networks.
 *
 * ```ts
 * const pool = await createPhotoPool({ workers: 4 })
 * const { readings } = await pool.read(upload, { timeLimit: 10_000, signal: request.signal })
 * ```
 *
 * Where threads cannot be started (a bundle without `batch-worker.js`, `workers: 0`), this thread reads one picture
 * after another.
 */
export async function createPhotoPool(options: PhotoPoolOptions = {}): Promise<PhotoPool> {
  checkOptions<PhotoPoolOptions>(options, POOL_CHECKS)
  const { maxPixels, ...batch } = options
  const runner = await openRunner(batch)
  return {
    async read(source, options = {}) {
      checkOptions<ReadOptions>(options, READ_CHECKS)
      const { geometry, cellPictures } = options
      return withinLimits(options, async (signal) => {
        const { picture, transfer } = await handedOn(source)
        throwIfAborted(signal)
        const how = { ...(maxPixels && { maxPixels }), ...(cellPictures && { cellPictures }) }
        const job = { kind: 'photo', picture, options: how, ...(geometry && { geometry }) } as const
        const outcome = await runner.run(job, { signal, transfer })
        if (!outcome.ok) throw lost(outcome.error.message)
        if ('error' in outcome.value) throw errorFrom(outcome.value.error)
        return outcome.value.readings
      })
    },
    close: () => runner.close(),
  }
}

/** A picture as it goes to another thread, with the memory that goes along. */
interface HandedOn {
  readonly picture: string | Uint8Array | RawPicture
  readonly transfer: readonly ArrayBuffer[]
}

async function handedOn(source: PictureInput): Promise<HandedOn> {
  if (typeof source === 'string') return { picture: source, transfer: [] }
  if (isUrl(source)) return { picture: pathOfUrl(source), transfer: [] }
  const loaded = await loadUsual(source)
  if (!loaded) throw argumentError('picture', expectedPicture('a path, a file: URL'), source)
  if ('bytes' in loaded) {
    const bytes = new Uint8Array(loaded.bytes)
    return { picture: bytes, transfer: [bytes.buffer] }
  }
  const data = new Uint8Array(loaded.raw.data)
  return { picture: { ...loaded.raw, data }, transfer: [data.buffer] }
}

function lost(message: string): GridreasonError {
  return new GridreasonError(
    'thread-lost',
    `The picture was not read. ${message} Hand it in again; if that goes on, use fewer workers or a lower \`maxPixels\`.`,
  )
}
