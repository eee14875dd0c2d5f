import { InputError } from '../../errors.js'
import { isRuled } from './drawing.js'
import { jsonFormat } from './json-text.js'
import { charactersOnLine } from './line.js'
import { hasRules, isRuleLine, lineKind, type TextLine, withoutRemark } from './lines.js'
import { type ParseOptions, readSheet } from './parse.js'
import { valuesOnLine } from './separated.js'
import type { Sheet } from './sheet.js'

/** A grid of a file, or why there is none, with what was said about it. */
export interface SheetEntry {
  readonly line: number
  readonly title: string | undefined
  readonly comments: readonly string[]
  readonly sheet?: Sheet
  readonly error?: InputError
}

/** Comments beyond these above one grid are dropped, so that a file of comments cannot fill the memory. */
const MOST_COMMENTS = 100
const LONGEST_COMMENT = 1000

/** More lines than any drawing of one grid has: 16 rows with a rule above each and one below. */
const MOST_LINES = 64

/**
 * Cuts a stream of lines into grids: a line that holds a whole grid; as many lines as cells on a line; a ruled drawing
 * up to a blank line, a heading, a comment or the next frame. Blank lines between equal bands are part of a grid.
 * Holds the lines of one grid at most.
 */
export class SheetCutter {
  /** Lines not yet made a grid of, in the parts that blank lines cut them into. */
  private parts: TextLine[][] = []
  private afterBlank = false
  private title: string | undefined
  private comments: string[] = []

  constructor(private readonly options: ParseOptions) {}

  /** Takes the next line and returns the grids that are complete now. */
  add(line: TextLine): SheetEntry[] {
    switch (lineKind(line.text)) {
      case 'comment': {
        const done = this.endIfWhole()
        this.note(line.text.replace(/^\s*#+\s?/, ''))
        return done
      }
      case 'title': {
        const done = this.end()
        if (this.title !== undefined) this.note(this.title)
        this.title = line.text.trim().slice(0, LONGEST_COMMENT)
        return done
      }
      case 'blank': {
        const done = this.endIfWhole()
        this.afterBlank = true
        return [...done, ...this.dropUneven()]
      }
      case 'content':
        return this.addContent({ text: withoutRemark(line.text), number: line.number })
    }
  }

  /** Makes what it can of the lines still held. */
  end(): SheetEntry[] {
    const parts = this.parts
    this.parts = []
    this.afterBlank = false
    const lines = parts.flat()
    if (lines.length === 0) return []
    if (this.areLinesOfSixteen(lines) && !this.isGridOfSixteen(lines))
      return lines.map((line) => this.entry([line]))
    const whole = this.entry(lines)
    if (whole.sheet || parts.length === 1) return [whole]
    return parts.map((part) => this.entry(part))
  }

  private addContent(line: TextLine): SheetEntry[] {
    const done: SheetEntry[] = []
    const before = this.parts.flat()
    const startsFrame = isRuleLine(line.text) && before.length > 1 && isRuleLine(before.at(-1)!.text)
    const alone = this.holdsWholeGrid(line)
    if (startsFrame || alone) done.push(...this.end())
    if (this.parts.length === 0 || this.afterBlank) this.parts.push([])
    this.afterBlank = false
    this.parts.at(-1)!.push(line)
    if (alone) return [...done, ...this.end()]

    const first = this.parts[0]!
    if (this.parts.length > 1 && rowCount(this.parts.at(-1)!) > rowCount(first))
      done.push(...this.dropUneven())
    const held = this.parts.flat()
    const even = this.parts.every((part) => rowCount(part) === rowCount(first))
    if ((even && isComplete(held)) || held.length > MOST_LINES) done.push(...this.end())
    return done
  }

  /** A part that differs in rows from the first belongs to another grid: what stands before it is given up. */
  private dropUneven(): SheetEntry[] {
    const last = this.parts.at(-1)
    if (this.parts.length < 2 || !last || rowCount(last) === rowCount(this.parts[0]!)) return []
    this.parts.pop()
    const afterBlank = this.afterBlank
    const done = this.end()
    this.parts = [last]
    this.afterBlank = afterBlank
    return done
  }

  private endIfWhole(): SheetEntry[] {
    const lines = this.parts.flat()
    if (lines.length === 0 || this.areLinesOfSixteen(lines)) return []
    return this.tryRead(lines).sheet ? this.end() : []
  }

  private holdsWholeGrid(line: TextLine): boolean {
    if (isRuled([line])) return false
    if (jsonFormat.fits([line]) === 2) return true
    const asked = this.options.geometry?.cellCount
    const cells = cellsOnLine(line)
    return cells !== 0 && (asked === undefined ? cells !== SIXTEEN : cells === asked)
  }

  /** Sixteen cells are a 4×4 grid or a row of a 16×16 one, unless the caller's geometry says which. */
  private areLinesOfSixteen(lines: readonly TextLine[]): boolean {
    return this.options.geometry === undefined && lines.every((line) => cellsOnLine(line) === SIXTEEN)
  }

  /** Sixteen lines are one grid when most of them show a digit that no 4×4 grid has. */
  private isGridOfSixteen(lines: readonly TextLine[]): boolean {
    const { sheet } = lines.length === SIXTEEN ? this.tryRead(lines) : { sheet: undefined }
    const hasLargeDigit = (_: TextLine, r: number) =>
      sheet?.cells.slice(r * SIXTEEN, (r + 1) * SIXTEEN).some((cell) => cell.given > 4)
    return lines.filter(hasLargeDigit).length > SIXTEEN / 2
  }

  private note(comment: string): void {
    if (this.comments.length < MOST_COMMENTS) this.comments.push(comment.slice(0, LONGEST_COMMENT))
  }

  private entry(lines: readonly TextLine[]): SheetEntry {
    const read = this.tryRead(lines)
    const { title = read.sheet?.remark, comments } = this
    this.title = undefined
    this.comments = []
    return { line: lines[0]!.number, title, comments, ...read }
  }

  private tryRead(lines: readonly TextLine[]): { sheet: Sheet } | { sheet?: never; error: InputError } {
    try {
      return { sheet: readSheet(lines, this.options) }
    } catch (error) {
      if (error instanceof InputError) return { error }
      throw error
    }
  }
}

function rowCount(lines: readonly TextLine[]): number {
  return lines.filter((line) => !isRuleLine(line.text)).length
}

/** Without rules to show the end of a grid, it ends when it has as many lines as its first line has cells. */
function isComplete(lines: readonly TextLine[]): boolean {
  if (lines.some((line) => isRuleLine(line.text) || hasRules(line.text))) return false
  const first = lines[0]!.text
  const separator = /[;\t,]/.exec(first)?.[0]
  if (separator) return lines.length === first.split(separator).length
  const symbols = first.replace(/\s+/g, '').length
  return lines.length === symbols || (lines.length > 3 && lines.length === first.trim().split(/\s+/).length)
}

const SIXTEEN = 16

/** How many cells an unruled line has that could be a whole grid; 0 for any other line. */
function cellsOnLine(line: TextLine): number {
  return charactersOnLine(line) || valuesOnLine(line)
}
