import { throwIfAborted } from '../errors.js'
import { type BatchOptions, openRunner } from './batch-options.js'
import type { BatchError, Job, JobOutcome } from './jobs.js'
import { mapInOrder } from './map-in-order.js'

/** A piece of a batch: work still to be done, or a record that is known already. */
export type Piece<J extends Job, P> =
  | { readonly place: P; readonly job: J }
  | { readonly place: P; readonly error: BatchError }

/**
 * The frame of every batch: opens the threads, keeps the order, reports progress, stops on the signal and closes the
 * threads whichever way the reading ends.
 */
export async function* runBatch<J extends Job, P extends { readonly file: string }, R>(
  pieces: AsyncIterable<Piece<J, P>>,
  options: BatchOptions,
  toRecord: (place: P, outcome: JobOutcome<J['kind']>) => R,
): AsyncGenerator<R> {
  const { signal, onProgress } = options
  const runner = await openRunner(options)
  const stop = () => void runner.close()
  signal?.addEventListener('abort', stop, { once: true })
  let done = 0
  let errors = 0
  try {
    throwIfAborted(signal)
    const outcomes = mapInOrder(pieces, runner.width, async (piece) => {
      const outcome: JobOutcome<J['kind']> =
        'job' in piece ? await runner.run(piece.job) : { ok: false, error: piece.error }
      return { place: piece.place, outcome }
    })
    for await (const { place, outcome } of outcomes) {
      throwIfAborted(signal)
      done++
      if (!outcome.ok) errors++
      yield toRecord(place, outcome)
      onProgress?.({ done, errors, file: place.file })
    }
  } catch (error) {
    // A pool closed by the signal rejects its jobs: the caller hears of the signal instead.
    throwIfAborted(signal)
    throw error
  } finally {
    signal?.removeEventListener('abort', stop)
    await runner.close()
  }
}
