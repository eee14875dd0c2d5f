/**
 * Is a text that was damaged exactly another legal writing? Grids that come out of one need not be those that were
 * meant.
 *
 * The answer does not ask the library how it reads: the grids that came out are written anew, in every style that the
 * fuzzer writes in, and compared with the damaged text character by character. Only what means the same is passed over:
 * how many blanks stand between cells (unless blanks are cells), at either end of a line, or around separators and grid
 * lines; how long drawn lines are, and whether a frame has its top and bottom and lines between its bands; remarks
 * after ` #`; letters in either case; and which of `. 0 _ *` stands for an empty cell. A grid is another writing if it
 * is written so where it is said to stand, its bands apart at most, and but for a line drawn with one sign that was put
 * in among its rows and is no row itself, or a drawn line that stands there twice or is split in two, and if one of
 * these holds:
 *
 * - its lines are all that is left of one grid, but perhaps for a drawn line with a symbol too many, and none of them
 *   is of another grid (a digit changed, two rows exchanged);
 * - its block, from break to break, is nothing but grids that came out, each so written (a row lost in one grid and
 *   another doubled in the next).
 *
 * So a grid that took a row from its neighbour counts as wrong unless the whole block is what somebody else would
 * write. JSON is another writing where it parses and holds the grid; a line, where one word of it is the grid and no
 * other could be.
 */

import type { Meant, OwnedLine } from './text-documents.js'
import { JSON_LAYOUTS, LAYOUTS, type Shape } from './text-layouts.js'
import { isOnLine } from './text-line-oracle.js'

/** What came out of a text at a line, from 1: a grid, or an error. */
export interface Found {
  readonly line: number
  readonly cells: readonly number[] | undefined
}

/** Lines of the text, from the first to the one after the last. */
interface Range {
  readonly from: number
  readonly to: number
  /** Blank lines or comments stand between the rows, in the writing itself or because bands are parted. */
  readonly isParted: boolean
}

export class TextOracle {
  private readonly texts: readonly string[]
  /** line -> was it put in, drawn with one sign, and is it no row of any grid? It may stand anywhere. */
  private readonly isNoise: readonly boolean[]

  constructor(
    private readonly meant: readonly Meant[],
    private readonly lines: readonly OwnedLine[],
  ) {
    this.texts = lines.map(({ text }) => withoutRemark(text))
    this.isNoise = lines.map(
      ({ text, owner }) => owner < 0 && isDrawnByOneSign(text) && !mayBeRow(text, meant, this.texts),
    )
  }

  /** Is the grid that came out there, among all that came out, another writing? */
  isWritten(all: readonly Found[], found: Found): boolean {
    const cells = found.cells!
    const at = found.line - 1
    if (this.isOnLine(at, cells) || isInJson(this.texts, at, cells)) return true
    const ranges = this.rangesOf(found)
    // what is written on a line has nothing from another grid
    const isAlone = ({ from, to }: Range) => to - from === 1 && cells.length > 16
    return ranges.some((range) => isAlone(range) || this.isLeftOfOne(range) || this.isWholeBlock(range, all))
  }

  /** Is the whole text, whatever blank lines and comments stand in it, one writing of the grid? */
  isOnlyWriting(cells: readonly number[]): boolean {
    // a number alone may be a heading, or a row whose other cells are blanks
    const isLoneNumber = (line: string) => /^ *\d{1,3} *$/.test(line)
    return [true, false].some((areHeadings) =>
      this.isWritingOf(
        cells,
        this.texts.filter((line) => !isBreak(line) || (!areHeadings && isLoneNumber(line))),
      ),
    )
  }

  private isWritingOf(cells: readonly number[], content: readonly string[]): boolean {
    if (content.length === 0) return false
    const alone = new TextOracle(
      this.meant,
      content.map((text) => ({ text, owner: 0 })),
    )
    return content.some((_, at) => {
      if (isInJson(content, at, cells) || alone.isOnLine(at, cells)) return true
      return alone
        .rangesOf({ line: at + 1, cells })
        .some(({ from, to }) => [...content.slice(0, from), ...content.slice(to)].every(isDrawn))
    })
  }

