import { InputError } from '../../errors.js'
import type { Geometry } from '../geometry.js'
import { lineWithDots } from './blank-cells.js'
import { isNearly, type Role, rowsOf } from './block.js'
import { counted } from './counted.js'
import { type Cut, type Doubt, withoutDoubtful } from './doubt.js'
import type { SheetEntry } from './entry.js'
import { agreedGeometry } from './geometry-line.js'
import { areColumnNames } from './headings.js'
import { readJsonGrids } from './json-text.js'
import { hasRules, isRuleLine, type TextLine } from './lines.js'
import { styleOf, writingOf } from './mixed.js'
import { NO_NOTES, type Notes } from './notes.js'
import type { Part } from './part.js'
import { LONGEST_ROW, profileOf } from './profile.js'
import { readSheet, type SheetOptions } from './read-sheet.js'
import { orderOfCount, type Sheet, shapeError, textError } from './sheet.js'
import { quoteFound } from './symbols.js'

type Reading =
  | { readonly sheet: Sheet; readonly geometry: Geometry | undefined; readonly error?: never }
  | { readonly sheet?: never; readonly error: InputError }

/** Reads pieces of text that have been cut out as one grid, or says what is wrong with them. */
export class SheetReader {
  constructor(private readonly options: SheetOptions) {}

  /** The grid that these lines are. */
  entry(lines: readonly TextLine[], notes: Notes): SheetEntry {
    const [first] = lines
    const { title, comments } = notes
    const areNames = lines.length === 1 && title !== undefined && areColumnNames(title, first!.text)
    const own = areNames ? { ...notes, title: undefined, comments: [...comments, title] } : notes
    return this.asEntry(first!.number, own, this.read(lines, notes))
  }

  /** Rows as a grid, if they can be read and are all written in one way. */
  private whole(part: Part): Cut {
    const entry = this.entry(prepared(...withoutEnds(part)), part.notes)
    const writing = writingOf(part)
    const { odd } = writing
    if (!odd || entry.error) return { entry, writing }
    const error = shapeError(
      odd.number,
      'a row with another separator, or another mark for empty cells, than the rows above it',
      'one separator and one mark in a grid, and a break between grids',
    )
    return { entry: this.asEntry(entry.line, part.notes, { error }), writing }
  }

  canRead(part: Part): boolean {
    return (
      part.roles.every(isSound) && this.read(prepared(part.lines, part.roles), part.notes).sheet !== undefined
    )
  }

  /**
   * The grids of a block whose number of rows comes out; lines that are no rows come out as errors of their own. Where
   * the number may have come out by luck, grids that cannot be are refused.
   *
   * @param doubt what stands around the part says of it
   */
  grids(part: Part, doubt: Doubt = 'none'): SheetEntry[] {
    return withoutDoubtful([...this.cutGrids(part)], this.options.geometry, doubt)
  }

  /** The grid of a drawing in which blanks are empty cells, so that they do not say how wide it is. */
  blankCells({ lines, notes }: Part): SheetEntry {
    const entry = this.entry(lines, notes)
    // pencil marks are no digits that could stand twice
    return entry.sheet?.notes ? entry : withoutDoubtful([{ entry }], this.options.geometry, 'none')[0]!
  }

  private *cutGrids({ lines, roles, width, cut, notes }: Part): Generator<Cut> {
    let first = true
    let from = 0
    let rows = 0
    const take = (to: number): Part => {
      const part = {
        cut,
        width,
        rows,
        lines: lines.slice(from, to),
        roles: roles.slice(from, to),
        notes: first ? notes : NO_NOTES,
      }
      first = false
      from = to
      rows = 0
      return part
    }
    for (let i = 0; i < lines.length; i++) {
      const role = roles[i]!
      if (role === 'stray') {
        const part = take(i + 1)
        const isGrid = profileOf(lines[i]!).widths.symbols >= SHORTEST_GRID_LINE
        const rest = roles[i + 1] === 'rest' ? lines[i + 1]!.text : ''
        const whole = { ...lines[i]!, text: lines[i]!.text + rest }
        const isDrawn = /^\s*([-*_xo?])\1+\s*$/i.test(whole.text)
        const mayBeRow = !isGrid && !isDrawn && isNearly(profileOf(whole).widths[cut], width)
        yield {
          entry: isGrid ? this.entry([lines[i]!], part.notes) : this.strayLine(lines[i]!, part),
          ...(mayBeRow ? { leftOut: styleOf(whole.text, cut) } : {}),
        }
        continue
      }
      rows += rowsOf(role)
      // two rows on a line may be of two grids, which are broken together
      if (rows === 0 || rows % width !== 0) continue
      // a grid line right below belongs to the grid above it, and so does what is left of its last row
      while (roles[i + 1] === 'drawn' || roles[i + 1] === 'rest') i++
      const part = take(i + 1)
      yield part.roles.every(isSound)
        ? this.whole(part)
        : { entry: this.brokenGrid(part), writing: writingOf(part) }
    }
  }

