import { isRuleLine, type TextLine } from './lines.js'
import { CUTS, profileOf } from './profile.js'

/**
 * A label at the beginning of a row: `1`, `r1`, `row 1`, `A`, with or without a mark after it; then a gap or a
 * separator.
 */
const LABEL_BEFORE =
  /^(\s*"?(?:row\s*|r)?)(\d{1,2}|[a-p])"?([:.)]\s*|\s*[|\u2502\u2503\u2551]\s*|\s*[,;\t]|\s+)/i

/** The same at its end; only the last few characters of a line are looked at. */
const LABEL_AFTER = /(?:[,;\t] *|[ |\u2502\u2503\u2551])"?(\d{1,2}|[a-p])"?$/i
const LONGEST_LABEL = 8

/** A word of the line of column labels: `1`, `c1`, `col 1`, `A`. */
const COLUMN_LABEL = /^"?(?:col(?:umn)?|c)?(\d{1,2}|[a-p])"?$/i

/**
 * Lines without the labels of rows and columns (`A` to `I`, `1` to `9` from 0 or 1) on any side, or undefined when they
 * have none. Only labels that count up, and that make a cell or a row too many, are taken for such.
 */
export function withoutLabels(lines: readonly TextLine[]): TextLine[] | undefined {
  const rows = lines.filter((line) => !isRuleLine(line.text))
  if (rows.length > MOST_ROWS) return undefined
  const head = columnLabels(rows[0]?.text ?? '')
  const foot = columnLabels(rows.at(-1)?.text ?? '')
  const isSides = (above: boolean, below: boolean) => {
    const order = rows.length - Number(above) - Number(below)
    return order >= 4 && order <= 16 && (!above || head === order) && (!below || foot === order)
  }
  for (const [above, below] of SIDES) {
    if (!isSides(above, below)) continue
    const labelled = rows.slice(Number(above), below ? -1 : undefined)
    const bare = withoutRowLabels(labelled, above || below)
    const isLabel = (line: TextLine) => (above && line === rows[0]) || (below && line === rows.at(-1))
    if (bare) return lines.flatMap((line) => (isLabel(line) ? [] : [bare.get(line) ?? line]))
    const labels = rows.filter(isLabel)
    if (labels.length > 0 && labels.every(({ text }) => isNoRow(text, rows, labelled)))
      return lines.filter((line) => !isLabel(line))
  }
  // column labels stand further in than rows: such a line is none, though rows may be lost
  const isFurtherIn = head > 0 && rows.length > 1 && new Set(rows.slice(1).map(marginOf)).size === 1
  return isFurtherIn && marginOf(rows[0]!) > marginOf(rows[1]!)
    ? lines.filter((line) => line !== rows[0])
    : undefined
}

/** Lines with labels above and below a grid of order 16. */
const MOST_ROWS = 18

/** Where column labels may stand: above, below. */
const SIDES = [
  [true, true],
  [true, false],
  [false, true],
  [false, false],
] as const

function marginOf({ text }: TextLine): number {
  return text.length - text.trimStart().length
}

/**
 * Rows without the label before or after each, or both.
 *
 * @param isSure column labels have been found, too
 */
function withoutRowLabels(rows: readonly TextLine[], isSure: boolean): Map<TextLine, TextLine> | undefined {
  const order = rows.length
  const before = rows.map(({ text }) => LABEL_BEFORE.exec(text))
  const after = rows.map(({ text }) => LABEL_AFTER.exec(text.trimEnd().slice(-LONGEST_LABEL)))
  const hasBefore = areLabels(before.map((match) => match?.[2]))
  const hasAfter = areLabels(after.map((match) => match?.[1]))
  const isLetter = before.every((match) => /[a-p]/i.test(match?.[2] ?? ''))
  const isMarked = before.every((match) => /^[:)]/.test(match?.[3] ?? ''))
  const isClear = isSure || (hasBefore && (hasAfter || isMarked || (order < 10 && isLetter)))
  if (!isClear && areCells(rows, order)) return undefined
  for (const [isBefore, isAfter] of SIDES) {
    if (!(isBefore || isAfter) || (isBefore && !hasBefore) || (isAfter && !hasAfter)) continue
    const bare = rows.map((row, r) => {
      const [label] = isBefore ? before[r]! : ['']
      const end = isAfter ? row.text.trimEnd().length - after[r]![0].length : row.text.length
      const margin = label.replace(/[^|\u2502\u2503\u2551]/g, ' ')
      const rule = isAfter ? after[r]![0].replace(/[^|\u2502\u2503\u2551]/g, '') : ''
      return { number: row.number, text: margin + row.text.slice(label.length, end) + rule }
    })
    if (areCells(bare, order)) return new Map(rows.map((row, r) => [row, bare[r]!]))
  }
  return undefined
}

function areLabels(labels: readonly (string | undefined)[]): boolean {
  return !labels.includes(undefined) && countsUp(labels as string[])
}

/**
 * Is a line of column labels no row? It is known by a letter or a zero. Nine digits may be a row, but then one of those
 * beside it is too many.
 */
function isNoRow(text: string, all: readonly TextLine[], rows: readonly TextLine[]): boolean {
  if (/[h-p]|^\s*"?(c|0)/i.test(text)) return true
  const isRow = rows.some((row) => row.text.trim() === text.trim())
  return !isRow && areCells(all, rows.length) && !haveDigitTwice(rows)
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
  if (profiles.every((profile) => profile.hasBars))
    return profiles.every(({ widths }) => widths.symbols <= width)
  return CUTS.some((cut) => profiles.every((profile) => profile.widths[cut] === width))
}

/** Does a digit stand twice in a row or in a column, as it does where rows are too many or not of one grid? */
function haveDigitTwice(lines: readonly TextLine[]): boolean {
  const order = lines.length
  const rows = lines.map(({ text }) => cellsOf(text, order))
  const columns = Array.from({ length: order }, (_, c) => rows.map((row) => row[c] ?? ''))
  return [...rows, ...columns].some((house) => {
    const digits = house.map((cell) => cell.toUpperCase()).filter((cell) => /^[1-9A-G]/.test(cell))
    return new Set(digits).size < digits.length
  })
}

/** The cells of a line if they are so many, else its words. */
function cellsOf(text: string, order: number): readonly string[] {
  const between = text.split(/[|\u2502\u2503\u2551]/).slice(1, -1)
  const ways = [[...text.replace(/[\s,;|\u2502\u2503\u2551]/g, '')], between, text.split(/[,;\t]/)]
  return ways.find((cells) => cells.length === order)?.map((cell) => cell.trim()) ?? text.trim().split(/\s+/)
}
