import type { CellText } from './cells.js'
import type { TextLine } from './lines.js'

/** Every character of a line that is no blank. */
export function symbolsOf(line: TextLine): CellText[] {
  return piecesOf(line, /\S/g)
}

/** What stands between blanks. */
export function wordsOf(line: TextLine): CellText[] {
  return piecesOf(line, /\S+/g)
}

/** What stands between separators, without the blanks around it. */
export function valuesOf({ text, number }: TextLine, separator: string): CellText[] {
  let from = 0
  return text.split(separator).map((value) => {
    const column = from + 1 + (value.length - value.trimStart().length)
    from += value.length + 1
    return { text: value.trim(), line: number, column }
  })
}

function piecesOf({ text, number }: TextLine, pattern: RegExp): CellText[] {
  return [...text.matchAll(pattern)].map((match) => ({
    text: match[0],
    line: number,
    column: match.index + 1,
  }))
}