  /** Blocks that make no grid, as one record. */
  brokenEntry(parts: readonly Part[], width: number, areHeaded: boolean): SheetEntry {
    const lines = parts.flatMap((part) => part.lines)
    const { notes } = parts[0]!
    if (parts.length === 1) {
      const { roles, rows } = parts[0]!
      const isShort = width > 0 && roles.every((role) => role === 'row')
      const error = isShort
        ? wrongRows(lines.at(-1)!.number, rows, width)
        : this.faultOf({ ...parts[0]!, width })
      return this.asEntry(lines[0]!.number, notes, { error })
    }
    const sizes = parts.map((part) => part.rows)
    const counts = `${sizes.slice(0, -1).join(', ')} and ${counted(sizes.at(-1)!, 'row')}`
    const error = shapeError(
      parts[1]!.lines[0]!.number,
      areHeaded ? `a heading between ${counts}` : `${counts} with breaks between them`,
      `${width > 0 ? `${width} rows` : 'the rows of a grid'}, in one piece or in equal bands`,
    )
    return this.asEntry(lines[0]!.number, notes, { error })
  }

  /** A line of one symbol that stands alone: as likely drawn as an empty grid. */
  drawnLine(line: TextLine, notes: Notes): SheetEntry {
    const error = shapeError(
      line.number,
      `${quoteFound(line.text.trim())}, a line of one symbol`,
      'cells with digits (an empty grid on one line is written with 0 or .)',
    )
    return this.asEntry(line.number, notes, { error })
  }

  /** Lines that have several rows of one grid each; or rows of grids side by side, which are not taken apart. */
  severalRows(lines: readonly TextLine[], cells: number, notes: Notes): SheetEntry {
    const order = orderOfCount(cells * lines.length)
    const areWhole = lines.every(({ text }) => text.trim().length === cells)
    if (order > 0 && cells % order === 0 && areWhole) return this.entry(rowsOfLines(lines, order), notes)
    const error = shapeError(
      lines[0]!.number,
      `${lines.length} lines of ${cells} cells`,
      'all cells of a grid on one line, or rows of 4 to 16 cells, one grid below the other',
    )
    return this.asEntry(lines[0]!.number, notes, { error })
  }

  unclearSixteen({ lines, notes }: Part): SheetEntry {
    const error = shapeError(
      lines[0]!.number,
      'lines of 16 symbols that may be 4×4 grids or rows of a 16×16 grid',
      'the option geometry, which says so',
    )
    return this.asEntry(lines[0]!.number, notes, { error })
  }

  /**
   * All grids of a piece of JSON. Where it is broken, the lines of it that are whole on their own, and what begins anew
   * further down.
   */
  *jsonEntries(lines: readonly TextLine[], notes: Notes): Generator<SheetEntry> {
    const line = lines[0]!.number
    try {
      let first = true
      for (const grid of readJsonGrids(lines, this.options.geometry?.order)) {
        yield this.asEntry(line, first ? notes : NO_NOTES, this.judged(grid, first ? notes : NO_NOTES))
        first = false
      }
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      const next = lines.findIndex(({ text }, i) => i > 0 && BEGINS_ROWS.test(text))
      if (next < 0) yield* this.jsonByLines(lines, notes, error)
      else {
        yield* this.jsonEntries(lines.slice(0, next), notes)
        yield* this.jsonEntries(lines.slice(next), NO_NOTES)
      }
    }
  }

  private *jsonByLines(lines: readonly TextLine[], notes: Notes, error: InputError): Generator<SheetEntry> {
    let isBroken = false
    for (const [i, line] of lines.entries()) {
      const alone = lines.length > 1 ? this.jsonLine(line) : undefined
      if (alone) yield this.asEntry(line.number, NO_NOTES, alone)
      else if (!isBroken) yield this.asEntry(line.number, i === 0 ? notes : NO_NOTES, { error })
      isBroken = !alone
    }
  }

  /** A line of broken JSON that is a grid on its own; short lists may be rows. */
  private jsonLine({ text, number }: TextLine): Reading | undefined {
    const body = text.trim().replace(/,$/, '')
    if (!/^[[{].*[\]}]$/.test(body)) return undefined
    try {
      const [grid, ...others] = readJsonGrids([{ text: body, number }])
      if (!grid || grid instanceof InputError || others.length > 0) return undefined
      return body[0] === '{' || grid.order > 4 ? this.judged(grid, NO_NOTES) : undefined
    } catch (error) {
      if (error instanceof InputError) return undefined
      throw error
    }
  }

  private asEntry(line: number, { title, comments }: Notes, reading: Reading): SheetEntry {
    return { line, title: title ?? reading.sheet?.remark, comments, ...reading }
  }

