import type { TextLine } from './lines.js'

/** Longest line that is read; a saved board of order 16 with all its marks takes less than half. */
export const LONGEST_LINE = 65_536

/** A line, or news that one was too long to be kept. */
export type StreamLine = TextLine & { readonly tooLong: boolean }

/**
 * Lines of a text that comes in pieces, ended by LF, CRLF or CR wherever it is cut; a byte order mark at the start is
 * dropped. No more than one line of `LONGEST_LINE` characters is held, however long a line is.
 */
export class LineSplitter {
  private held = ''
  private tooLong = false
  private number = 1
  private atStart = true
  private afterReturn = false

  private keep(piece: string): void {
    if (this.tooLong) return
    if (this.held.length + piece.length > LONGEST_LINE) {
      this.tooLong = true
      this.held = ''
    } else this.held += piece
  }

  private finish(): StreamLine {
    const line = { text: this.held, number: this.number, tooLong: this.tooLong }
    this.held = ''
    this.tooLong = false
    this.number++
    return line
  }

  /** Takes the next piece and yields the lines that end in it. */
  *add(piece: string): Generator<StreamLine> {
    const lineEnd = /\r\n|\n|\r/g
    let from = 0
    if (this.atStart && piece.length > 0) {
      if (piece.charCodeAt(0) === 0xfeff) from = 1
      this.atStart = false
    }
    // The second half of a CRLF whose first half has ended the line already, perhaps in the piece before.
    if (this.afterReturn && piece[from] === '\n') from++
    if (from < piece.length) this.afterReturn = false
    for (;;) {
      lineEnd.lastIndex = from
      const end = lineEnd.exec(piece)
      if (!end) break
      this.keep(piece.slice(from, end.index))
      yield this.finish()
      from = end.index + end[0].length
      this.afterReturn = end[0] === '\r' && from === piece.length
    }
    this.keep(piece.slice(from))
  }

  /** The last line, if the text does not end with a line end. */
  *end(): Generator<StreamLine> {
    if (this.held !== '' || this.tooLong) yield this.finish()
  }
}
