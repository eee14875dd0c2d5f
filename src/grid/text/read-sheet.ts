import { type OptionChecks, oneOf } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import { checkGeometry, type Geometry } from '../geometry.js'
import type { TextFormat } from './format.js'
import { TEXT_FORMATS, type TextFormatName } from './formats.js'
import type { TextLine } from './lines.js'
import type { Sheet } from './sheet.js'

/** What is known about a text before it is read. */
export interface ParseOptions {
  /**
   * What the text is a puzzle of; else what a line such as `# geometry: 3x2` above it says, else the boxes drawn, else
   * square boxes (orders 4, 9, 16). Other orders have several shapes of boxes, and their text must say which.
   */
  readonly geometry?: Geometry | undefined
  /** Name of the one format to read (`TEXT_FORMATS`); else the format is recognised. */
  readonly format?: TextFormatName
}

/** What the readers hand to the formats. */
export interface SheetOptions extends ParseOptions {
  /** A board is asked for and not just its givens. */
  readonly wantsMarks?: boolean
}

/**
 * The one engine behind every reader: each format that fits the layout reads the lines; they must agree.
 *
 * @throws InputError when none can read them (the best fitting one says why) or when two read different grids.
 */
export function readSheet(lines: readonly TextLine[], options: SheetOptions): Sheet {
  if (lines.length === 0) throw noCells()
  if (options.format !== undefined) return formatNamed(options.format).read(lines, options.geometry)
  const fitting = TEXT_FORMATS.map((format: TextFormat) => ({
    format,
    fit: format.fits(lines, options.wantsMarks),
  }))
    .filter(({ fit }) => fit > 0)
    .sort((a, b) => b.fit - a.fit)
  let found: { format: TextFormat; sheet: Sheet } | undefined
  let firstError: InputError | undefined
  for (const { format } of fitting) {
    const result = caughtSheet(format, lines, options)
    if (!result.ok) {
      firstError ??= result.error
    } else if (!found) {
      found = { format, sheet: result.sheet }
    } else if (!sameCells(found.sheet, result.sheet)) {
      throw new InputError(
        'text-shape',
        `Line ${lines[0]!.number}: the text can be read as "${found.format.name}" and as "${format.name}", with different digits; say which by the option format.`,
        { place: { line: lines[0]!.number }, found: 'text with two readings', expected: 'a named format' },
      )
    }
  }
  if (found) return found.sheet
  throw firstError ?? noFormatError(lines)
}

function caughtSheet(format: TextFormat, lines: readonly TextLine[], { geometry }: ParseOptions) {
  try {
    return { ok: true as const, sheet: format.read(lines, geometry) }
  } catch (error) {
    if (error instanceof InputError) return { ok: false as const, error }
    throw error
  }
}

export const checkFormat = oneOf(TEXT_FORMATS.map(({ name }) => name))

/** For the public entries that read text. */
export const PARSE_CHECKS: OptionChecks<ParseOptions> = { geometry: checkGeometry, format: checkFormat }

/** @throws InputError `argument` for a name that is not in the list */
export function formatNamed(name: string): TextFormat {
  checkFormat(name, 'format')
  return TEXT_FORMATS.find((format) => format.name === name)!
}

export function noFormatError(lines: readonly TextLine[]): InputError {
  const line = lines[0]!.number
  const expected = '81 characters on a line, nine lines of nine, values with separators, or a ruled grid'
  return new InputError('text-shape', `Line ${line}: no grid is recognised here; expected ${expected}.`, {
    place: { line, column: 1 },
    found: 'no known layout',
    expected,
  })
}

function sameCells(a: Sheet, b: Sheet): boolean {
  return (
    a.order === b.order &&
    a.cells.every((cell, i) => {
      const other = b.cells[i]!
      return cell.given === other.given && cell.placed === other.placed && cell.marks === other.marks
    })
  )
}

export function noCells(): InputError {
  const expected = 'a grid such as 81 characters on a line'
  return new InputError('text-empty', `The text holds no cells: expected ${expected}.`, {
    place: { line: 1 },
    found: 'no cells',
    expected,
  })
}