  private isOnLine(at: number, cells: readonly number[]): boolean {
    // sixteen symbols may be a row, or a number: only where there are grids of order 4, or nothing else, are they one
    const areSmall =
      this.meant.some(({ geometry }) => geometry.order === 4) ||
      this.texts.every((text, i) => i === at || isBreak(text))
    return (cells.length > 16 || areSmall) && isOnLine(this.texts[at]!, cells)
  }

  /** Where the grid is written, line by line, in any style; its record may stand at a drawn line above it. */
  private rangesOf({ line, cells }: Found): Range[] {
    const ranges: Range[] = []
    const { texts } = this
    for (const writing of writingsOf(cells!)) {
      // a line of column labels stands above the first line of the grid, perhaps with something drawn between
      for (let from = Math.max(0, line - 3); from < texts.length; from++) {
        const range = this.match(writing, from)
        if (range && range.to >= line) ranges.push(range)
        if (from >= line - 1 && !isDrawn(texts[from]!) && !isBreak(texts[from]!)) break
      }
    }
    return ranges
  }

  /** The lines from there on that are this writing; its bands, all of one height, may stand apart. */
  private match({ lines, order, areBlanksCells }: Writing, from: number): Range | undefined {
    const { texts } = this
    const isAt = (at: number, line: string) => at < texts.length && isSame(texts[at]!, line, areBlanksCells)
    const gaps: number[] = []
    let rows = 0
    let at = from
    for (const [i, line] of lines.entries()) {
      const start = at
      if (i > 0 && line !== '')
        while (
          at < texts.length &&
          (this.isNoise[at] || isBreak(texts[at]!) || isRuler(texts[at]!) || this.isDrawnTwice(at)) &&
          !isAt(at, line)
        )
          at++
      const isPassed = (_: boolean, i: number) => this.isNoise[start + i] || this.isDrawnTwice(start + i)
      if (!this.isNoise.slice(start, at).every(isPassed)) gaps.push(rows)
      if (!isAt(at, line)) return undefined
      // a row of empty cells looks drawn, but has as many signs as cells
      if (line !== '' && (!isDrawn(line) || line.replace(/[\s|]/g, '').length === order)) rows++
      at++
    }
    const heights = Array.from({ length: order - 1 }, (_, i) => i + 2).filter(
      (height) => order % height === 0,
    )
    if (!heights.some((height) => gaps.every((gap) => gap % height === 0))) return undefined
    return { from, to: at, isParted: gaps.length > 0 || lines.includes('') }
  }

  private isDrawnTwice(at: number): boolean {
    const { texts } = this
    const isEither = (is: (at: number) => boolean) => is(at) || is(at - 1)
    return (
      isDrawn(texts[at]!) &&
      at > 0 &&
      (texts[at] === texts[at - 1] ||
        this.isSplit(at) ||
        (isDrawn(texts[at - 1]!) && isEither((i) => this.isNoise[i]!)))
    )
  }

  /** Are a drawn line and the one above it the two parts of one that stands elsewhere as well? */
  private isSplit(at: number): boolean {
    const { texts } = this
    return texts.includes(texts[at - 1]! + texts[at]!)
  }

  private isLeftOfOne({ from, to }: Range): boolean {
    const owners = new Set(this.lines.slice(from, to).map(({ owner }) => owner))
    owners.delete(-1)
    const [owner] = owners
    if (owners.size !== 1) return false
    const isNothing = (text: string) =>
      isBreak(text) || isDrawn(text) || isDrawn(text.replace(/[^-=+~:|\s]/, ''))
    return this.lines.every(
      (line, i) => line.owner !== owner || (i >= from && i < to) || isNothing(line.text),
    )
  }

