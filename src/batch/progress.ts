/** How far a batch is. */
export interface BatchProgress {
  /** Records so far, errors and skipped files among them. */
  readonly done: number
  /** How many there will be; known once the input has been read to its end. */
  readonly total?: number
  readonly errors: number
  readonly skipped: number
  /** Bytes of the input that the records so far stand for. */
  readonly bytes: number
  /** Bytes of the whole input; known once all files have been looked up, and never for pipes and streams. */
  readonly totalBytes?: number
  /** Milliseconds since the batch began. */
  readonly elapsed: number
  /** Records a second, of the last few seconds. */
  readonly rate: number
  /** Milliseconds that the rest will take at that rate; known once `total` or `totalBytes` is. */
  readonly timeLeft?: number
  /** The file the last record came from. */
  readonly file: string
}

/** Milliseconds over which the rate is taken. */
const LATELY = 10_000
const SAMPLES = 20

/** Milliseconds after which progress is reported again though no record has come. */
export const SILENCE = 500

interface Sample {
  readonly time: number
  readonly done: number
  readonly bytes: number
}

/** Keeps the counts of a batch. */
export class ProgressCounter {
  /** Bytes of the whole input, once known. */
  totalBytes: number | undefined
  /** Has the batch ended, or been broken off? */
  isOver = false
  /** Pieces read so far, of which `piecesDone` are done, and whether these are all. */
  private piecesRead = 0
  private piecesDone = 0
  private isReadUp = false
  private done = 0
  private errors = 0
  private skipped = 0
  private bytes = 0
  private file = ''
  private readonly begin = performance.now()
  private samples: Sample[] = [{ time: this.begin, done: 0, bytes: 0 }]

  /** Counts the pieces of the input on their way. */
  async *watch<T>(pieces: AsyncIterable<T>): AsyncGenerator<T> {
    for await (const piece of pieces) {
      this.piecesRead++
      yield piece
    }
    this.isReadUp = true
  }

  /**
   * Counts the records of a piece.
   *
   * @param bytes of the input up to its end
   */
  add(records: readonly { readonly file: string }[], bytes: number): void {
    this.piecesDone++
    // out of order, a piece may stand for fewer bytes than one before
    this.bytes = Math.max(this.bytes, bytes)
    for (const record of records) {
      this.done++
      if ('error' in record) this.errors++
      if ('skipped' in record) this.skipped++
      this.file = record.file
    }
  }

  /** Counts a record that a run before this one has made, which says nothing of the rate. */
  addEarlier(record: object): void {
    this.done++
    if ('error' in record) this.errors++
    if ('skipped' in record) this.skipped++
    this.begins()
  }

  /** Goes past a piece that a run before this one has done. */
  pass(bytes: number): void {
    this.bytes = Math.max(this.bytes, bytes)
    this.begins()
  }

  private begins(): void {
    this.samples = [{ time: this.samples[0]!.time, done: this.done, bytes: this.bytes }]
  }

  get progress(): BatchProgress {
    const now = performance.now()
    const from = this.samples[0]!
    const seconds = (now - from.time) / 1000
    const rate = seconds > 0 ? (this.done - from.done) / seconds : 0
    const timeLeft = this.timeLeft(seconds, from)
    this.sample(now)
    const { done, total, errors, skipped, bytes, totalBytes, file } = this
    return {
      done,
      ...(total !== undefined && { total }),
      errors,
      skipped,
      bytes,
      ...(totalBytes !== undefined && { totalBytes }),
      elapsed: now - this.begin,
      rate,
      ...(timeLeft !== undefined && { timeLeft }),
      file,
    }
  }

  /** All records, once the input has been read; a page that is not done yet counts as one. */
  private get total(): number | undefined {
    return this.isReadUp ? this.done + this.piecesRead - this.piecesDone : undefined
  }

  private timeLeft(seconds: number, from: Sample): number | undefined {
    const { done, total, bytes, totalBytes } = this
    const [gone, left] =
      total !== undefined
        ? [done - from.done, total - done]
        : [bytes - from.bytes, (totalBytes ?? Number.NaN) - bytes]
    if (left === 0) return 0
    return gone > 0 && seconds > 0 && left > 0 ? (left * seconds * 1000) / gone : undefined
  }

  private sample(time: number): void {
    const { done, bytes, samples } = this
    if (time - samples.at(-1)!.time < LATELY / SAMPLES) return
    samples.push({ time, done, bytes })
    while (samples.length > 2 && time - samples[1]!.time >= LATELY) samples.shift()
  }
}
