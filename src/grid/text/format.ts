import type { Board } from '../board.js'
import type { DigitStyle } from '../digit-names.js'
import type { Geometry } from '../geometry.js'
import type { TextLine } from './lines.js'
import type { Sheet } from './sheet.js'
import type { EmptySymbol } from './symbols.js'

export interface WriteOptions {
  /**
   * The character for an empty cell; `.` unless asked otherwise, and where `*` or `_` would make nothing but whole
   * lines of it, which look drawn.
   */
  readonly empty?: EmptySymbol | undefined
  /** Digits above nine in the style `ruled`: letters, or numbers. */
  readonly digits?: DigitStyle | undefined
  /** Between values, in the styles that have one: `,` unless asked otherwise. */
  readonly separator?: (typeof SEPARATORS)[number]
}

export const SEPARATORS = [',', ';', '\t'] as const

/**
 * One way to write a grid as text. A new one is a file like the others beside this one and a line in `formats.ts`.
 *
 * All functions get lines of content only (no comments, headings or blank lines at the ends) with their file numbers.
 */
export interface TextFormat {
  readonly name: string
  /**
   * How well the layout fits, without a look at single symbols: 0 not at all, 1 perhaps, 2 clearly.
   *
   * @param wantsMarks a board is asked for, so that a few pencil marks are meant
   */
  fits(lines: readonly TextLine[], wantsMarks?: boolean): 0 | 1 | 2
  /** @throws InputError with the place, what was found there and what was expected. */
  read(lines: readonly TextLine[], geometry: Geometry | undefined): Sheet
  /** Text that `read` takes back, without a line end at its end. */
  write(board: Board, options: WriteOptions): string
}