  private brokenGrid(part: Part): SheetEntry {
    return this.asEntry(part.lines[0]!.number, part.notes, { error: this.faultOf(part) })
  }

  private strayLine({ text, number }: TextLine, { width, notes }: Part): SheetEntry {
    const expected = `rows of ${width} cells, and # before a line that is none`
    const error = shapeError(number, quoteFound(text.trim()), expected)
    return this.asEntry(number, notes, { error })
  }

  /** What is wrong with a grid of which one line or more is not what the others are. */
  private faultOf(part: Part): InputError {
    const { lines, roles, width, cut } = part
    const wrong = roles.findIndex((role) => !isSound(role))
    const line = lines[wrong]
    const { error } = this.read(prepared(lines, roles), part.notes)
    if (error && (!line || error.place.line === line.number)) return error
    if (!line) return wrongRows(lines.at(-1)!.number, part.rows, width)
    const at = { line: line.number }
    if (roles[wrong] === 'foreign') {
      return textError(
        'text-shape',
        at,
        quoteFound(line.text.trim()),
        `a row of ${width} cells like those around it`,
      )
    }
    const cells = profileOf(line).widths[cut]
    return textError('text-shape', at, counted(cells, 'cell'), `${width} on each of ${width} lines`)
  }

  private read(lines: readonly TextLine[], notes: Notes): Reading {
    try {
      const geometry = agreedGeometry(this.options.geometry, notes.geometry)
      return { sheet: readLaidOut(lines, { ...this.options, geometry }), geometry }
    } catch (error) {
      if (error instanceof InputError) return { error }
      throw error
    }
  }

  private judged(grid: Sheet | InputError, notes: Notes): Reading {
    if (grid instanceof InputError) return { error: grid }
    try {
      return { sheet: grid, geometry: agreedGeometry(this.options.geometry, notes.geometry) }
    } catch (error) {
      if (error instanceof InputError) return { error }
      throw error
    }
  }
}

/** A list of rows begins at the left edge: no line within another list does so. */
const BEGINS_ROWS = /^\[\s*\[/

/** Symbols from which on a line between rows may be a grid; sixteen may be a number of another kind. */
export const SHORTEST_GRID_LINE = 36

/** The lines of a grid without the drawn ones above and below it, unless they frame it. */
function withoutEnds({ lines, roles }: Part): [readonly TextLine[], readonly Role[]] {
  if (lines.some(({ text }) => hasRules(text))) return [lines, roles]
  const from = roles.findIndex((role) => role !== 'drawn')
  const to = roles.findLastIndex((role) => role !== 'drawn') + 1
  return [lines.slice(from, to), roles.slice(from, to)]
}

/** A line for each row, where it stands. */
function rowsOfLines(lines: readonly TextLine[], order: number): TextLine[] {
  return lines.flatMap(({ text, number }) => {
    const margin = text.length - text.trimStart().length
    return (text.trim().match(new RegExp(`.{${order}}`, 'g')) ?? []).map((row, i) => ({
      text: ' '.repeat(margin + i * order) + row,
      number,
    }))
  })
}

function isSound(role: Role): boolean {
  return role === 'row' || role === 'drawn'
}

function wrongRows(line: number, rows: number, width: number): InputError {
  return shapeError(
    line,
    `${counted(rows, 'line')} of ${width} cells`,
    `${width} lines, and a break between grids`,
  )
}

function readLaidOut(lines: readonly TextLine[], options: SheetOptions): Sheet {
  const [line] = lines
  if (lines.length !== 1 || !line) return readSheet(lines, options)
  const { hasBars, longestRun } = profileOf(line)
  if (hasBars && longestRun > LONGEST_ROW) {
    return readSheet([{ text: line.text.replace(/[|\u00a6]/g, ' '), number: line.number }], options)
  }
  const dotted = lineWithDots(line)
  return readSheet(dotted ? [dotted] : lines, options)
}

/** Lines with dashes for whatever grid lines are drawn with, and with dots for dashes where those are empty cells. */
function prepared(lines: readonly TextLine[], roles: readonly Role[]): readonly TextLine[] {
  const isOddlyDrawn = (text: string, i: number) => roles[i] === 'drawn' && !isRuleLine(text)
  const isDashedRow = (text: string, i: number) => roles[i] === 'row' && isRuleLine(text)
  if (!lines.some(({ text }, i) => isOddlyDrawn(text, i) || isDashedRow(text, i))) return lines
  const areDashes =
    lines.some(({ text }, i) => isDashedRow(text, i)) &&
    !lines.some(({ text }, i) => roles[i] === 'row' && /[._*xo?]|\b0\b/i.test(text))
  return lines.map((line, i) => {
    if (isOddlyDrawn(line.text, i)) return { text: line.text.replace(/\S/g, '-'), number: line.number }
    return areDashes && roles[i] === 'row'
      ? { text: line.text.replaceAll('-', '.'), number: line.number }
      : line
  })
}
