import { argumentError, boolean, checkOptions, type OptionChecks, oneOf } from '../../check-arguments.js'
import { boardFrom } from '../board/make.js'
import type { Board } from '../board.js'
import { checkStyle } from '../digit-names.js'
import { type Geometry, squareGeometry } from '../geometry.js'
import type { Puzzle } from '../puzzle.js'
import { regionsOf, sameRegions } from '../regions.js'
import { SEPARATORS, type WriteOptions } from './format.js'
import type { TextFormatName } from './formats.js'
import { geometryLine } from './geometry-line.js'
import { checkFormat, formatNamed } from './read-sheet.js'
import { boxesOfPieces, piecesBetweenWalls } from './rules.js'
import { EMPTY_SYMBOLS } from './symbols.js'

/** Styles that can show a digit in two characters; `separated` always does. */
const NUMBERED: readonly TextFormatName[] = ['ruled', 'separated']

/** How a grid is written. */
export interface FormatOptions extends WriteOptions {
  /** Name of a text format; `line` unless asked otherwise. */
  readonly style?: TextFormatName
  /**
   * Without it, a line such as `# geometry: 3x2` comes first wherever the style alone does not show the rules (all but
   * `json`). Say false where the geometry is kept elsewhere and handed in again for reading.
   */
  readonly geometryLine?: boolean
}

const FORMAT_CHECKS: OptionChecks<FormatOptions> = {
  style: checkFormat,
  empty: oneOf(EMPTY_SYMBOLS),
  separator: oneOf(SEPARATORS),
  geometryLine: boolean,
  digits: checkStyle,
}

/**
 * Writes a puzzle or a board as text without a line end at its end: `formatPuzzle(puzzle, { style: 'ruled' })`.
 *
 * Every style reads back as the same puzzle with the same rules. `json` reads back as the same board too, and `marks`
 * as one that shows the same: removals under a placed digit are not written. The other styles show only the digits that
 * stand on a board, whether printed or placed.
 *
 * @throws InputError `geometry-shape` for rules that no text can say (`geometryLine: false` leaves them to the caller)
 * @throws InputError `argument` for a style that does not exist, a character that would not read back as what it stands
 *   for, or digits as numbers above order 9 in a style of one character a digit
 *
 * @example
 * formatPuzzle(puzzle) // → '5...6.....6.1.27..4...7...3.....95.4..4..7...2..3......8..2....7....3.9..3...42..'
 * formatPuzzle(puzzle, { style: 'ruled' }) // nine lines and the rules between them
 */
export function formatPuzzle(puzzle: Puzzle | Board, options: FormatOptions = {}): string {
  const board = boardFrom(puzzle, 'puzzle')
  checkOptions<FormatOptions>(options, FORMAT_CHECKS)
  const style = options.style ?? 'line'
  if (options.digits === 'numbers' && board.geometry.order > 9 && !NUMBERED.includes(style))
    throw argumentError('style', `${NUMBERED.join(' or ')} for digits as numbers above order 9`, style)
  const text = formatNamed(style).write(board, { ...options, empty: readableEmpty(board, options.empty) })
  const { geometry } = board
  if (options.geometryLine === false || style === 'json') return text
  // Sixteen symbols on a line may be a 4×4 grid or a row.
  const isRow = geometry.order === 16 && (style === 'rows' || style === 'separated')
  if (geometry.key === squareGeometry(geometry.order)?.key && !isRow) return text
  const line = geometryLine(geometry)
  return isDrawn(style, geometry) ? text : `${line}\n${text}`
}

/** A line of stars or underscores is a drawn one unless another row shows that they are empty cells. */
function readableEmpty({ digits, geometry }: Board, empty: WriteOptions['empty']): WriteOptions['empty'] {
  const { order } = geometry
  const isMixed = (r: number) => {
    const row = digits.slice(r * order, (r + 1) * order)
    return row.includes(0) && row.some((digit) => digit > 0)
  }
  const isShown = Array.from({ length: order }, (_, r) => r).some(isMixed)
  return empty === '.' || empty === '0' || isShown ? empty : undefined
}

function isDrawn(style: TextFormatName, geometry: Geometry): boolean {
  if (style !== 'ruled' && style !== 'marks') return false
  const { box } = geometry
  if (geometry.diagonals) return false
  return box ? box.rows > 1 && box.columns > 1 : isWalled(geometry)
}

/** Can walls alone show the regions? Not where one hangs together nowhere, or where all are rows or columns. */
function isWalled(geometry: Geometry): boolean {
  const { order } = geometry
  const regions = regionsOf(geometry)
  const drawn = piecesBetweenWalls(
    order,
    (cell) => regions[cell] !== regions[cell + 1],
    (cell) => regions[cell] !== regions[cell + order],
  )
  const boxes = boxesOfPieces(order, regions)
  return sameRegions(drawn, regions) && boxes?.rows !== 1 && boxes?.columns !== 1
}
