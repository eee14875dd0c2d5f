import { Board } from '../board.js'
import type { Puzzle } from '../puzzle.js'
import type { WriteOptions } from './format.js'
import type { TextFormatName } from './formats.js'
import { formatNamed } from './parse.js'

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
 * @throws RangeError for a style that does not exist.
 */
export function formatPuzzle(puzzle: Puzzle | Board, options: FormatOptions = {}): string {
  const board = puzzle instanceof Board ? puzzle : Board.fromPuzzle(puzzle)
  return formatNamed(options.style ?? 'line').write(board, options)
}
