import type { Chunk } from './unpack.js'

/**
 * How many bytes of a file lie before a line, to within a line or so: the reader of text says lines, and progress is
 * counted in bytes. What is packed counts as its packed bytes.
 */
export class LinePlaces {
  private lines = 0
  /** Chunks that may hold lines still asked for: lines and bytes at their ends. */
  private readonly ends: { readonly lines: number; readonly bytes: number }[]

  /**
   * @param start bytes before the first line
   * @param bytes read so far, as the source counts them
   */
  constructor(
    start: number,
    private readonly bytes: () => number,
  ) {
    this.ends = [{ lines: 0, bytes: start }]
  }

  async *watch(chunks: AsyncIterable<Chunk>): AsyncGenerator<Chunk> {
    for await (const chunk of chunks) {
      this.lines += newlines(chunk)
      this.ends.push({ lines: this.lines, bytes: this.bytes() })
      yield chunk
    }
  }

  /** Bytes before the end of a line; lines are asked for in order. */
  before(line: number): number {
    while (this.ends.length > 2 && this.ends[1]!.lines < line) this.ends.shift()
    const [from, to] = this.ends
    if (!to || to.lines === from!.lines) return from!.bytes
    const share = Math.min(1, Math.max(0, (line - from!.lines) / (to.lines - from!.lines)))
    return Math.round(from!.bytes + share * (to.bytes - from!.bytes))
  }
}

function newlines(chunk: Chunk): number {
  let count = 0
  const text =
    typeof chunk === 'string' ? chunk : Buffer.from(chunk.buffer, chunk.byteOffset, chunk.byteLength)
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) count++
  return count
}
