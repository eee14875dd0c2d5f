import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { throwIfAborted } from '../../errors.js'
import { readLines, writeLines } from './line-file.js'

export interface SortOptions {
  /** Where what does not fit into memory goes; the folder is the caller's to remove. */
  readonly folder: string
  /** Bytes of memory for lines, roughly. */
  readonly memory: number
  readonly signal?: AbortSignal | undefined
}

/** Bytes that a string takes besides its characters, and its place in a list. */
const STRING_BYTES = 32

/** Sorted files that are read at once, each with a buffer of its own. */
const MOST_RUNS = 64

/**
 * Sorts lines by their characters' codes, in bounded memory whatever their number: sorted pieces go to the disk and are
 * merged. Lines have no line ends in them.
 */
export class LineSorter {
  private lines: string[] = []
  private bytes = 0
  private readonly runs: string[] = []
  private count = 0

  constructor(
    private readonly name: string,
    private readonly options: SortOptions,
  ) {}

  async add(line: string): Promise<void> {
    this.lines.push(line)
    this.bytes += 2 * line.length + STRING_BYTES
    if (this.bytes > this.options.memory) await this.spill()
  }

  /** All lines, sorted; to be read once. */
  async *sorted(): AsyncGenerator<string> {
    if (this.runs.length === 0) {
      yield* this.lines.sort()
      this.lines = []
      return
    }
    if (this.lines.length > 0) await this.spill()
    while (this.runs.length > MOST_RUNS) {
      const some = this.runs.splice(0, MOST_RUNS)
      await this.write(merged(some, this.options.signal))
      for (const run of some) await rm(run)
    }
    yield* merged(this.runs, this.options.signal)
    for (const run of this.runs.splice(0)) await rm(run)
  }

  private async spill(): Promise<void> {
    const lines = this.lines.sort()
    this.lines = []
    this.bytes = 0
    await this.write(lines)
  }

  private async write(lines: Iterable<string> | AsyncIterable<string>): Promise<void> {
    throwIfAborted(this.options.signal)
    const run = join(this.options.folder, `${this.name}-${this.count++}`)
    await writeLines(run, lines)
    this.runs.push(run)
  }
}

async function* merged(runs: readonly string[], signal: AbortSignal | undefined): AsyncGenerator<string> {
  const heads: Head[] = []
  try {
    for (const run of runs) {
      const lines = readLines(run)
      const first = await lines.next()
      if (!first.done) heads.push({ line: first.value, lines })
    }
    heads.sort((a, b) => (a.line < b.line ? -1 : 1))
    for (let turn = 0; heads.length > 0; turn++) {
      if (turn % 4096 === 0) throwIfAborted(signal)
      const head = heads[0]!
      yield head.line
      const next = await head.lines.next()
      if (next.done) heads.shift()
      else {
        head.line = next.value
        settle(heads)
      }
    }
  } finally {
    for (const { lines } of heads) await lines.return(undefined)
  }
}

interface Head {
  line: string
  readonly lines: AsyncGenerator<string>
}

/** Moves the first head to where its line belongs among the others, which are in order. */
function settle(heads: Head[]): void {
  const head = heads[0]!
  let [low, high] = [1, heads.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (heads[middle]!.line < head.line) low = middle + 1
    else high = middle
  }
  heads.copyWithin(0, 1, low)
  heads[low - 1] = head
}
