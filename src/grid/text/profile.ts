import { hasRules, isOneSymbol, isRuleLine, type TextLine, withoutBars } from './lines.js'

/** The most cells that a row can have; a line with more symbols is no row, unless it has pencil marks. */
export const LONGEST_ROW = 16

/** How a line can be cut into cells. */
export const CUTS = ['values', 'symbols', 'words'] as const
export type Cut = (typeof CUTS)[number]

/** What a line holds, counted in each of the ways in which it can be cut into cells. */
export interface Profile {
  /** Vertical grid lines, or any character of a box drawing. */
  readonly hasBars: boolean
  /** A line that only draws, or one symbol over and over that could be a drawn line. */
  readonly isDrawn: boolean
  /** Cells on the line: values between separators, characters, words. */
  readonly widths: Readonly<Record<Cut, number>>
  readonly endsInSeparator: boolean
  /** Length of the longest run of characters that are neither spaces nor separators. */
  readonly longestRun: number
  /** Digits and spaces alone, long enough to be a grid of order 6 on one line. */
  readonly isSpacedOut: boolean
}

/** Shortest line with blanks for empty cells that can be a whole grid. */
const SHORTEST_SPACED_OUT = 36

export function profileOf(line: TextLine): Profile {
  const { text } = line
  let symbols = 0
  let words = 0
  let run = 0
  let longestRun = 0
  let separators = 0
  let separator = 0
  let inWord = false
  let digitsAndSpaces = true
  let lastIsSeparator = false
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i)
    if (isSeparator(code) && (separator === 0 || code === separator)) {
      separator = code
      separators++
      lastIsSeparator = true
      digitsAndSpaces = false
      run = 0
      if (code === TAB) inWord = false
      else if (!inWord) {
        inWord = true
        words++
      }
    } else if (isSpace(code)) {
      inWord = false
      run = 0
    } else {
      lastIsSeparator = false
      if (isBar(code)) {
        inWord = false
        run = 0
        digitsAndSpaces = false
        continue
      }
      if (!inWord) words++
      inWord = true
      if (code !== QUOTE) symbols++
      run++
      if (run > longestRun) longestRun = run
      if (!isDigit(code)) digitsAndSpaces = false
    }
  }
  return {
    hasBars: hasRules(text),
    isDrawn: isRuleLine(text) || (separators === 0 && isOneSymbol(withoutBars(text).replace(/\s+/g, ''))),
    widths: { values: separators === 0 ? 0 : separators + 1, symbols, words },
    endsInSeparator: lastIsSeparator,
    longestRun,
    isSpacedOut:
      digitsAndSpaces && symbols > 3 && symbols < text.length && text.length >= SHORTEST_SPACED_OUT,
  }
}

/** Could the line be a whole grid, and no row of one? */
export function isLong({ widths, isSpacedOut }: Profile): boolean {
  return widths.symbols > LONGEST_ROW || widths.values > LONGEST_ROW || isSpacedOut
}

/** A long line that may still be a row with pencil marks: no more words than a row has cells, none of them a grid. */
export function mayBeMarks({ widths, longestRun }: Profile): boolean {
  const { words, values } = widths
  const isRow = (count: number) => count >= 4 && count <= LONGEST_ROW
  return longestRun <= LONGEST_ROW && (isRow(words) || isRow(values))
}

const TAB = 9
const QUOTE = 34

function isSeparator(code: number): boolean {
  return code === 44 || code === 59 || code === TAB
}

function isSpace(code: number): boolean {
  return code === 32 || (code >= TAB && code <= 13) || (code > 0x1fff && /\s/.test(String.fromCharCode(code)))
}

function isBar(code: number): boolean {
  return code === 124 || code === 0xa6 || (code >= 0x2500 && code <= 0x257f)
}

function isDigit(code: number): boolean {
  return code >= 49 && code <= 57
}
