import { type Transferable, Worker } from 'node:worker_threads'
import { abortedBy, StoppedError } from '../../errors.js'
import { closeReaders, type Job, type JobOutcome, runJob } from './jobs.js'

export interface RunOptions {
  /** Stops this job alone, which then rejects with `aborted`. */
  readonly signal?: AbortSignal
  /** What the thread may take over instead of copying it, such as the buffer of a picture's bytes. */
  readonly transfer?: readonly Transferable[]
}

/** Runs jobs somewhere. Jobs never reject but for a pool that was closed, or their own signal. */
export interface JobRunner {
  /** Jobs that are worth handing in at once. */
  readonly width: number
  run<J extends Job>(job: J, options?: RunOptions): Promise<JobOutcome<J['kind']>>
  close(): Promise<void>
}

export type ToWorker = { readonly id: number; readonly job: Job } | { readonly stop: number }
export type ToPool = 'ready' | { readonly id: number; readonly outcome: JobOutcome }

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

/**
 * Jobs that a thread has at once: the one it is at, and others that wait in its own queue, so that it need not wait for
 * this thread, which may be busy reading. `README.md` has the measurement.
 */
export const JOBS_A_THREAD = 4

interface Seat {
  readonly worker: Worker
  /** Jobs it was given, the one it is at first. */
  readonly given: Map<number, Waiting>
}

interface Waiting {
  readonly id: number
  readonly job: Job
  readonly transfer: readonly Transferable[]
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
  const { signal, workerFile } = options
  const pool = new Pool(size, workerFile ?? WORKER_FILE)
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

class Pool implements JobRunner {
  readonly width: number
  /** Every thread that lives, those that are still starting among them. */
  private readonly threads = new Set<Worker>()
  /** Threads that are ready. */
  private readonly seats = new Set<Seat>()
  /** Jobs that no thread has, in order. */
  private readonly queue = new Map<number, Waiting>()
  private opening = 0
  private closed = false
  private lastId = 0

  constructor(
    private readonly size: number,
    private readonly workerFile: string | URL,
  ) {
    this.width = JOBS_A_THREAD * size
  }

  /** Starts the first thread; it is proof that threads work here. The others start when there is work for them. */
  open(): Promise<void> {
    return this.addSeat()
  }

  run<J extends Job>(job: J, { signal, transfer = [] }: RunOptions = {}): Promise<JobOutcome<J['kind']>> {
    if (this.closed) return Promise.reject(closedError())
    if (signal?.aborted) return Promise.reject(abortedBy(signal))
    const id = ++this.lastId
    return new Promise<JobOutcome>((resolve, reject) => {
      const stop = () => {
        this.stop(id)
        reject(abortedBy(signal!))
      }
      signal?.addEventListener('abort', stop, { once: true })
      const heard =
        <T>(answer: (value: T) => void) =>
        (value: T) => {
          signal?.removeEventListener('abort', stop)
          answer(value)
        }
      this.queue.set(id, { id, job, transfer, settle: heard(resolve), reject: heard(reject) })
      this.next()
    }) as Promise<JobOutcome<J['kind']>>
  }

  async close(): Promise<void> {
    this.closed = true
    const waiting = [...[...this.seats].flatMap(({ given }) => [...given.values()]), ...this.queue.values()]
    const ends = [...this.threads].map((worker) => worker.terminate())
    this.seats.clear()
    this.queue.clear()
    for (const { reject } of waiting) reject(closedError())
    await Promise.all(ends)
  }

  /** A job that nobody waits for any more. */
  private stop(id: number): void {
    if (this.queue.delete(id)) return
    for (const { worker, given } of this.seats) if (given.has(id)) this.say(worker, { stop: id })
  }

  /** Every thread gets its first job before one gets a second. */
  private next(): void {
    for (let most = 1; most <= JOBS_A_THREAD && this.queue.size > 0; most++) {
      for (const seat of this.seats) {
        if (seat.given.size >= most) continue
        const [waiting] = this.queue.values()
        if (!waiting) break
        this.queue.delete(waiting.id)
        seat.given.set(waiting.id, waiting)
        this.say(seat.worker, { id: waiting.id, job: waiting.job }, waiting.transfer)
      }
      if (most === 1 && this.queue.size > 0 && this.seats.size + this.opening < this.size)
        this.addSeat().catch((error: Error) => this.giveUp(error))
    }
  }

  private say(worker: Worker, message: ToWorker, transfer: readonly Transferable[] = []): void {
    worker.postMessage(message, transfer)
  }

  /** With no thread left and none to be had, jobs that wait would wait for ever. */
  private giveUp(error: Error): void {
    if (this.seats.size + this.opening > 0) return
    const message = `No thread could be started for this job: ${error.message}.`
    const waiting = [...this.queue.values()]
    this.queue.clear()
    for (const { settle } of waiting) settle({ ok: false, error: { code: 'internal', message } })
  }

  private addSeat(): Promise<void> {
    this.opening++
    return new Promise((resolve, reject) => {
      const worker = new Worker(this.workerFile)
      this.threads.add(worker)
      const seat: Seat = { worker, given: new Map() }
      let ready = false
      worker.on('message', (message: ToPool) => {
        if (message === 'ready') {
          ready = true
          this.opening--
          if (!this.closed) this.seats.add(seat)
          resolve()
        } else {
          const waiting = seat.given.get(message.id)
          seat.given.delete(message.id)
          waiting?.settle(message.outcome)
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
        if (this.seats.delete(seat)) this.lose(seat, error)
      }
      worker.on('error', lost)
      worker.on('exit', (code) => lost(new Error(`exit code ${code}`)))
    })
  }

  /** The job that a thread was at is lost with it; those that waited for their turn go to others. */
  private lose({ given }: Seat, error: Error): void {
    const [current, ...others] = given.values()
    const queued = [...this.queue.values()]
    this.queue.clear()
    // a job whose buffers went to the thread cannot be handed out once more
    const [moved, gone] = [others.filter(isWhole), others.filter((waiting) => !isWhole(waiting))]
    for (const waiting of [...moved, ...queued]) this.queue.set(waiting.id, waiting)
    const message = `The worker thread that had this job ended: ${error.message}.`
    for (const { settle } of [...(current ? [current] : []), ...gone])
      settle({ ok: false, error: { code: 'internal', message } })
    this.next()
  }
}

function isWhole({ transfer }: Waiting): boolean {
  return transfer.length === 0
}

function closedError(): StoppedError {
  return new StoppedError('aborted', 'Stopped: the batch was closed before this job was done.')
}
