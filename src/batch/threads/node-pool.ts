import { type Transferable, Worker } from 'node:worker_threads'
import { abortedBy } from '../../errors.js'
import { closeReaders, type Job, type JobOutcome, runJob } from './jobs.js'
import { type JobRunner, Pool, type StartThread } from './pool.js'

/** Runs one job after another in this thread. */
export function inThisThread(signal?: AbortSignal): JobRunner {
  let before: Promise<unknown> = Promise.resolve()
  const runOne = async <J extends Job>(job: J, own: AbortSignal | undefined) => {
    // Lets timers and the caller's abort come through between two jobs.
    await new Promise((resolve) => setImmediate(resolve))
    const outcome = await runJob(job, own && signal ? AbortSignal.any([own, signal]) : (own ?? signal))
    if (own?.aborted) throw abortedBy(own)
    return outcome as JobOutcome<J['kind']>
  }
  return {
    width: 1,
    run(job, options = {}) {
      const outcome = before.then(() => runOne(job, options.signal))
      before = outcome.catch(() => undefined)
      return outcome
    },
    close: closeReaders,
  }
}

/**
 * Next to the built entries. Run from its sources, a batch has no such file and works in this thread unless given one.
 */
const WORKER_FILE = new URL('./batch-worker.js', import.meta.url)

/** Threads of Node that run a file. */
function startsFile(file: string | URL): StartThread {
  return ({ message, lost }) => {
    const worker = new Worker(file)
    worker.on('message', message)
    worker.on('error', lost)
    worker.on('exit', (code) => lost(new Error(`exit code ${code}`)))
    return {
      post: (said, transfer) => worker.postMessage(said, transfer as Transferable[]),
      end: () => worker.terminate(),
    }
  }
}

/**
 * A pool of worker threads. Where threads cannot be started (a bundle without the worker file, a platform without
 * them), the same jobs run in this thread.
 */
export async function createPool(
  size: number,
  options: { readonly signal?: AbortSignal; readonly workerFile?: string | URL } = {},
): Promise<JobRunner> {
  const { signal, workerFile } = options
  const pool = new Pool(size, startsFile(workerFile ?? WORKER_FILE))
  const stop = () => void pool.close()
  signal?.addEventListener('abort', stop, { once: true })
  try {
    await pool.open()
    return pool
  } catch {
    await pool.close()
    return inThisThread(signal)
  } finally {
    signal?.removeEventListener('abort', stop)
  }
}
