import { hasRules, isRuleLine, type TextLine } from './lines.js'
import type { Notes } from './notes.js'
import { LONGEST_ROW } from './profile.js'

/** Lines without a break between them, as long as more may come. */
export class OpenBlock {
  readonly lines: TextLine[] = []
  /** Characters held. */
  length = 0
  /** The lines are taken for a grid each; those before have been handed out. */
  isLinewise = false
  private hasBars = false
  private hasBlanks = false

  constructor(readonly notes: Notes) {}

  add(line: TextLine): void {
    this.lines.push(line)
    this.length += line.text.length + 1
    this.hasBlanks ||= line.text.includes(' ')
    this.hasBars ||= hasRules(line.text) && !isRuleLine(line.text)
  }

  /**
   * Does the line go on with rows of one length whose empty cells are blanks? It may be blank itself, or have one
   * digit.
   */
  mayHaveRowOfBlanks(text: string): boolean {
    const above = this.lines.at(-1)?.text ?? ''
    const isRow = text.length === above.length && text.length >= 4 && text.length <= LONGEST_ROW
    return this.hasBlanks && isRow && [text, above].every((line) => /^[1-9 ]+$/.test(line))
  }

  /**
   * Does the line begin another drawing, or something else below one? Two frames meet, or rows have no bars any more.
   */
  endsAt(line: TextLine): boolean {
    const { lines, hasBars } = this
    const last = lines.at(-1)
    if (!hasBars || lines.length < 2 || !last || !isRuleLine(last.text)) return false
    // column labels may stand below as well as above
    const isLabels = line.text.trim() === lines[0]!.text.trim()
    return isRuleLine(line.text) || (!hasRules(line.text) && !isLabels)
  }
}

/** Is a number above rows with blanks for empty cells, as long as they with its own blanks, one of them? */
export function isRowAbove(title: TextLine, { text, number }: TextLine): boolean {
  const isBlank = (row: string) => /^[1-9 ]{4,16}$/.test(row) && row.includes(' ')
  return (
    title.number === number - 1 && title.text.length === text.length && isBlank(title.text) && isBlank(text)
  )
}
