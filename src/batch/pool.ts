import { Worker } from 'node:worker_threads'
import { StoppedError } from '../errors.js'
import { closeReaders, type Job, type JobOutcome, type JobResults, runJob } from './jobs.js'

/** Runs jobs somewhere. Jobs never reject but for a pool that was closed. */
export interface JobRunner {
  /** Jobs that are worth handing in at once. */
  readonly width: number
  run<J extends Job>(job: J): Promise<JobOutcome<J['kind']>>
  close(): Promise<void>
}

/** Runs one job after another in this thread. */
export function inThisThread(signal?: AbortSignal): JobRunner {
  return {
    width: 1,
    async run<J extends Job>(job: J) {
      // Lets timers and the caller's abort come through between two jobs.
      await new Promise((resolve) => setImmediate(resolve))
      return (await runJob(job, signal)) as JobOutcome<J['kind']>
    },
    close: closeReaders,
  }
}

/**
 * Next to the built entries. Run from its sources, a batch has no such file and works in this thread unless given one.
 */
const WORKER_FILE = new URL('./batch-worker.js', import.meta.url)

interface Seat {
  readonly worker: Worker
  /** The job it is at. */
  busy: Waiting | undefined
}

interface Waiting {
  readonly job: Job
  settle(outcome: JobOutcome): void
  reject(error: Error): void
}

/**
 * A pool of worker threads. Where threads cannot be started (a bundle without the worker file, a platform without
 * them), the same jobs run in this thread.
 */
export async function createPool(
  size: number,
  options: { readonly signal?: AbortSignal; readonly workerFile?: string | URL } = {},
): Promise<JobRunner> {
  const pool = new Pool(size, options.workerFile ?? WORKER_FILE)
  try {
    await pool.open()
    return pool
  } catch {
    await pool.close()
    return inThisThread(options.signal)
  }
}

class Pool implements JobRunner {
  readonly width: number
  /** Every thread that lives, those that are still starting among them. */
  private readonly threads = new Set<Worker>()
  /** Threads that are ready. */
  private readonly seats = new Set<Seat>()
  private readonly queue: Waiting[] = []
  private opening = 0
  private closed = false

  constructor(
    private readonly size: number,
    private readonly workerFile: string | URL,
  ) {
    // Twice as many as there are threads, so that a thread finds its next job waiting.
    this.width = 2 * size
  }

  /** Starts the first thread; it is proof that threads work here. The others start when there is work for them. */
  open(): Promise<void> {
    return this.addSeat()
  }

  run<J extends Job>(job: J): Promise<JobOutcome<J['kind']>> {
    if (this.closed) return Promise.reject(closedError())
    return new Promise((resolve, reject) => {
      this.queue.push({
        job,
        settle: (outcome) => resolve(outcome as { ok: true; value: JobResults[J['kind']] }),
        reject,
      })
      this.next()
    })
  }

  async close(): Promise<void> {
    this.closed = true
    const waiting = [...this.queue.splice(0), ...[...this.seats].flatMap(({ busy }) => busy ?? [])]
    const ends = [...this.threads].map((worker) => worker.terminate())
    this.seats.clear()
    for (const { reject } of waiting) reject(closedError())
    await Promise.all(ends)
  }

  private next(): void {
    for (const seat of this.seats) {
      if (seat.busy) continue
      const waiting = this.queue.shift()
      if (!waiting) return
      seat.busy = waiting
      seat.worker.postMessage({ id: 0, job: waiting.job })
    }
    if (this.queue.length > 0 && this.seats.size + this.opening < this.size)
      this.addSeat().catch((error: Error) => this.giveUp(error))
  }

  /** With no thread left and none to be had, jobs that wait would wait for ever. */
  private giveUp(error: Error): void {
    if (this.seats.size + this.opening > 0) return
    const message = `No thread could be started for this job: ${error.message}.`
    for (const { settle } of this.queue.splice(0)) settle({ ok: false, error: { code: 'internal', message } })
  }

  private addSeat(): Promise<void> {
    this.opening++
    return new Promise((resolve, reject) => {
      const worker = new Worker(this.workerFile)
      this.threads.add(worker)
      const seat: Seat = { worker, busy: undefined }
      let ready = false
      worker.on('message', (message: 'ready' | { outcome: JobOutcome }) => {
        if (message === 'ready') {
          ready = true
          this.opening--
          if (!this.closed) this.seats.add(seat)
          resolve()
        } else {
          const { busy } = seat
          seat.busy = undefined
          busy?.settle(message.outcome)
        }
        this.next()
      })
      const lost = (error: Error) => {
        this.threads.delete(worker)
        if (!ready) {
          ready = true
          this.opening--
          reject(error)
        }
        if (!this.seats.delete(seat)) return
        const message = `The worker thread that had this job ended: ${error.message}.`
        seat.busy?.settle({ ok: false, error: { code: 'internal', message } })
        this.next()
      }
      worker.on('error', lost)
      worker.on('exit', (code) => lost(new Error(`exit code ${code}`)))
    })
  }
}

function closedError(): StoppedError {
  return new StoppedError('aborted', 'Stopped: the batch was closed before this job was done.')
}
