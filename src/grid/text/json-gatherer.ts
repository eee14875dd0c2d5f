import { DEEPEST, JsonScan } from './json-scan.js'
import { lineKind, type TextLine } from './lines.js'

/** Characters of one piece of JSON over several lines that are held. */
const MOST_HELD = 1 << 18

/** Gathers the lines of one piece of JSON. */
export class JsonGatherer {
  readonly lines: TextLine[] = []
  private readonly scan = new JsonScan()
  private length = 0
  private isOver = false

  /** Does the line belong to the piece begun? Otherwise the piece was never finished. */
  takes(line: TextLine): boolean {
    const kind = lineKind(line.text)
    return !this.isOver && (kind === 'blank' ? this.scan.goesOn : this.scan.maySee(line.text))
  }

  /** Takes a line; true when the piece is over, whole or broken. */
  add(line: TextLine): boolean {
    this.lines.push(line)
    this.length += line.text.length
    const state = this.scan.add(line.text)
    this.isOver = state !== 'open' || this.scan.deepest > DEEPEST || this.length > MOST_HELD
    return this.isOver
  }
}
