import { argumentError, checkOptions, type OptionChecks } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import { LIMIT_CHECKS, type Limits, nextTurn, Watch } from '../../limits.js'
import type { Board } from '../board.js'
import type { Geometry } from '../geometry.js'
import type { Puzzle } from '../puzzle.js'
import { SheetCutter } from './cutter.js'
import type { SheetEntry } from './entry.js'
import { BEGINNING, foreignError, foreignKind } from './foreign.js'
import { LineSplitter, LONGEST_LINE, type StreamLine } from './read-lines.js'
import { PARSE_CHECKS, type ParseOptions, type SheetOptions } from './read-sheet.js'
import { type Sheet, shapeError, sheetBoard, sheetGeometry, sheetPuzzle } from './sheet.js'
import { within } from './within.js'

/** Text in pieces: strings, or bytes in UTF-8. */
export type TextChunks = AsyncIterable<string | Uint8Array> | Iterable<string | Uint8Array>

export interface ReadOptions extends ParseOptions, Limits {}

/** Where a grid of a file stands and what was said about it. */
export interface EntryPlace {
  /** The first line of the grid, from 1. */
  readonly line: number
  /** A heading above it (`Grid 01`) or the other words on its line. */
  readonly title: string | undefined
  /** Lines that begin with `#` since the grid before. */
  readonly comments: readonly string[]
}

/** A puzzle of a file or the error in its place, and where it stands. */
export type PuzzleEntry = EntryPlace &
  ({ readonly ok: true; readonly puzzle: Puzzle } | { readonly ok: false; readonly error: InputError })

/** A board of a file or the error in its place, and where it stands. */
export type BoardEntry = EntryPlace &
  ({ readonly ok: true; readonly board: Board } | { readonly ok: false; readonly error: InputError })

/**
 * Reads a file of many puzzles piece by piece: `for await (const entry of readPuzzles(createReadStream(f)))`. One a
 * line or over several lines, in any format, with `#` comments, headings and blank lines between. What cannot be read
 * comes out as an entry with its error, and reading goes on. Memory stays bounded whatever the input.
 *
 * Grids of several lines that follow each other without any break are cut by counting; they come out when the break
 * after the last of them is seen, so that a lost row is noticed. Without a geometry, lines of sixteen symbols are rows
 * of 16×16 puzzles if most of their digits are above 4, and 4×4 puzzles if few are.
 *
 * @throws InputError `argument` for what is no text, at once or when it comes
 * @throws StoppedError `aborted` or `time-limit`, within 100 ms even while the input is silent
 *
 * @example
 * for await (const entry of readPuzzles(['# two puzzles\n', formatPuzzle(puzzle)]))
 *   console.log(entry.line, entry.ok ? formatPuzzle(entry.puzzle) : entry.error.message)
 */
export function readPuzzles(chunks: TextChunks, options: ReadOptions = {}): AsyncGenerator<PuzzleEntry> {
  checkStream(chunks, options)
  return puzzleEntries(chunks, options)
}

async function* puzzleEntries(chunks: TextChunks, options: ReadOptions): AsyncGenerator<PuzzleEntry> {
  for await (const { place, result } of readEntries(chunks, options, sheetPuzzle)) {
    yield result.ok ? { ...place, ok: true, puzzle: result.value } : { ...place, ...result }
  }
}

/**
 * `readPuzzles` for half-solved grids with pencil marks.
 *
 * @example
 * for await (const entry of readBoards([formatPuzzle(board, { style: 'marks' })]))
 *   if (entry.ok) console.log(openCount(entry.board))
 */
export function readBoards(chunks: TextChunks, options: ReadOptions = {}): AsyncGenerator<BoardEntry> {
  checkStream(chunks, options)
  return boardEntries(chunks, options)
}

async function* boardEntries(chunks: TextChunks, options: ReadOptions): AsyncGenerator<BoardEntry> {
  for await (const { place, result } of readEntries(chunks, { ...options, wantsMarks: true }, sheetBoard)) {
    yield result.ok ? { ...place, ok: true, board: result.value } : { ...place, ...result }
  }
}

const STREAM_CHECKS: OptionChecks<ReadOptions> = { ...PARSE_CHECKS, ...LIMIT_CHECKS }

