import type { FileHandle } from 'node:fs/promises'
import type { GradeRecord } from './grade-record.js'
import type { RecordFormat } from './record-format.js'
import { fittedRecord } from './record-shape.js'

/** A line of a file of records, without its end, and where its end is. */
export interface RecordLine {
  readonly text: string
  /** Bytes of the file up to and with its end. */
  readonly end: number
}

const LF = 10
const CR = 13
const QUOTE = 34

/**
 * The lines of a file that are whole; what comes after the last line end is none.
 *
 * @param hasQuotes is a line end within quotes part of the line?
 */
export async function* recordLines(
  chunks: AsyncIterable<Uint8Array>,
  hasQuotes: boolean,
): AsyncGenerator<RecordLine> {
  const parts: Uint8Array[] = []
  let before = 0
  let isQuoted = false
  for await (const chunk of chunks) {
    let from = 0
    for (let at = nextEnd(chunk, 0); at < chunk.length; at = nextEnd(chunk, at + 1)) {
      if (chunk[at] === QUOTE) isQuoted = !isQuoted
      else if (!isQuoted) {
        parts.push(chunk.subarray(from, at))
        yield { text: textOf(parts), end: before + at + 1 }
        parts.length = 0
        from = at + 1
      }
    }
    if (from < chunk.length) parts.push(chunk.subarray(from))
    before += chunk.length
  }

  function nextEnd(chunk: Uint8Array, from: number): number {
    if (!hasQuotes) {
      const end = chunk.indexOf(LF, from)
      return end < 0 ? chunk.length : end
    }
    let at = from
    while (at < chunk.length && chunk[at] !== LF && chunk[at] !== QUOTE) at++
    return at
  }
}

function textOf(parts: readonly Uint8Array[]): string {
  const line =
    parts.length === 1
      ? Buffer.from(parts[0]!.buffer, parts[0]!.byteOffset, parts[0]!.byteLength)
      : Buffer.concat(parts)
  return line.toString('utf8', 0, line.at(-1) === CR ? line.length - 1 : line.length)
}

const CHUNK = 256 * 1024

/** The bytes of an open file from its beginning. */
export async function* chunksOf(file: FileHandle, size = CHUNK): AsyncGenerator<Uint8Array> {
  for (let at = 0; ; ) {
    const { bytesRead, buffer } = await file.read(Buffer.allocUnsafeSlow(size), 0, size, at)
    if (bytesRead === 0) return
    yield buffer.subarray(0, bytesRead)
    at += bytesRead
  }
}

/** A record, or what is wrong with it. */
export function recordOf(text: string, format: RecordFormat): GradeRecord | string {
  try {
    const result = fittedRecord(format.parse(text))
    return result.ok ? result.value : `${result.misfit.path} is ${result.misfit.found}`
  } catch (error) {
    return error instanceof Error ? error.message : String(error)
  }
}
