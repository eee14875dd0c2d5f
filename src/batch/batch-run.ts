import { GridreasonError, throwIfAborted } from '../errors.js'
import type { BatchError } from './batch-error.js'
import { type BatchOptions, openRunner } from './batch-options.js'
import { ProgressCounter, SILENCE } from './progress.js'
import { concurrently } from './threads/concurrently.js'
import type { Job, JobOutcome } from './threads/jobs.js'

/** What is to be done for a piece of a batch: a job, or nothing since what comes of it is known. */
export type Todo<J extends Job> =
  | { readonly job: J }
  | { readonly known: { readonly ok: false; readonly error: BatchError } | 'skipped' }

/** Where a piece comes from. */
export interface PiecePlace {
  readonly file: string
  /** Bytes of the input up to its end, those of the files before it among them. */
  readonly bytes: number
}

/** What one piece gives: several records for a page of several grids. */
export interface Done<R> {
  readonly records: readonly R[]
  readonly bytes: number
}

/** What the frame of a batch needs to know of its kind. */
export interface Batch<J extends Job, P extends PiecePlace & Todo<J>, R> {
  readonly pieces: AsyncIterable<P>
  toRecords(piece: P, outcome: JobOutcome<J['kind']> | 'skipped'): readonly R[]
  /** Bytes of memory that a piece and its records take, roughly. */
  weigh(piece: P): number
  readonly counter?: ProgressCounter
  /** Called when the batch begins, and somebody wants to know how far it is. */
  begin?(): void
}

/** Bytes of records that may wait for others, unless `memory` says more. */
const USUAL_MEMORY = 16 * 2 ** 20

/** The frame of every batch: records one by one. */
export async function* runBatch<
  J extends Job,
  P extends PiecePlace & Todo<J>,
  R extends { readonly file: string },
>(batch: Batch<J, P, R>, options: BatchOptions): AsyncGenerator<R> {
  for await (const { records } of runPieces(batch, options)) yield* records
}

/**
 * Opens the threads, keeps the order, reports progress, stops on the signal and closes the threads whichever way the
 * reading ends.
 */
export async function* runPieces<
  J extends Job,
  P extends PiecePlace & Todo<J>,
  R extends { readonly file: string },
>(batch: Batch<J, P, R>, options: BatchOptions): AsyncGenerator<Done<R>> {
  const { toRecords, weigh, counter = new ProgressCounter() } = batch
  const { signal, onProgress, order = 'source', memory = USUAL_MEMORY } = options
  throwIfAborted(signal)
  if (onProgress) batch.begin?.()
  const runner = await openRunner(options)
  // not waited for: threads in the middle of a picture take their time to end
  const stop = () => void runner.close().catch(() => undefined)
  signal?.addEventListener('abort', stop, { once: true })
  let reported = performance.now()
  const reportProgress = () => {
    reported = performance.now()
    onProgress?.(counter.progress)
  }
  const ticker =
    onProgress && setInterval(() => performance.now() - reported >= SILENCE && reportProgress(), SILENCE / 2)
  try {
    throwIfAborted(signal)
    const flow = { width: runner.width, room: memory, weigh, isOrdered: order === 'source', signal }
    const results = concurrently(counter.watch(batch.pieces), flow, async (piece) => {
      const todo: Todo<J> = piece
      return { piece, outcome: 'job' in todo ? await runner.run(todo.job) : todo.known }
    })
    for await (const { piece, outcome } of results) {
      throwIfAborted(signal)
      const records = toRecords(piece, outcome)
      counter.add(records, piece.bytes)
      reportProgress()
      yield { records, bytes: piece.bytes }
    }
    throwIfAborted(signal)
    // only now is it known that there is no more
    reportProgress()
  } catch (error) {
    // A pool closed by the signal rejects its jobs: the caller hears of the signal instead.
    if (!(error instanceof GridreasonError) || error.code === 'aborted') throwIfAborted(signal)
    throw error
  } finally {
    clearInterval(ticker)
    counter.isOver = true
    signal?.removeEventListener('abort', stop)
    if (!signal?.aborted) await runner.close()
  }
}
