import { Board } from '../board.js'
import type { Puzzle } from '../puzzle.js'
import { SEPARATORS, type WriteOptions } from './format.js'
import type { TextFormatName } from './formats.js'
import { formatNamed } from './parse.js'
import { EMPTY_SYMBOLS, isEmptySymbol } from './symbols.js'

export interface FormatOptions extends WriteOptions {
  /** Name of a text format; `line` unless asked otherwise. */
  readonly style?: TextFormatName
}

/**
 * Writes a puzzle or a board as text without a line end at its end: `formatPuzzle(puzzle, { style: 'ruled' })`.
 *
 * Every style reads back as the same puzzle. `marks` and `json` read back as the same board too; the other styles show
 * only the digits that stand on a board, whether printed or placed.
 *
 * @throws RangeError for a style that does not exist, or a character that would not read back as what it stands for.
 */
export function formatPuzzle(puzzle: Puzzle | Board, options: FormatOptions = {}): string {
  const { empty = '.', separator = ',' } = options
  if (!isEmptySymbol(empty)) throw unreadable('empty', empty, EMPTY_SYMBOLS)
  if (!SEPARATORS.includes(separator)) throw unreadable('separator', separator, SEPARATORS)
  const board = puzzle instanceof Board ? puzzle : Board.fromPuzzle(puzzle)
  return formatNamed(options.style ?? 'line').write(board, options)
}

function unreadable(option: string, found: string, known: readonly string[]): RangeError {
  return new RangeError(
    `\`${option}\` is ${JSON.stringify(found)}; it is one of ${known.map((one) => JSON.stringify(one)).join(' ')}.`,
  )
}
