import { boardFromMarks } from '../grid/board/make.js'
import type { Board } from '../grid/board.js'
import { digitSet } from '../grid/digits.js'
import { reading as checkReading } from './check-photo.js'
import type { Reading } from './reading.js'

/**
 * The player's board on a page that somebody has written in: givens, entries as they were written, right or wrong, and
 * pencil marks. Cells without marks are cells in which nothing has been noted.
 *
 * @example
 * const { readings: [reading] } = await reader.read('half-solved.jpg')
 * const board = boardOf(reading)
 * checkProgress(puzzleOf(board), board) // what is wrong, kindly
 *
 * @throws InputError `argument` for what is no reading
 */
export function boardOf(reading: Reading): Board {
  checkReading(reading, 'reading')
  const digits = reading.cells.map(({ digit, entry }) => digit || entry.digit)
  const marks = reading.cells.map((cell) =>
    cell.marks.digits.length > 0 ? digitSet(cell.marks.digits) : undefined,
  )
  return boardFromMarks(reading.puzzle, digits, marks)
}
