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
    for (let i = from; i < chunk.length; i++) {
      const code = chunk.charCodeAt(i)
      if (code !== 10 && code !== 13) {
        afterReturn = false
        continue
      }
      if (code === 10 && afterReturn && i === from) {
        // The second half of a CRLF whose first half has ended the line already.
        afterReturn = false
        from = i + 1
        continue
      }
      keep(chunk.slice(from, i))
      yield finish()
      from = i + 1
      afterReturn = code === 13
    }
    keep(chunk.slice(from))
  }
  if (held !== '' || tooLong) yield finish()
}
