import { hasRules, isRuleLine, type TextLine } from './lines.js'
import { CUTS, profileOf } from './profile.js'

/**
 * A label at the beginning of a row: `1`, `r1`, `row 1`, `A`, with or without a mark after it; then a gap or a
 * separator.
 */
const ROW_LABEL = /^(\s*"?(?:row\s*|r)?)(\d{1,2}|[a-p])"?(\s*[:.)|\u2502\u2503\u2551]\s*|\s*[,;\t]|\s+)/i

/** A word of the line of column labels: `1`, `c1`, `col 1`, `A`. */
const COLUMN_LABEL = /^"?(?:col(?:umn)?|c)?(\d{1,2}|[a-p])"?$/i

/**
 * Lines without the labels of rows and columns (`A` to `I`, `1` to `9` from 0 or 1), or undefined when they have none.
 * Only a row of labels that counts up, and that makes one cell too many on every line, is taken for one.
 */
export function withoutLabels(lines: readonly TextLine[]): TextLine[] | undefined {
  const rows = lines.filter((line) => !isRuleLine(line.text))
  const header = columnLabels(rows[0]?.text ?? '')
  const labelled = header > 0 ? rows.slice(1) : rows
  const order = labelled.length
  if (order < 4 || order > 16 || (header > 0 && header !== order)) return undefined
  const matches = labelled.map((line) => ROW_LABEL.exec(line.text))
  const isCounted = matches.every((match) => match) && countsUp(matches.map((match) => match![2]!))
  if (!isCounted) {
    if (header !== order || !areCells(labelled, order)) return undefined
    // Column labels alone are known by a letter or a zero. Nine digits may be a row, but then one of those below is too
    // many.
    const isNoRow = /[h-p]|^\s*"?(c|0)/i.test(rows[0]!.text)
    const mayBeRow = hasRules(rows[0]!.text) || !areCells(rows, order) || haveDigitTwice(labelled)
    return isNoRow || !mayBeRow ? lines.filter((line) => line !== rows[0]) : undefined
  }
  const bare = new Map(
    labelled.map((line, i) => {
      const [label] = matches[i]!
      return [
        line,
        {
          number: line.number,
          text: label.replace(/[^|\u2502\u2503\u2551]/g, ' ') + line.text.slice(label.length),
        },
      ]
    }),
  )
  const stripped = [...bare.values()]
  const isSure = header > 0 || (order < 10 && matches.every((match) => /[a-p]/i.test(match![2]!)))
  if (!areCells(stripped, order) || (!isSure && areCells(labelled, order))) return undefined
  return lines.flatMap((line) => (line === rows[0] && header > 0 ? [] : [bare.get(line) ?? line]))
}

/** How many columns a line of labels counts; 0 when it is no such line. */
function columnLabels(text: string): number {
  const words = text
    .replace(/[|\u2502\u2503\u2551]/g, ' ')
    .split(/[\s,;]+/)
    .filter((word) => word !== '' && word !== '""')
  const labels = words.map((word) => COLUMN_LABEL.exec(word)?.[1])
  const known = labels.filter((label) => label !== undefined)
  // a word for the corner may come first
  const counted = known.length < labels.length && labels[0] === undefined ? labels.slice(1) : labels
  if (words.length === 1 || counted.includes(undefined)) {
    const run = words.length === 1 ? words[0]! : ''
    return run.length > 3 && countsUp([...run]) ? run.length : 0
  }
  return counted.length > 3 && countsUp(counted as string[]) ? counted.length : 0
}

/** 1, 2, 3 …, or from 0, or A, B, C …. */
function countsUp(labels: readonly string[]): boolean {
  const numbers = labels.map((label) =>
    /\d/.test(label) ? Number(label) : label.toLowerCase().charCodeAt(0) - 96,
  )
  const first = numbers[0]!
  return (first === 0 || first === 1) && numbers.every((number, i) => number === first + i)
}

/** Has every line this many cells, in one way of cutting it; or grid lines, where that cannot be counted? */
function areCells(lines: readonly TextLine[], width: number): boolean {
  const profiles = lines.map(profileOf)
  if (profiles.every((profile) => profile.hasBars)) return true
  return CUTS.some((cut) => profiles.every((profile) => profile.widths[cut] === width))
}

/** Does a digit stand twice in a row or in a column, as it does where rows are too many or not of one grid? */
function haveDigitTwice(lines: readonly TextLine[]): boolean {
  const order = lines.length
  const rows = lines.map(({ text }) => {
    const symbols = [...text.replace(/[\s,;|]/g, '')]
    return symbols.length === order ? symbols : text.split(/[\s,;|]+/).filter((word) => word !== '')
  })
  const columns = Array.from({ length: order }, (_, c) => rows.map((row) => row[c] ?? ''))
  return [...rows, ...columns].some((house) => {
    const digits = house.map((cell) => cell.toUpperCase()).filter((cell) => /^[1-9A-G]/.test(cell))
    return new Set(digits).size < digits.length
  })
}
