import { availableParallelism } from 'node:os'
import { createPool, inThisThread, type JobRunner } from './pool.js'

/** How far a batch is. */
export interface BatchProgress {
  /** Records yielded so far, errors among them. */
  readonly done: number
  readonly errors: number
  /** The file the last record came from. */
  readonly file: string
}

export interface BatchOptions {
  /** Worker threads; one for each core when left out, 0 to work in this thread. */
  readonly workers?: number
  /** Where the file `batch-worker.js` of this package lies, for builds that move it; found next to this one if left out. */
  readonly workerFile?: string | URL
  readonly signal?: AbortSignal
  /** Called after each record. */
  readonly onProgress?: (progress: BatchProgress) => void
  /** Extensions that count within folders, in lower case with their dot. */
  readonly extensions?: readonly string[]
}

/** @throws RangeError for a number of workers that is no number of workers */
export async function openRunner(options: BatchOptions): Promise<JobRunner> {
  const workers = options.workers ?? availableParallelism()
  if (!Number.isInteger(workers) || workers < 0)
    throw new RangeError(`workers must be a whole number from 0, not ${workers}.`)
  const { signal, workerFile } = options
  if (workers === 0) return inThisThread(signal)
  return createPool(workers, { ...(signal && { signal }), ...(workerFile && { workerFile }) })
}
