import { seededRandom } from '../../src/grid/random.js'
import { type Counts, type Fuzzer, FuzzFault } from './fuzzer.js'

export interface FuzzReport {
  readonly cases: number
  readonly counts: Counts
  readonly faults: number
  /** The first faults, each with the case it came up in: the same seed has the same cases. */
  readonly found: readonly { readonly case: number; readonly message: string }[]
  readonly seconds: number
}

/** When to stop: `case` is the number of the next one. */
export type Enough = (progress: { readonly case: number; readonly milliseconds: number }) => boolean

const MOST_TOLD = 5
/** Timers of a case get their turn after so many milliseconds at the latest. */
const TURN = 50

/** Runs cases of a fuzzer, one after another, from the first to be run until there are enough. */
export async function runFuzzer(
  fuzzer: Fuzzer,
  seed: number,
  enough: Enough,
  first = 0,
): Promise<FuzzReport> {
  const counts: Record<string, number> = {}
  const found: { case: number; message: string }[] = []
  const from = performance.now()
  let lastTurn = from
  let faults = 0
  let next = first
  for (; !enough({ case: next, milliseconds: performance.now() - from }); next++) {
    try {
      add(counts, await fuzzer.runCase(seededRandom(seedOf(fuzzer.name, seed, next))))
    } catch (error) {
      faults++
      if (found.length < MOST_TOLD) found.push({ case: next, message: messageOf(error) })
    }
    if (performance.now() - lastTurn < TURN) continue
    await new Promise((resolve) => setImmediate(resolve))
    lastTurn = performance.now()
  }
  return { cases: next - first, counts, faults, found, seconds: (performance.now() - from) / 1000 }
}

function add(sums: Record<string, number>, counts: Counts): void {
  for (const [name, count] of Object.entries(counts)) {
    const sum = sums[name] ?? 0
    sums[name] = name.startsWith('worst') ? Math.max(sum, count) : sum + count
  }
}

/** Every case has a random of its own, so that one can be run without those before it. */
function seedOf(name: string, seed: number, at: number): number {
  let hash = seed | 0
  for (const symbol of `${name} ${at}`) hash = Math.imul(hash ^ symbol.codePointAt(0)!, 0x01000193)
  return hash
}

function messageOf(error: unknown): string {
  if (error instanceof FuzzFault) return error.message
  return error instanceof Error ? (error.stack ?? error.message) : String(error)
}
