import { argumentError } from '../check-arguments.js'
import type { InputError } from '../errors.js'
import { boardFrom } from '../grid/board/make.js'
import type { Board } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { type BoardEntry, type PuzzleEntry, readPuzzles, type TextChunks } from '../grid/text/stream.js'
import { within } from '../grid/text/within.js'
import type { Limits, Watch } from '../limits.js'

/** A puzzle as a source gives it: alone, or with where it comes from. */
export type PuzzleItem = Puzzle | Board | PuzzleEntry | BoardEntry

/**
 * Where puzzles come from: a text, text in pieces (a stream of a file), or a list or stream of puzzles, of half-solved
 * boards, or of what `readPuzzles` and `readBoards` give.
 */
export type PuzzleSource = string | TextChunks | Iterable<PuzzleItem> | AsyncIterable<PuzzleItem>

/** Where in its source a puzzle stands. */
export interface SourcePlace {
  /** How many puzzles come before it, those that could not be read included. */
  readonly index: number
  /** First line of its text, from 1, where it was read from text. */
  readonly line?: number
  /** A heading above it in the text, if there is one. */
  readonly title?: string
}

/** A puzzle of a text that could not be read. */
export interface Unread extends SourcePlace {
  readonly error: InputError
}

/** @throws InputError `argument` for what is no source of puzzles */
export function checkPuzzleSource(source: PuzzleSource, name = 'puzzles'): void {
  const { [Symbol.iterator]: plain, [Symbol.asyncIterator]: async } = Object(source)
  if (typeof plain !== 'function' && typeof async !== 'function')
    throw argumentError(name, 'puzzles in a list or a stream, or text of puzzles', source)
}

/** The boards that the puzzles of a source begin with. */
export async function* startsOf(
  source: PuzzleSource,
  limits: Limits,
  watch: Watch,
  onUnread: ((unread: Unread) => void) | undefined,
): AsyncGenerator<{ readonly start: Board; readonly place: SourcePlace }> {
  let index = 0
  for await (const item of itemsOf(source, limits, watch)) {
    const place: SourcePlace = { index: index++ }
    if (!('ok' in item)) {
      yield { start: boardFrom(item, `puzzles[${place.index}]`), place }
      continue
    }
    const inText = { ...place, line: item.line, ...(item.title !== undefined && { title: item.title }) }
    if (item.ok) yield { start: boardFrom('puzzle' in item ? item.puzzle : item.board), place: inText }
    else onUnread?.({ ...inText, error: item.error })
  }
}

type Piece = PuzzleItem | string | Uint8Array

/** Items as they come; where the first is text, all are pieces of a text. */
async function* itemsOf(source: PuzzleSource, limits: Limits, watch: Watch): AsyncGenerator<PuzzleItem> {
  const pieces: AsyncIterable<Piece> | Iterable<Piece> = typeof source === 'string' ? [source] : source
  const stream = within(pieces, limits, watch)
  try {
    const first = await stream.next()
    if (first.done) return
    const whole = startingWith(first.value, stream)
    if (typeof first.value === 'string' || first.value instanceof Uint8Array)
      yield* readPuzzles(whole as AsyncIterable<string | Uint8Array>)
    else yield* checked(whole)
  } finally {
    await stream.return(undefined)
  }
}

async function* startingWith<Item>(first: Item, rest: AsyncIterable<Item>): AsyncGenerator<Item> {
  yield first
  yield* rest
}

async function* checked(items: AsyncIterable<Piece>): AsyncGenerator<PuzzleItem> {
  let index = 0
  for await (const item of items) {
    if (typeof item !== 'object' || item === null || item instanceof Uint8Array)
      throw argumentError(`puzzles[${index}]`, 'a puzzle, a board, or what readPuzzles gives', item)
    index++
    yield item
  }
}
