import { throwIfAborted } from '../../errors.js'
import type { Limits, Watch } from '../../limits.js'

/** The longest time that a timer can be set to. */
const LONGEST_TIMER = 2 ** 31 - 1

/**
 * The items of a source, until the signal fires or the time is over, even while the source is silent.
 *
 * @throws StoppedError `aborted` or `time-limit`
 */
export async function* within<Item>(
  items: AsyncIterable<Item> | Iterable<Item>,
  { signal, timeLimit }: Limits,
  watch: Watch,
): AsyncGenerator<Item> {
  if (signal === undefined && timeLimit === undefined) {
    yield* items
    return
  }
  const source =
    typeof items !== 'string' && Symbol.asyncIterator in items
      ? items[Symbol.asyncIterator]()
      : (items as Iterable<Item>)[Symbol.iterator]()
  let fail: ((reason: unknown) => void) | undefined
  let reason: unknown
  const stop = (error: unknown) => {
    reason ??= error
    fail?.(reason)
  }
  const onAbort = () => {
    try {
      throwIfAborted(signal)
    } catch (error) {
      stop(error)
    }
  }
  signal?.addEventListener('abort', onAbort)
  onAbort()
  const timer =
    timeLimit !== undefined && timeLimit <= LONGEST_TIMER
      ? setTimeout(() => stop(watch.timeIsOver()), timeLimit)
      : undefined
  let isOver = false
  try {
    for (;;) {
      const next = await new Promise<IteratorResult<Item>>((resolve, reject) => {
        fail = reject
        if (reason !== undefined) reject(reason)
        else Promise.resolve(source.next()).then(resolve, reject)
      })
      fail = undefined
      if (next.done) {
        isOver = true
        return
      }
      yield next.value
    }
  } finally {
    signal?.removeEventListener('abort', onAbort)
    clearTimeout(timer)
    // A source that was stopped while silent answers to this when it speaks again: not waited for.
    const closing = isOver ? undefined : Promise.resolve(source.return?.())
    if (reason === undefined) await closing
    else closing?.catch(() => {})
  }
}
