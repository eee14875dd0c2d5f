import type { TextLine } from './lines.js'

/** Longest line that is read; a saved board of order 16 with all its marks takes less than half. */
export const LONGEST_LINE = 65_536

/** A line, or news that one was too long to be kept. */
export type StreamLine = TextLine & { readonly tooLong: boolean }

/**
 * Lines of a stream, ended by LF, CRLF or CR wherever chunks are cut; a byte order mark at the start is dropped. No
 * more than one line of `LONGEST_LINE` characters is held, however long a line is.
 *
 * @throws TypeError for chunks that are not strings: a byte stream must be decoded first.
 */
export async function* readLines(
  chunks: AsyncIterable<string> | Iterable<string>,
): AsyncGenerator<StreamLine> {
  const lineEnd = /\r\n|\n|\r/g
  let held = ''
  let tooLong = false
  let number = 1
  let atStart = true
  let afterReturn = false

  const keep = (piece: string) => {
    if (tooLong) return
    if (held.length + piece.length > LONGEST_LINE) {
      tooLong = true
      held = ''
    } else held += piece
  }
  const finish = (): StreamLine => {
    const line = { text: held, number, tooLong }
    held = ''
    tooLong = false
    number++
    return line
  }

  for await (const chunk of chunks) {
    if (typeof chunk !== 'string') {
      throw new TypeError('readPuzzles takes chunks of text; decode a byte stream as UTF-8 first.')
    }
    let from = 0
    if (atStart && chunk.length > 0) {
      if (chunk.charCodeAt(0) === 0xfeff) from = 1
      atStart = false
    }
    // The second half of a CRLF whose first half has ended the line already, perhaps in the chunk before.
    if (afterReturn && chunk[from] === '\n') from++
    if (from < chunk.length) afterReturn = false
    for (;;) {
      lineEnd.lastIndex = from
      const end = lineEnd.exec(chunk)
      if (!end) break
      keep(chunk.slice(from, end.index))
      yield finish()
      from = end.index + end[0].length
      afterReturn = end[0] === '\r' && from === chunk.length
    }
    keep(chunk.slice(from))
  }
  if (held !== '' || tooLong) yield finish()
}
