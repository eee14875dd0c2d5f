import { availableParallelism } from 'node:os'
import {
  abortSignal,
  amount,
  callback,
  listOf,
  type OptionChecks,
  oneOf,
  string,
} from '../check-arguments.js'
import type { BatchProgress } from './progress.js'
import { createPool, inThisThread } from './threads/node-pool.js'
import type { JobRunner } from './threads/pool.js'
import { THREAD_CHECKS, type ThreadOptions } from './threads/thread-options.js'

/** Orders in which records come. */
export const RECORD_ORDERS = ['source', 'as-done'] as const
/** Records in the order of the input, or each as soon as it is done. */
export type RecordOrder = (typeof RECORD_ORDERS)[number]

/** What all batches take. */
export interface BatchOptions extends ThreadOptions {
  readonly signal?: AbortSignal
  /** Called when a record is there, and twice a second while none comes. */
  readonly onProgress?: (progress: BatchProgress) => void
  /** `source` when left out. */
  readonly order?: RecordOrder
  /**
   * Bytes that records may take, roughly, while they wait for one before them or for their reader; nothing more is read
   * while they do. 16 MiB when left out.
   */
  readonly memory?: number
}

export const BATCH_CHECKS: OptionChecks<BatchOptions> = {
  ...THREAD_CHECKS,
  signal: abortSignal,
  onProgress: callback,
  order: oneOf(RECORD_ORDERS),
  memory: amount(1),
}

/** Files and folders: one name, or a list. */
export function checkTargets(targets: unknown): void {
  if (typeof targets !== 'string') checkNames(targets, 'targets')
}

const checkNames = listOf(string, 'the path of a file or folder, or a list of paths')

export const checkExtensions = listOf(string, 'a list of extensions')

export async function openRunner(options: BatchOptions): Promise<JobRunner> {
  const workers = options.workers ?? availableParallelism()
  const { signal, workerFile } = options
  if (workers === 0) return inThisThread(signal)
  return createPool(workers, { ...(signal && { signal }), ...(workerFile && { workerFile }) })
}
