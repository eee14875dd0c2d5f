import type { Task, Watch } from '../limits.js'

/**
 * Techniques keep what they worked out about a board in lists that all boards share (`facts.ts`, `path-memory.ts`,
 * `links/`): whoever looks at another board, or at the same for another call, writes over it. A technique that pauses
 * in the middle needs its lists as they were. So of the calls that run in slices one at a time may be in the middle of
 * a technique; the others wait for their turn. A call that runs at once cannot wait: the technique in the middle begins
 * again after it.
 */
let latestUse = 0

/** Calls in slices that are in the middle of a technique (the first) or wait to begin one. */
const line: object[] = []

/** To be called before any technique looks at a board. */
export function useMemory(): number {
  return ++latestUse
}

/**
 * Runs a technique that may pause, so that it finds its lists as it left them.
 *
 * @param begin called again where other work has used the lists: what the technique has reported it reports again
 */
export function* withMemory(watch: Watch, begin: () => Task<void>): Task<void> {
  if (!watch.isSliced) {
    useMemory()
    return yield* begin()
  }
  const self = {}
  line.push(self)
  try {
    while (line[0] !== self) {
      yield
      watch.isDue()
    }
    // Begun anew time and again it would never end, so each time it runs twice as long before it pauses.
    for (let slices = 1; ; slices *= 2) {
      if (yield* runUndisturbed(watch, begin(), slices)) return
    }
  } finally {
    line.splice(line.indexOf(self), 1)
  }
}

/** True at the end; false when other work has used the lists in a pause. */
function* runUndisturbed(watch: Watch, task: Task<void>, slices: number): Task<boolean> {
  const use = useMemory()
  for (let left = slices; ; ) {
    if (task.next().done) return true
    if (--left > 0) watch.beginSlice()
    else {
      yield
      left = slices
      if (use !== latestUse) return false
    }
  }
}
