import type { Geometry } from '../geometry.js'
import { expectedIn, givenCells } from './cells.js'
import { counted } from './counted.js'
import type { TextFormat } from './format.js'
import { withoutEnds } from './headings.js'
import type { TextLine } from './lines.js'
import { orderOfCount, type Sheet, shapeError, textError } from './sheet.js'
import { digitSymbol, isEmptySymbol, isOtherEmptySymbol, quoteFound, symbolDigit } from './symbols.js'

interface Token {
  readonly text: string
  readonly column: number
}

/** Quotes and brackets that may stand round a grid. */
const WRAPPING = '"\'`()[]{}<>'

/** The shortest run of characters that can be a whole grid: 4×4. */
const SHORTEST = 16

/**
 * A whole grid on one line, one character a cell, row by row: 81 characters for the standard grid. Other words on the
 * line (a number, a rating, a name) are its remark. Groups of equal length with a space between them are read too.
 */
export const lineFormat = {
  name: 'line',

  fits(lines) {
    if (lines.length !== 1) return 0
    if (charactersOnLine(lines[0]!) > 0) return 2
    const tokens = tokensOf(lines[0]!)
    const longest = tokens.reduce((most, { text }) => Math.max(most, text.length), 0)
    return longest >= SHORTEST || (longest > 1 && tokens.length > 3) ? 1 : 0
  },

  read(lines, geometry) {
    if (lines.length !== 1) {
      throw shapeError(lines[1]!.number, `${lines.length} lines`, 'one line that holds all cells')
    }
    const line = lines[0]!
    const tokens = tokensOf(line)
    const whole = tokens.filter(
      ({ text }) => isWholeGrid(text, geometry) && (tokens.length === 1 || !DRAWN.test(text)),
    )
    const cells = puzzleAmong(whole)
    const isWhole = (token: Token) => token.text.length === cells?.text.length && whole.includes(token)
    const others = tokens.filter((token) => !isWhole(token))
    const piece = others.find((token) => cells && mayBeCells(token, cells))
    if (cells && !piece) {
      return sheetOf(cells, others, line)
    }
    const grouped = joinGroups(tokens)
    if (grouped && isWholeGrid(grouped, geometry)) return sheetOf({ text: grouped, column: 1 }, [], line)
    if (whole.length > 1 && !cells) {
      throw textError(
        'text-shape',
        { line: line.number, column: whole[1]!.column },
        `a second grid of ${whole[1]!.text.length} cells on the line`,
        'one grid a line, or a puzzle and its solution',
      )
    }
    if (cells && piece && isOtherGrid(piece, cells)) {
      throw textError(
        'text-shape',
        { line: line.number, column: piece.column },
        `a second run of ${piece.text.length} characters on the line`,
        'one grid a line, or a puzzle and its solution',
      )
    }
    throw explain(line, piece ? [piece] : tokens, grouped, geometry)
  },

  write(board, { empty = '.' }) {
    return Array.from(board.digits, (digit) => (digit ? digitSymbol(digit) : empty)).join('')
  },
} as const satisfies TextFormat

function tokensOf(line: TextLine): Token[] {
  return [...line.text.matchAll(/[^\s,;:=]+/g)].map((match) => {
    const text = withoutEnds(match[0], WRAPPING)
    return { text, column: match.index + 1 + match[0].indexOf(text) }
  })
}

/** Length of the longest word of cell symbols that could be a whole grid of some order; 0 when there is none. */
export function charactersOnLine(line: TextLine): number {
  const words = tokensOf(line).filter((token) => CELLS.test(token.text))
  return Math.max(0, ...words.map((token) => token.text.length).filter((length) => orderOfCount(length) > 0))
}

const CELLS = /^[0-9a-gxo._*?-]+$/i
const CELL = /[0-9a-gxo._*?-]/gi

/** One symbol over and over that lines are drawn with: with other words on the line it is no empty grid. */
const DRAWN = /^([-_*xo?])\1+$/i

function isWholeGrid(text: string, geometry: Geometry | undefined): boolean {
  const order = orderOfCount(text.length)
  if (order === 0 || (geometry && geometry.order !== order)) return false
  return badSymbol(text, order) < 0
}

