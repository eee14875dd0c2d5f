import { InputError } from '../../errors.js'
import type { Board } from '../board.js'
import type { Geometry } from '../geometry.js'
import type { Puzzle } from '../puzzle.js'
import type { TextFormat } from './format.js'
import { TEXT_FORMATS, type TextFormatName } from './formats.js'
import { lineKind, splitLines, type TextLine, withoutRemark } from './lines.js'
import { type Sheet, sheetBoard, sheetGeometry, sheetPuzzle } from './sheet.js'

export interface ParseOptions {
  /** What the text is a puzzle of; else the shape its rules show, else the usual one for its number of cells. */
  readonly geometry?: Geometry
  /** Name of the one format to read (`TEXT_FORMATS`); else the format is recognised. */
  readonly format?: TextFormatName
}

export type ParsedPuzzle =
  | { readonly ok: true; readonly puzzle: Puzzle }
  | { readonly ok: false; readonly error: InputError }

export type ParsedBoard =
  | { readonly ok: true; readonly board: Board }
  | { readonly ok: false; readonly error: InputError }

/** Longest text taken for one grid, in characters; many times what the widest drawing of a 16×16 grid needs. */
const LONGEST_TEXT = 200_000

/**
 * Reads one puzzle: `parsePuzzle('003020600900305001…')`. The format is recognised unless named. Comments (`#` at the
 * beginning of a line) and headings are passed over. Only givens count: pencil marks and digits written in by a solver
 * are left out (`parseBoard` keeps them); where a pencil-mark grid has a lone digit in a cell, that is a given.
 *
 * @throws InputError `text-empty`, `text-shape`, `text-symbol`, `json-shape` or `geometry-shape`, with line and column,
 *   what was found there and what was expected.
 */
export function parsePuzzle(text: string, options: ParseOptions = {}): Puzzle {
  const { sheet, geometry } = parseText(text, options)
  return sheetPuzzle(sheet, geometry)
}

/** `parsePuzzle` for people who would rather look at a result than catch. */
export function safeParsePuzzle(text: string, options: ParseOptions = {}): ParsedPuzzle {
  return caught(() => ({ ok: true, puzzle: parsePuzzle(text, options) }))
}

/**
 * Reads a half-solved grid with its pencil marks. Cells without marks are open to every digit that their peers leave;
 * a text without any pencil marks gives the board of the puzzle it shows.
 *
 * @throws InputError as `parsePuzzle` does.
 */
export function parseBoard(text: string, options: ParseOptions = {}): Board {
  const { sheet, geometry } = parseText(text, options)
  return sheetBoard(sheet, geometry)
}

/** `parseBoard` for people who would rather look at a result than catch. */
export function safeParseBoard(text: string, options: ParseOptions = {}): ParsedBoard {
  return caught(() => ({ ok: true, board: parseBoard(text, options) }))
}

function caught<T>(parse: () => T): T | { ok: false; error: InputError } {
  try {
    return parse()
  } catch (error) {
    if (error instanceof InputError) return { ok: false, error }
    throw error
  }
}

function parseText(text: string, options: ParseOptions): { sheet: Sheet; geometry: Geometry } {
  if (typeof text !== 'string') throw new TypeError(`Puzzle text must be a string, not ${typeof text}.`)
  if (text.length > LONGEST_TEXT) {
    throw new InputError(
      'text-shape',
      `The text has ${text.length} characters, too many for one grid (at most ${LONGEST_TEXT}); read files of many puzzles with readPuzzles.`,
      { found: `${text.length} characters`, expected: `at most ${LONGEST_TEXT}` },
    )
  }
  const sheet = readSheet(contentLines(splitLines(text)), options)
  return { sheet, geometry: sheetGeometry(sheet, options.geometry) }
}

/** Lines with cells or rules: without comments, blank lines, and headings above the first line of cells. */
function contentLines(lines: readonly TextLine[]): TextLine[] {
  const kinds = lines.map((line) => lineKind(line.text))
  const firstCells = kinds.indexOf('content')
  return lines
    .filter((_, i) => kinds[i] === 'content' || (kinds[i] === 'title' && i > firstCells))
    .map(({ text, number }) => ({ text: withoutRemark(text), number }))
}

/**
 * The one engine behind every reader: each format that fits the layout reads the lines; they must agree.
 *
 * @throws InputError when none can read them (the best fitting one says why) or when two read different grids.
 */
export function readSheet(lines: readonly TextLine[], options: ParseOptions): Sheet {
  if (lines.length === 0) {
    throw new InputError(
      'text-empty',
      'The text holds no cells: expected a grid such as 81 characters on a line.',
      {
        place: { line: 1 },
        found: 'no cells',
        expected: 'a grid such as 81 characters on a line',
      },
    )
  }
  if (options.format !== undefined) return formatNamed(options.format).read(lines, options.geometry)
  const fitting = TEXT_FORMATS.map((format: TextFormat) => ({ format, fit: format.fits(lines) }))
    .filter(({ fit }) => fit > 0)
    .sort((a, b) => b.fit - a.fit)
  let found: { format: TextFormat; sheet: Sheet } | undefined
  let firstError: InputError | undefined
  for (const { format } of fitting) {
    const result = caught(() => ({ ok: true as const, sheet: format.read(lines, options.geometry) }))
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

/** @throws RangeError for a name that is not in the list: a mistake in the program, not in the text. */
export function formatNamed(name: string): TextFormat {
  const format = TEXT_FORMATS.find((candidate) => candidate.name === name)
  if (!format) {
    const names = TEXT_FORMATS.map((candidate) => candidate.name).join(', ')
    throw new RangeError(`There is no text format "${name}"; there are ${names}.`)
  }
  return format
}

function noFormatError(lines: readonly TextLine[]): InputError {
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
