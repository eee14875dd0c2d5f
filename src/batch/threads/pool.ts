import { abortedBy, StoppedError } from '../../errors.js'
import type { Job, JobOutcome } from './jobs.js'

export interface RunOptions {
  /** Stops this job alone, which then rejects with `aborted`. */
  readonly signal?: AbortSignal
  /** What the thread may take over instead of copying it, such as the buffer of a picture's bytes. */
  readonly transfer?: readonly object[]
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

/**
 * Jobs that a thread has at once: the one it is at, and others that wait in its own queue, so that it need not wait for
 * this thread, which may be busy reading. `README.md` has the measurement.
 */
export const JOBS_A_THREAD = 4

/** A thread that runs jobs: one of Node, or a web worker. */
export interface Thread {
  post(message: ToWorker, transfer: readonly object[]): void
  end(): Promise<unknown>
}

/** Starts a thread, and tells what it says and when it is lost. */
export type StartThread = (heard: { message(message: ToPool): void; lost(error: Error): void }) => Thread

interface Seat {
  readonly thread: Thread
  /** Jobs it was given, the one it is at first. */
  readonly given: Map<number, Waiting>
}

interface Waiting {
  readonly id: number
  readonly job: Job
  readonly transfer: readonly object[]
  settle(outcome: JobOutcome): void
  reject(error: Error): void
}

/** A pool of threads that are alike. */
export class Pool implements JobRunner {
  readonly width: number
  /** Every thread that lives, those that are still starting among them. */
  private readonly threads = new Set<Thread>()
  /** Threads that are ready. */
  private readonly seats = new Set<Seat>()
  /** Jobs that no thread has, in order. */
  private readonly queue = new Map<number, Waiting>()
  private opening = 0
  private closed = false
  private lastId = 0

  constructor(
    private readonly size: number,
    private readonly start: StartThread,
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
    const ends = [...this.threads].map((thread) => thread.end())
    this.seats.clear()
    this.queue.clear()
    for (const { reject } of waiting) reject(closedError())
    await Promise.all(ends)
  }

  /** A job that nobody waits for any more. */
  private stop(id: number): void {
    if (this.queue.delete(id)) return
    for (const { thread, given } of this.seats) if (given.has(id)) thread.post({ stop: id }, [])
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
        seat.thread.post({ id: waiting.id, job: waiting.job }, waiting.transfer)
      }
      if (most === 1 && this.queue.size > 0 && this.seats.size + this.opening < this.size)
        this.addSeat().catch((error: Error) => this.giveUp(error))
    }
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
      let ready = false
      const message = (said: ToPool) => {
        if (said === 'ready') {
          ready = true
          this.opening--
          if (!this.closed) this.seats.add(seat)
          resolve()
        } else {
          const waiting = seat.given.get(said.id)
          seat.given.delete(said.id)
          waiting?.settle(said.outcome)
        }
        this.next()
      }
      const lost = (error: Error) => {
        this.threads.delete(thread)
        if (!ready) {
          ready = true
          this.opening--
          reject(error)
        }
        if (this.seats.delete(seat)) this.lose(seat, error)
      }
      const thread = this.start({ message, lost })
      const seat: Seat = { thread, given: new Map() }
      this.threads.add(thread)
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
