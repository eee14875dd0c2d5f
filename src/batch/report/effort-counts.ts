import { LEVELS, type Level } from '../../logic/level.js'

/** Puzzles of one span of effort. */
export interface EffortBin {
  /** From this effort on, up to that of the next bin. */
  readonly from: number
  readonly counts: Readonly<Record<Level, number>>
  readonly total: number
}

/** Starts of spans within a power of ten, about equal steps of a logarithmic scale. */
const STARTS = [1, 1.5, 2, 3, 5, 7] as const

/** Efforts of solved puzzles, four bytes each. */
export class EffortCounts {
  private efforts = new Float32Array(1024)
  private count = 0
  private readonly bins = new Map<number, Record<Level, number>>()

  add(level: Level, effort: number): void {
    if (this.count === this.efforts.length) {
      const larger = new Float32Array(2 * this.count)
      larger.set(this.efforts)
      this.efforts = larger
    }
    this.efforts[this.count++] = effort
    const bin = binOf(effort)
    const counts = this.bins.get(bin) ?? noCounts()
    counts[level]++
    this.bins.set(bin, counts)
  }

  get size(): number {
    return this.count
  }

  /** The effort that a share of the puzzles does not reach. */
  quantile(share: number): number {
    const sorted = this.efforts.slice(0, this.count).sort()
    return sorted[Math.min(this.count - 1, Math.floor(share * this.count))] ?? 0
  }

  /** All spans from the first with a puzzle to the last, those without any in between among them. */
  get histogram(): EffortBin[] {
    const numbers = [...this.bins.keys()]
    if (numbers.length === 0) return []
    const [first, last] = [Math.min(...numbers), Math.max(...numbers)]
    return Array.from({ length: last - first + 1 }, (_, i) => {
      const counts = this.bins.get(first + i) ?? noCounts()
      return {
        from: startOf(first + i),
        counts,
        total: LEVELS.reduce((sum, level) => sum + counts[level], 0),
      }
    })
  }
}

function noCounts(): Record<Level, number> {
  return Object.fromEntries(LEVELS.map((level) => [level, 0])) as Record<Level, number>
}

export function startOf(bin: number): number {
  const power = Math.floor(bin / STARTS.length)
  return STARTS[bin - power * STARTS.length]! * 10 ** power
}

function binOf(effort: number): number {
  if (effort < 1) return 0
  const power = Math.floor(Math.log10(effort))
  let bin = power * STARTS.length
  while (startOf(bin + 1) <= effort) bin++
  return bin
}