  /** From break to break, nothing but grids that came out; where grids have breaks within, from heading to heading. */
  private isWholeBlock(range: Range, all: readonly Found[]): boolean {
    const ranges = all.flatMap((found) => {
      if (!found.cells) return []
      const from = found.line - 1
      const isLine = this.isOnLine(from, found.cells)
      return isLine ? [{ from, to: from + 1, isParted: false }] : this.rangesOf(found)
    })
    const longestRow = Math.max(...this.texts.slice(range.from, range.to).map((text) => text.length))
    const isEnd = (at: number) => {
      const line = this.texts[at]
      if (line === undefined || (isRuler(line) && line.length > longestRow + 1)) return true
      return range.isParted ? isHeading(line) : isBreak(line)
    }
    const isPassed = (at: number) => isDrawn(this.texts[at]!) || isBreak(this.texts[at]!)
    let { from, to } = range
    for (;;) {
      const before = ranges.find((other) => other.to === from)
      if (isEnd(from - 1)) break
      if (before) from = before.from
      else if (isPassed(from - 1)) from--
      else return false
    }
    for (;;) {
      const after = ranges.find((other) => other.from === to)
      if (isEnd(to)) break
      if (after) to = after.to
      else if (isPassed(to)) to++
      else return false
    }
    return !all.some(({ cells, line }) => !cells && line > from && line <= to)
  }
}

/** Is a drawn line as long as a row, and its sign a cell elsewhere? */
function mayBeRow(text: string, meant: readonly Meant[], texts: readonly string[]): boolean {
  const isCell = texts.some((line) => !isDrawn(line) && line.includes(text[0]!))
  return isCell && meant.some(({ geometry }) => geometry.order === text.length)
}

/** Layouts in which the grid is one word of a line. */
const ONE_WORD: ReadonlySet<string> = new Set([
  'line',
  'numbered line',
  'line with an id',
  'line and solution',
])

/** A frame may be open at its top and at its bottom, and have no lines between bands. */
function openFrames(lines: readonly string[]): (readonly string[])[] {
  const [frame] = lines
  if (!frame!.startsWith('+')) return [lines]
  const rows = lines.filter((line) => line !== frame)
  return [lines, lines.slice(1), lines.slice(0, -1), lines.slice(1, -1), [frame!, ...rows, frame!]]
}

interface Writing {
  readonly lines: readonly string[]
  readonly order: number
  /** Every blank may be a cell, so none may be passed over. */
  readonly areBlanksCells: boolean
}

/** The grid in every style of several lines that the fuzzer writes, once each. */
function writingsOf(cells: readonly number[]): Writing[] {
  const order = Math.sqrt(cells.length)
  const writings = new Map<string, Writing>()
  for (let rows = 1; rows <= order; rows++) {
    if (order % rows !== 0) continue
    const shape: Shape = { order, rows, columns: order / rows, solution: cells }
    for (const [name, { styles, write }] of Object.entries(LAYOUTS)) {
      if (JSON_LAYOUTS.test(name) || ONE_WORD.has(name)) continue
      // the fuzzer draws lines with dashes where bars stand, so it writes none there for empty cells
      const dashed =
        name === 'bars'
          ? [
              { mark: '-', rules: 'yes' },
              { mark: '-', rules: 'no' },
            ]
          : []
      for (const style of [...styles(shape, () => 0), ...dashed]) {
        const framed = write(cells, shape, style)
        for (const lines of openFrames(framed))
          writings.set(lines.join('\n'), {
            lines,
            order,
            areBlanksCells: style.mark === ' ' && cells.includes(0),
          })
      }
    }
  }
  return [...writings.values()]
}

