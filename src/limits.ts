import { abortSignal, amount, type OptionChecks } from './check-arguments.js'
import { InputError, type Signal, StoppedError, throwIfAborted } from './errors.js'

/**
 * How long a call may take. A plain call keeps the thread to itself, so it can only keep its time limit (a signal must
 * have fired before it is called); the `…Async` form lets other work run every few milliseconds and stops on either.
 */
export interface Limits {
  /** Milliseconds the call may take; as long as it needs when left out. */
  readonly timeLimit?: number
  /** Stops the call, which then throws a StoppedError `aborted`. */
  readonly signal?: Signal
}

/** For the public entries that take limits. */
export const LIMIT_CHECKS: OptionChecks<Limits> = { timeLimit: amount(0), signal: abortSignal }

/** What an unfinished answer says about why it is unfinished. */
export type StoppedBy = 'time-limit'

/** What a look at the clock says: go on, let other work run first, or stop. */
export type Look = 'go' | 'pause' | 'over'

/** Milliseconds of work between two turns of other work in an asynchronous call. */
const SLICE = 8

/**
 * Looks between two readings of the clock. A look costs a few nanoseconds and a reading some fifty; loops look once in
 * a turn that takes microseconds to some milliseconds, so a few of them are still well within what limits promise.
 */
const LOOKS_A_READING = 4

// Not `Date`, whose time can be set while the call is running.
const clock = globalThis.performance ?? Date

/** The clock of one call: asked from its outer loops whether it may go on. */
export class Watch {
  /** Will the clock ever matter? */
  readonly isTimed: boolean
  private readonly signal: Signal | undefined
  private readonly timeLimit: number
  private readonly deadline: number
  private readonly slice: number
  private sliceEnd: number
  private untilReading = 1
  private latest: Look = 'go'

  /**
   * @param slice milliseconds after which other work should run; never, unless the call is asynchronous
   * @throws StoppedError `aborted` when the signal has fired already; InputError `argument` for a time limit that is
   *   none
   */
  constructor({ timeLimit = Number.POSITIVE_INFINITY, signal }: Limits, slice = Number.POSITIVE_INFINITY) {
    if (!(timeLimit >= 0))
      throw new InputError('argument', `timeLimit must be milliseconds from 0, not ${timeLimit}`)
    throwIfAborted(signal)
    this.signal = signal
    this.timeLimit = timeLimit
    this.slice = slice
    this.isTimed = slice < Number.POSITIVE_INFINITY || timeLimit < Number.POSITIVE_INFINITY
    const now = this.isTimed ? clock.now() : 0
    if (!this.isTimed) this.untilReading = Number.POSITIVE_INFINITY
    this.deadline = now + timeLimit
    this.sliceEnd = now + slice
  }

  /** Reads the clock. Once the time is over it stays over. */
  read(): Look {
    if (!this.isTimed) return 'go'
    this.untilReading = LOOKS_A_READING
    const time = clock.now()
    this.latest = time >= this.deadline ? 'over' : time >= this.sliceEnd ? 'pause' : 'go'
    return this.latest
  }

  /** The same for loops whose turns are short: most of the time this is what the clock said last. */
  look(): Look {
    return --this.untilReading > 0 ? this.latest : this.read()
  }

  /**
   * `look` for work that has nothing to show for itself before it is done: true when other work should run.
   *
   * @param look what a reading said, where the work since the last look was long
   * @throws StoppedError `time-limit`
   */
  isDue(look = this.look()): boolean {
    if (look === 'over') throw this.timeIsOver()
    return look === 'pause'
  }

  /** Other work has run: the signal may have fired, and a new slice begins. */
  resume(): void {
    throwIfAborted(this.signal)
    this.sliceEnd = clock.now() + this.slice
    this.latest = 'go'
    this.untilReading = 1
  }

  timeIsOver(): StoppedError {
    return new StoppedError(
      'time-limit',
      `The time limit of ${this.timeLimit} ms was over before the work was done; allow more time or ask for less.`,
    )
  }
}

/** For all calls without limits: small questions are asked by the thousand, and do without a clock of their own. */
export const UNTIMED = new Watch({})

export function isUntimed({ timeLimit, signal }: Limits): boolean {
  return timeLimit === undefined && signal === undefined
}

/**
 * Work that can be paused: it yields where its watch says `pause`, holding nothing then that other work of this thread
 * could change. What it returns is its answer.
 */
export type Task<Answer> = Generator<undefined, Answer, undefined>

/** Runs a task to its end at once, within its time limit. */
export function runNow<Answer>(limits: Limits, begin: (watch: Watch) => Task<Answer>): Answer {
  const end = begin(isUntimed(limits) ? UNTIMED : new Watch(limits)).next()
  // without slices a watch never says `pause`
  if (!end.done) throw new Error('A task paused in a call that is not asynchronous.')
  return end.value
}

/** Runs a task in slices of a few milliseconds, between which other work of the thread runs. */
export async function runInSlices<Answer>(
  limits: Limits,
  begin: (watch: Watch) => Task<Answer>,
): Promise<Answer> {
  const watch = slicedWatch(limits)
  return inSlices(begin(watch), watch)
}

/** The clock of an asynchronous call that is made of several tasks. */
export function slicedWatch(limits: Limits): Watch {
  return new Watch(limits, SLICE)
}

/** Runs a task in slices, by a clock that may serve other tasks of the same call as well. */
export async function inSlices<Answer>(task: Task<Answer>, watch: Watch): Promise<Answer> {
  for (;;) {
    const end = task.next()
    if (end.done) return end.value
    await nextTurn()
    try {
      watch.resume()
    } catch (stopped) {
      // lets the task hand back what it has borrowed
      task.return(undefined as never)
      throw stopped
    }
  }
}

/** Runs the tasks of one call one after another, at once, within one time limit. Between them the signal may fire. */
export function nowRunner(limits: Limits): <Answer>(begin: (watch: Watch) => Task<Answer>) => Answer {
  const watch = new Watch(limits)
  return (begin) => {
    watch.resume()
    const end = begin(watch).next()
    if (!end.done) throw new Error('A task paused in a call that is not asynchronous.')
    return end.value
  }
}

/** The same in slices, as `runInSlices` runs one task. */
export function slicesRunner(
  limits: Limits,
): <Answer>(begin: (watch: Watch) => Task<Answer>) => Promise<Answer> {
  const watch = slicedWatch(limits)
  return async (begin) => {
    watch.resume()
    return inSlices(begin(watch), watch)
  }
}

interface Platform {
  readonly setImmediate?: (go: () => void) => unknown
  readonly MessageChannel?: new () => {
    readonly port1: { onmessage: (() => void) | null; close(): void }
    readonly port2: { postMessage(message: undefined): void }
  }
}

/**
 * Resolves after timers, clicks and messages that wait have had their turn. `setTimeout` comes last, as browsers make
 * it wait four milliseconds once it has been set several times over.
 */
export function nextTurn(): Promise<void> {
  const { setImmediate, MessageChannel } = globalThis as unknown as Platform
  return new Promise((resolve) => {
    if (setImmediate) setImmediate(resolve)
    else if (MessageChannel) {
      const { port1, port2 } = new MessageChannel()
      port1.onmessage = () => {
        port1.close()
        resolve()
      }
      port2.postMessage(undefined)
    } else setTimeout(resolve, 0)
  })
}
