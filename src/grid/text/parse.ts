import { checkOptions, string } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import type { Board } from '../board.js'
import type { Geometry } from '../geometry.js'
import type { Puzzle } from '../puzzle.js'
import { SheetCutter } from './cutter.js'
import type { SheetEntry } from './entry.js'
import { foreignError, foreignKind } from './foreign.js'
import { agreedGeometry, saidGeometry } from './geometry-line.js'
import { lineKind, splitLines, type TextLine, withoutRemark } from './lines.js'
import {
  noCells,
  noFormatError,
  PARSE_CHECKS,
  type ParseOptions,
  readSheet,
  type SheetOptions,
} from './read-sheet.js'
import { type Sheet, shapeError, sheetBoard, sheetGeometry, sheetPuzzle } from './sheet.js'

/** A puzzle, or the error that says what is wrong with the text. */
export type ParsedPuzzle =
  | { readonly ok: true; readonly puzzle: Puzzle }
  | { readonly ok: false; readonly error: InputError }

/** A board, or the error that says what is wrong with the text. */
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
 *
 * @example
 * const puzzle = parsePuzzle('53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79')
 * puzzle.givens[0] // → 5
 * parsePuzzle('12|34\n34|12\n--+--\n21|43\n43|21').geometry.order // → 4
 */
export function parsePuzzle(text: string, options: ParseOptions = {}): Puzzle {
  checkParse(text, options)
  const { sheet, geometry } = parseText(text, options)
  return sheetPuzzle(sheet, geometry)
}

/**
 * `parsePuzzle` for people who would rather look at a result than catch.
 *
 * @throws InputError `argument` for what is no text or no option, which no other text mends
 *
 * @example
 * const parsed = safeParsePuzzle('5 3 ? typo')
 * if (!parsed.ok) console.log(parsed.error.code, parsed.error.message)
 */
export function safeParsePuzzle(text: string, options: ParseOptions = {}): ParsedPuzzle {
  checkParse(text, options)
  return caught(() => ({ ok: true, puzzle: parsePuzzle(text, options) }))
}

/**
 * Reads a half-solved grid with its pencil marks. Cells without marks are open to every digit that their peers leave;
 * a text without any pencil marks gives the board of the puzzle it shows.
 *
 * @throws InputError as `parsePuzzle` does.
 *
 * @example
 * const board = parseBoard(formatPuzzle(newBoard(puzzle), { style: 'marks' }))
 * openCount(board) // → 57
 */
export function parseBoard(text: string, options: ParseOptions = {}): Board {
  checkParse(text, options)
  const { sheet, geometry } = parseText(text, { ...options, wantsMarks: true })
  return sheetBoard(sheet, geometry)
}

/**
 * `parseBoard` for people who would rather look at a result than catch.
 *
 * @throws InputError as `safeParsePuzzle` does
 *
 * @example
 * safeParseBoard('').ok // → false
 */
export function safeParseBoard(text: string, options: ParseOptions = {}): ParsedBoard {
  checkParse(text, options)
  return caught(() => ({ ok: true, board: parseBoard(text, options) }))
}

function checkParse(text: string, options: ParseOptions): void {
  string(text, 'text')
  checkOptions<ParseOptions>(options, PARSE_CHECKS)
}

function caught<T>(parse: () => T): T | { ok: false; error: InputError } {
  try {
    return parse()
  } catch (error) {
    if (error instanceof InputError) return { ok: false, error }
    throw error
  }
}

function parseText(text: string, options: SheetOptions): { sheet: Sheet; geometry: Geometry } {
  if (text.length > LONGEST_TEXT) {
    throw new InputError(
      'text-shape',
      `The text has ${text.length} characters, too many for one grid (at most ${LONGEST_TEXT}); read files of many puzzles with readPuzzles.`,
      { found: `${text.length} characters`, expected: `at most ${LONGEST_TEXT}` },
    )
  }
  const kind = foreignKind(text)
  if (kind) throw foreignError(kind)
  const { sheet, geometry } =
    options.format === undefined ? onlyGrid(text, options) : namedGrid(text, options)
  return { sheet, geometry: sheetGeometry(sheet, geometry) }
}

/** Entries looked at in a text that should hold one grid. */
const MOST_ENTRIES = 50

/** The only grid of a text whose layout is recognised. */
function onlyGrid(text: string, options: SheetOptions): Found {
  const cutter = new SheetCutter(options, true)
  const entries: SheetEntry[] = []
  const lines = splitLines(text)
  for (const entry of entriesOf(cutter, lines)) {
    entries.push(entry)
    if (entries.length > MOST_ENTRIES) break
  }
  const [first, second] = entries.filter((entry) => entry.sheet)
  if (second) {
    throw shapeError(
      second.line,
      entries.length > MOST_ENTRIES ? 'many grids' : `${entries.filter((entry) => entry.sheet).length} grids`,
      'one; read texts of many puzzles with readPuzzles',
    )
  }
  const wrong = entries.find((entry) => entry.error)
  if (wrong) throw wrong.error!
  if (!first) {
    const words = lines.find((line) => !['blank', 'comment'].includes(lineKind(line.text)))
    throw words ? noFormatError([words]) : noCells()
  }
  return { sheet: first.sheet!, geometry: first.geometry }
}

function* entriesOf(cutter: SheetCutter, lines: readonly TextLine[]): Generator<SheetEntry> {
  for (const line of lines) yield* cutter.add(line)
  yield* cutter.end()
}

interface Found {
  readonly sheet: Sheet
  readonly geometry: Geometry | undefined
}

/** The grid of a text in the one format that is asked for. */
function namedGrid(text: string, options: ParseOptions): Found {
  const lines = splitLines(text)
  const said = lines.find((line) => lineKind(line.text) === 'geometry')
  const geometry = agreedGeometry(options.geometry, said && saidGeometry(said))
  return { sheet: readSheet(contentLines(lines), { ...options, geometry }), geometry }
}

/** Lines with cells or grid lines: without comments, blank lines, and headings above the first line of cells. */
function contentLines(lines: readonly TextLine[]): TextLine[] {
  const kinds = lines.map((line) => lineKind(line.text))
  const firstCells = kinds.indexOf('content')
  return lines
    .filter((_, i) => kinds[i] === 'content' || (kinds[i] === 'title' && i > firstCells))
    .map(({ text, number }) => ({ text: withoutRemark(text), number }))
}