function isSame(text: string, written: string, areBlanksCells: boolean): boolean {
  // where values are not parted by tabs, a tab is a blank
  const line = bareLine(written.includes('\t') ? text : text.replaceAll('\t', ' '), areBlanksCells)
  const other = bareLine(written, areBlanksCells)
  if (/^[-+]*\+[-+]*$/.test(other)) return isDrawn(line)
  if (/^([-=])\1+$/.test(other)) return isRuler(line) && line[0] === other[0]
  if (line.length !== other.length) return false
  for (let i = 0; i < line.length; i++) {
    if (line[i] !== other[i] && !(isUsualMark(line[i]!) && isUsualMark(other[i]!))) return false
  }
  return true
}

/** Without blanks that say nothing. */
function bareLine(text: string, areBlanksCells: boolean): string {
  // a doubled grid line is a heavy one
  const line = text.toLowerCase().replace(/ +$/, '').replaceAll('||', '|')
  if (areBlanksCells) return line
  return bareOfBlanks(line.trimStart())
}

function bareOfBlanks(line: string): string {
  // between grid lines every cell is one symbol
  if (line.includes('|')) return line.replace(/ +/g, '')
  return line.replace(/ *([,;\t]) */g, '$1').replace(/ +/g, ' ')
}

function isUsualMark(symbol: string): boolean {
  return '.0_*'.includes(symbol)
}

function withoutRemark(line: string): string {
  return /^\s*[[\]{}"]/.test(line) ? line : line.replace(/\s#.*$/, '')
}

function isInJson(lines: readonly string[], at: number, cells: readonly number[]): boolean {
  if (!/^\s*[[{]/.test(lines[at]!)) return false
  for (let end = at; end < Math.min(lines.length, at + 40); end++) {
    try {
      const text = lines.slice(at, end + 1).join('\n')
      return holds(JSON.parse(text.replace(/,\s*$/, '')), cells)
    } catch {}
  }
  return false
}

function holds(data: unknown, cells: readonly number[]): boolean {
  if (typeof data === 'string') return holds([...data], cells)
  if (!Array.isArray(data)) return false
  const order = Math.sqrt(cells.length)
  const text = (value: unknown) => (value === null ? '' : String(value)).toUpperCase()
  const isCell = (value: unknown, i: number) => {
    const shown = text(value)
    return cells[i] === 0
      ? shown === '' || '.0_*XO-?'.includes(shown)
      : shown === String(cells[i]) || shown === ' 123456789ABCDEFG'[cells[i]!]
  }
  const are = (values: readonly unknown[]) =>
    values.length === cells.length &&
    values.every((value, i) => typeof value !== 'object' && isCell(value, i))
  if (are(data)) return true
  const rows = data.map((row: unknown) => (typeof row === 'string' ? [...row] : row))
  const isSquare = rows.length === order && rows.every((row) => Array.isArray(row) && row.length === order)
  return (isSquare && are(rows.flat())) || data.some((item: unknown) => holds(item, cells))
}

function isBreak(line: string): boolean {
  return line.trim() === '' || /^\s*#/.test(line) || isHeading(line)
}

function isHeading(line: string): boolean {
  if (/^\s*(\(\d+\)|\d{1,2}[.):]|\d{3,4}[):]|\d{1,3}|[a-z][.):]?)\s*$/i.test(line)) return true
  return (
    (line.match(/[a-zé]{2,}/gi) ?? []).some((word) => /[h-zé]/i.test(word) && !/^[a-gxo]+$/i.test(word)) &&
    !/[0-9._*x?-]{16}/i.test(line)
  )
}

/** A line that only draws, or one symbol over and over. */
function isDrawn(line: string): boolean {
  const bare = line.replace(/\s+/g, '')
  return /^[-=+~:|]*[-=+~][-=+~:|]*$/.test(bare) || isRuler(line)
}

function isRuler(line: string): boolean {
  const bare = line.replace(/\s+/g, '').toLowerCase()
  return bare.length > 1 && '*_xo?-~='.includes(bare[0]!) && bare === bare[0]!.repeat(bare.length)
}

function isDrawnByOneSign(text: string): boolean {
  return /^([-_*=~.])\1+$/.test(text)
}
