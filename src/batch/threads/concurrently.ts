/** How many things go on at once, and how far one may get ahead of another. */
export interface Flow<T> {
  /** Most that run at once. */
  readonly width: number
  /** Most that may be held, running or done and waiting for their turn, in the units of `weigh`. */
  readonly room: number
  weigh(item: T): number
  /** Results in the order of the source, or as they are done? */
  readonly isOrdered: boolean
  /** Stops the reading at once, even while the source is silent. */
  readonly signal?: AbortSignal | undefined
}

interface Held<R> {
  readonly weight: number
  outcome?: { readonly value: R } | { readonly error: unknown }
}

/**
 * Runs an asynchronous function over a source, `width` at a time, and yields the results. Two bounds, since one alone
 * either starves the workers behind a slow item or fills the memory: how many run at once, and how much is held,
 * results that wait for a slow one before them among it. While that is used up nothing more is read, so neither an
 * endless source nor a slow reader fills the memory.
 */
export async function* concurrently<T, R>(
  source: AsyncIterable<T> | Iterable<T>,
  flow: Flow<T>,
  run: (item: T) => Promise<R>,
): AsyncGenerator<R> {
  const { width, room, weigh, isOrdered, signal } = flow
  /** Results to come, in the order they are to come out. */
  const held: Held<R>[] = []
  let first = 0
  let load = 0
  let running = 0
  /** How the source ended. */
  const ending: { reached?: true; error?: unknown } = {}
  let isStopped = false
  const reader = waker()
  const feeder = waker()

  const take = (item: T) => {
    const entry: Held<R> = { weight: weigh(item) }
    load += entry.weight
    running++
    if (isOrdered) held.push(entry)
    run(item)
      .then(
        (value) => {
          entry.outcome = { value }
        },
        (error: unknown) => {
          entry.outcome = { error }
        },
      )
      .then(() => {
        running--
        if (!isOrdered) held.push(entry)
        reader.wake()
        feeder.wake()
      })
  }
  const iterator = Symbol.asyncIterator in source ? source[Symbol.asyncIterator]() : source[Symbol.iterator]()
  const feed = async () => {
    try {
      for (;;) {
        while (!isStopped && (running >= width || load >= room)) await feeder.turn()
        if (isStopped) return
        const next = await iterator.next()
        if (next.done) break
        if (isStopped) return
        take(next.value)
      }
    } catch (error) {
      ending.error = error
    }
    ending.reached = true
    reader.wake()
  }
  const onAbort = () => reader.wake()
  signal?.addEventListener('abort', onAbort, { once: true })
  void feed()
  try {
    while (!signal?.aborted) {
      const entry = held[first]
      if (entry?.outcome) {
        first++
        if (first >= TAKEN) {
          held.splice(0, first)
          first = 0
        }
        load -= entry.weight
        feeder.wake()
        if ('error' in entry.outcome) throw entry.outcome.error
        yield entry.outcome.value
      } else if (!entry && running === 0 && ending.reached) {
        if ('error' in ending) throw ending.error
        return
      } else await reader.turn()
    }
  } finally {
    isStopped = true
    signal?.removeEventListener('abort', onAbort)
    feeder.wake()
    // A source that is silent answers to this when it speaks again: not waited for.
    void Promise.resolve(iterator.return?.()).catch(() => undefined)
  }
}

/** Entries taken before the list is cut: one by one, a long list would be copied each time. */
const TAKEN = 1024

/** Lets one wait until another says that something has changed; what was said before the wait counts. */
function waker(): { wake(): void; turn(): Promise<void> } {
  let isAwake = false
  let go: (() => void) | undefined
  return {
    wake() {
      isAwake = true
      go?.()
    },
    async turn() {
      if (!isAwake)
        await new Promise<void>((resolve) => {
          go = resolve
        })
      go = undefined
      isAwake = false
    },
  }
}