function checkStream(chunks: TextChunks, options: ReadOptions): void {
  const { [Symbol.iterator]: plain, [Symbol.asyncIterator]: async } = Object(chunks)
  if (typeof plain !== 'function' && typeof async !== 'function')
    throw argumentError('chunks', 'text in pieces, such as a stream of a file or a list of strings', chunks)
  checkOptions<ReadOptions>(options, STREAM_CHECKS)
}

type Result<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: InputError }

/** A whole line of this many characters is enough to see that it is text. */
const SHORTEST_BEGINNING = 16

/** Milliseconds of work between two looks at what else the thread has to do. */
const SLICE = 8

async function* readEntries<T>(
  chunks: TextChunks,
  options: ReadOptions & SheetOptions,
  build: (sheet: Sheet, geometry: Geometry) => T,
): AsyncGenerator<{ place: EntryPlace; result: Result<T> }> {
  const watch = new Watch(options, SLICE)
  const cutter = new SheetCutter(options)
  const finish = ({ line, title, comments, sheet, geometry, error }: SheetEntry) => {
    let result: Result<T>
    try {
      if (!sheet) throw error
      result = { ok: true, value: build(sheet, sheetGeometry(sheet, geometry)) }
    } catch (trouble) {
      if (!(trouble instanceof InputError)) throw trouble
      result = { ok: false, error: trouble }
    }
    return { place: { line, title, comments }, result }
  }
  const splitter = new LineSplitter()
  const entriesOf = function* (lines: Iterable<StreamLine>): Generator<SheetEntry | undefined> {
    for (const line of lines) {
      if (line.tooLong) yield* tooLong(cutter, line.number)
      else yield* cutter.add(line)
      // lets other work run where nothing comes out for long
      yield undefined
    }
  }
  const hand = async function* (entries: Iterable<SheetEntry | undefined>) {
    for (const entry of entries) {
      if (entry) yield finish(entry)
      if (watch.isDue()) {
        await nextTurn()
        watch.resume()
      }
    }
  }
  for await (const text of textOf(within(chunks, options, watch))) {
    if (text.foreign !== undefined) {
      yield finish({ line: 1, title: undefined, comments: [], error: foreignError(text.foreign) })
      return
    }
    yield* hand(entriesOf(splitter.add(text.piece)))
    watch.resume()
  }
  yield* hand(entriesOf(splitter.end()))
  yield* hand(cutter.end())
}

function* tooLong(cutter: SheetCutter, line: number): Generator<SheetEntry> {
  yield* cutter.end()
  const found = `a line of more than ${LONGEST_LINE} characters`
  const expected = 'lines short enough to hold one grid; the line was passed over'
  yield { line, title: undefined, comments: [], error: shapeError(line, found, expected) }
}

/** Text from strings and bytes, once its beginning shows that it is text; else what it is. */
async function* textOf(
  chunks: AsyncIterable<string | Uint8Array>,
): AsyncGenerator<{ piece: string; foreign?: never } | { foreign: string }> {
  const decoder = new TextDecoder()
  let beginning: string | undefined = ''
  for await (const chunk of chunks) {
    const piece = typeof chunk === 'string' ? chunk : decodeBytes(decoder, chunk)
    if (beginning === undefined) {
      yield { piece }
      continue
    }
    beginning += piece
    if (beginning.length < BEGINNING && beginning.lastIndexOf('\n') < SHORTEST_BEGINNING) continue
    yield judged(beginning)
    beginning = undefined
  }
  const rest = decoder.decode()
  if (beginning !== undefined) yield judged(beginning + rest)
  else if (rest !== '') yield { piece: rest }
}

function judged(beginning: string): { piece: string; foreign?: never } | { foreign: string } {
  const foreign = foreignKind(beginning)
  return foreign === undefined ? { piece: beginning } : { foreign }
}

function decodeBytes(decoder: InstanceType<typeof TextDecoder>, chunk: unknown): string {
  if (chunk instanceof Uint8Array) return decoder.decode(chunk, { stream: true })
  throw argumentError('chunks', 'text in strings or in bytes (Uint8Array)', chunk)
}
