import { InputError } from '../../errors.js'
import type { Board } from '../board.js'
import type { Geometry } from '../geometry.js'
import type { Puzzle } from '../puzzle.js'
import { SheetCutter, type SheetEntry } from './cutter.js'
import type { ParseOptions } from './parse.js'
import { LONGEST_LINE, readLines } from './read-lines.js'
import { type Sheet, sheetBoard, sheetGeometry, sheetPuzzle } from './sheet.js'

/** Where a grid of a file stands and what was said about it. */
export interface EntryPlace {
  /** The first line of the grid, from 1. */
  readonly line: number
  /** A heading above it (`Grid 01`) or the other words on its line. */
  readonly title: string | undefined
  /** Lines that begin with `#` since the grid before. */
  readonly comments: readonly string[]
}

export type PuzzleEntry = EntryPlace &
  ({ readonly ok: true; readonly puzzle: Puzzle } | { readonly ok: false; readonly error: InputError })

export type BoardEntry = EntryPlace &
  ({ readonly ok: true; readonly board: Board } | { readonly ok: false; readonly error: InputError })

/**
 * Reads a file of many puzzles piece by piece: `for await (const entry of readPuzzles(createReadStream(f, 'utf8')))`.
 * One a line or over several lines, in any format (JSON: one a line), with `#` comments, headings and blank lines between. What cannot be
 * read comes out as an entry with its error, and reading goes on. Memory stays bounded whatever the input.
 *
 * Without a geometry, sixteen lines of sixteen symbols are one 16×16 puzzle if most of them have a digit above 4, and
 * sixteen 4×4 puzzles otherwise: name the geometry where it matters.
 */
export async function* readPuzzles(
  chunks: AsyncIterable<string> | Iterable<string>,
  options: ParseOptions = {},
): AsyncGenerator<PuzzleEntry> {
  for await (const { place, result } of readEntries(chunks, options, sheetPuzzle)) {
    yield result.ok ? { ...place, ok: true, puzzle: result.value } : { ...place, ...result }
  }
}

/** `readPuzzles` for half-solved grids with pencil marks. */
export async function* readBoards(
  chunks: AsyncIterable<string> | Iterable<string>,
  options: ParseOptions = {},
): AsyncGenerator<BoardEntry> {
  for await (const { place, result } of readEntries(chunks, options, sheetBoard)) {
    yield result.ok ? { ...place, ok: true, board: result.value } : { ...place, ...result }
  }
}

type Result<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: InputError }

async function* readEntries<T>(
  chunks: AsyncIterable<string> | Iterable<string>,
  options: ParseOptions,
  build: (sheet: Sheet, geometry: Geometry) => T,
): AsyncGenerator<{ place: EntryPlace; result: Result<T> }> {
  const cutter = new SheetCutter(options)
  const finish = ({ line, title, comments, sheet, error }: SheetEntry) => {
    let result: Result<T>
    try {
      if (!sheet) throw error
      result = { ok: true, value: build(sheet, sheetGeometry(sheet, options.geometry)) }
    } catch (trouble) {
      if (!(trouble instanceof InputError)) throw trouble
      result = { ok: false, error: trouble }
    }
    return { place: { line, title, comments }, result }
  }
  for await (const line of readLines(chunks)) {
    if (line.tooLong) {
      for (const entry of cutter.end()) yield finish(entry)
      yield {
        place: { line: line.number, title: undefined, comments: [] },
        result: { ok: false, error: tooLong(line.number) },
      }
    } else {
      for (const entry of cutter.add(line)) yield finish(entry)
    }
  }
  for (const entry of cutter.end()) yield finish(entry)
}

function tooLong(line: number): InputError {
  const found = `a line of more than ${LONGEST_LINE} characters`
  const expected = 'lines short enough to hold one grid'
  return new InputError(
    'text-shape',
    `Line ${line}: found ${found}; expected ${expected}. The line was passed over.`,
    {
      place: { line },
      found,
      expected,
    },
  )
}