/** The largest grid on the line; of two of one size the puzzle whose solution the other is, as data sets have it. */
function puzzleAmong(whole: readonly Token[]): Token | undefined {
  const size = Math.max(0, ...whole.map((token) => token.text.length))
  const largest = whole.filter((token) => token.text.length === size)
  const [first, second] = largest
  if (!first || !second) return first
  const [fewer, more] = blanks(first.text) > blanks(second.text) ? [first, second] : [second, first]
  const solves =
    largest.length === 2 &&
    blanks(more.text) === 0 &&
    [...fewer.text].every((symbol, i) => isBlank(symbol) || symbol === more.text[i])
  return solves ? fewer : undefined
}

function blanks(text: string): number {
  return [...text].filter(isBlank).length
}

function isBlank(symbol: string): boolean {
  return isEmptySymbol(symbol) || isOtherEmptySymbol(symbol)
}

/** Words shorter than this are numbers, dates and ratings. */
const SHORTEST_PIECE = 10

/**
 * Could another word on the line be the grid that was meant, damaged, or a piece of it? Then the one that reads must
 * not be taken: it may be the solution, or a number.
 */
function mayBeCells({ text }: Token, cells: Token): boolean {
  if (text.length < Math.min(SHORTEST_PIECE, cells.text.length / 4)) return false
  const symbols = text.match(CELL)?.length ?? 0
  if (symbols < text.length * 0.8 || /^[a-g]+$/i.test(text)) return false
  return text.length * 2 > cells.text.length || blanks(cells.text) === 0
}

/** As long as a grid of another order: no damaged solution, but a number perhaps. */
function isOtherGrid({ text }: Token, cells: Token): boolean {
  return text.length !== cells.text.length && orderOfCount(text.length) > 0
}

/** Where the first symbol stands that no cell of this order can hold, or -1; one other mark may be all empty cells. */
function badSymbol(text: string, order: number): number {
  const hasUsual = [...text].some(isEmptySymbol)
  let other: string | undefined
  for (let i = 0; i < text.length; i++) {
    const symbol = text[i]!
    if (isEmptySymbol(symbol) || symbolDigit(symbol, order) > 0) continue
    if (hasUsual || !isOtherEmptySymbol(symbol)) return i
    other ??= symbol.toLowerCase()
    if (other !== symbol.toLowerCase()) return i
  }
  return -1
}

/** `003 020 600 …`: groups of the same length, two characters or more each, told apart by single spaces. */
function joinGroups(tokens: readonly Token[]): string | undefined {
  const size = tokens[0]?.text.length ?? 0
  if (tokens.length < 2 || size < 2) return undefined
  const even = tokens.every(
    (token, i) => token.text.length === size && token.column === tokens[0]!.column + i * (size + 1),
  )
  return even ? tokens.map((token) => token.text).join('') : undefined
}

function sheetOf(cells: Token, words: readonly Token[], line: TextLine): Sheet {
  const order = orderOfCount(cells.text.length)
  const remark = words.map((word) => word.text).join(' ')
  return {
    order,
    cells: givenCells(
      Array.from(cells.text, (text, i) => ({ text, line: line.number, column: cells.column + i })),
      order,
    ),
    line: line.number,
    ...(remark ? { remark } : {}),
  }
}

/** Why nothing on the line is a grid: a wrong symbol in a run of the right length, else a wrong length. */
function explain(
  line: TextLine,
  tokens: readonly Token[],
  grouped: string | undefined,
  geometry: Geometry | undefined,
) {
  const longest = tokens.reduce((best, token) => (token.text.length > best.text.length ? token : best), {
    text: '',
    column: 1,
  })
  const order = orderOfCount(longest.text.length)
  if (order !== 0 && (!geometry || geometry.order === order)) {
    const at = badSymbol(longest.text, order)
    if (at < 0) {
      return textError(
        'text-shape',
        { line: line.number, column: longest.column },
        `a second run of ${longest.text.length} cells on the line`,
        'one grid a line, or a puzzle and its solution',
      )
    }
    return textError(
      'text-symbol',
      { line: line.number, column: longest.column + at },
      quoteFound(longest.text[at]!),
      expectedIn(order),
    )
  }
  const count = grouped?.length ?? longest.text.length
  const wanted = geometry
    ? `${geometry.cellCount} for the geometry "${geometry.name}"`
    : '81 for a 9×9 grid (16 for 4×4, 36 for 6×6, … 256 for 16×16)'
  const spaces =
    tokens.length > 1 && !grouped ? ' without a break (write 0 . _ or * for an empty cell, not a space)' : ''
  return textError(
    'text-shape',
    { line: line.number, column: longest.column },
    `${counted(count, 'character')}${spaces ? ' in a row' : ''}`,
    `${wanted}${spaces}`,
  )
}
