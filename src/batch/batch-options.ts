import { availableParallelism } from 'node:os'
import {
  abortSignal,
  argumentError,
  callback,
  listOf,
  type OptionChecks,
  string,
  whole,
} from '../check-arguments.js'
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
  /**
   * Where the file `batch-worker.js` of this package lies, for builds that move it; found next to this one if left out.
   */
  readonly workerFile?: string | URL
  readonly signal?: AbortSignal
  /** Called after each record. */
  readonly onProgress?: (progress: BatchProgress) => void
  /** Extensions that count within folders, in lower case with their dot. */
  readonly extensions?: readonly string[]
}

/** More threads than any machine has cores for would only fill its memory. */
const MOST_WORKERS = 1024

export const BATCH_CHECKS: OptionChecks<BatchOptions> = {
  workers: whole(0, MOST_WORKERS),
  workerFile: (value, name) => {
    if (typeof value !== 'string' && !(value instanceof URL))
      throw argumentError(name, 'a path or a URL', value)
  },
  signal: abortSignal,
  onProgress: callback,
  extensions: listOf(string, 'a list of extensions'),
}

/** Files and folders: one name, or a list. */
export function checkTargets(targets: unknown): void {
  if (typeof targets !== 'string') checkNames(targets, 'targets')
}

const checkNames = listOf(string, 'the path of a file or folder, or a list of paths')

export async function openRunner(options: BatchOptions): Promise<JobRunner> {
  const workers = options.workers ?? availableParallelism()
  const { signal, workerFile } = options
  if (workers === 0) return inThisThread(signal)
  return createPool(workers, { ...(signal && { signal }), ...(workerFile && { workerFile }) })
}
