import { abortedBy, type StoppedError } from '../errors.js'
import { type Limits, Watch } from '../limits.js'

/** The longest time a timer can be set for; more is as good as none. */
const LONGEST_TIMER = 2 ** 31 - 1

/**
 * Ends when the work ends, its time is over or the caller's signal fires, whichever is first. Work that cannot be
 * interrupted (decoding in other threads) is left to itself then; all other work must look at the signal that it is
 * given.
 *
 * @throws StoppedError `time-limit` or `aborted`
 */
export async function withinLimits<T>(limits: Limits, work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const watch = new Watch(limits)
  const { signal, timeLimit = Number.POSITIVE_INFINITY } = limits
  const stop = new AbortController()
  let timer: ReturnType<typeof setTimeout> | undefined
  let abort = () => {}
  const stopped = new Promise<never>((_, reject) => {
    const stopWith = (error: StoppedError) => {
      reject(error)
      stop.abort(error)
    }
    abort = () => stopWith(abortedBy(signal!))
    signal?.addEventListener('abort', abort)
    if (timeLimit <= LONGEST_TIMER) timer = setTimeout(() => stopWith(watch.timeIsOver()), timeLimit)
  })
  try {
    const working = work(stop.signal)
    // may fail later, when nobody listens any more
    working.catch(() => {})
    return await Promise.race([working, stopped])
  } finally {
    clearTimeout(timer)
    signal?.removeEventListener('abort', abort)
  }
}
