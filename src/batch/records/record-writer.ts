import type { GridreasonError } from '../../errors.js'
import type { RecordSink } from './record-sink.js'

/** Characters that may wait for the disk before the batch does. */
const MOST_WAITING = 2 ** 20

/** Writes what has come since the last write, while more comes. */
export class RecordWriter {
  failure: GridreasonError | undefined
  private readonly controller = new AbortController()
  private waiting: string
  private writing: Promise<void> | undefined

  constructor(
    private readonly sink: RecordSink,
    header: string,
  ) {
    this.waiting = header
  }

  /** Fires when a write fails. */
  get signal(): AbortSignal {
    return this.controller.signal
  }

  async add(lines: string): Promise<void> {
    this.waiting += lines
    this.writing ??= this.drain()
    if (this.waiting.length > MOST_WAITING) await this.writing
  }

  async end(): Promise<void> {
    await this.writing
    await this.drain()
  }

  private async drain(): Promise<void> {
    while (this.waiting !== '' && !this.failure) {
      const lines = this.waiting
      this.waiting = ''
      await this.sink.write(lines).catch((failure: GridreasonError) => {
        this.failure = failure
        this.controller.abort()
      })
    }
    this.writing = undefined
  }
}
