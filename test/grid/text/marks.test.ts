import { describe, expect, it } from 'vitest'
import { applyTo } from '../../../src/grid/board/edit.js'
import { newBoard } from '../../../src/grid/board/make.js'
import { digitsOf } from '../../../src/grid/digits.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { parseBoard, parsePuzzle, safeParseBoard } from '../../../src/grid/text/parse.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'

/** A 4×4 board as people write it: a given 1, a placed 3, one single candidate, one cell not looked at. */
const CELLS = [
  ['1', '24', '3?', '.'],
  ['34', '+2', '14', '134'],
  ['234', '134', '124', '134'],
  ['234', '!', '124', '134'],
]

const LAYOUTS = {
  'spaces between cells': CELLS.map((row) => row.join('  ')).join('\n'),
  'tabs between cells': CELLS.map((row) => row.join('\t')).join('\n'),
  'commas between cells': CELLS.map((row) => row.join(', ')).join('\n'),
  'nothing for a cell without marks': CELLS.map((row) => row.join(';').replace('.', '')).join('\n'),
  'rules between boxes': CELLS.map((row) => `| ${row[0]} ${row[1]} | ${row[2]} ${row[3]} |`)
    .toSpliced(2, 0, '|--------|--------|')
    .join('\n'),
  'rules between all cells, candidates spread': CELLS.map((row) =>
    row.map((cell) => (/^\d\d+$/.test(cell) ? [...cell].join(' ') : cell.replace('.', ' '))).join(' | '),
  ).join('\n'),
}

describe('parseBoard', () => {
  it.each(Object.keys(LAYOUTS) as (keyof typeof LAYOUTS)[])('reads pencil marks with %s', (name) => {
    const board = parseBoard(LAYOUTS[name])
    expect(board.geometry.name).toBe('2x2')
    expect(Array.from(board.given).join('')).toBe('1000000000000000')
    expect(Array.from(board.digits).join('')).toBe('1000020000000000')
    // What the placed digits rule out is struck out; nothing else is.
    expect(Array.from(board.candidates, (set) => digitsOf(set).join(''))).toEqual([
      ...['', '4', '3', '234'],
      ...['34', '', '14', '134'],
      ...['234', '134', '124', '134'],
      ...['234', '', '124', '134'],
    ])
  })

  it('makes a board of a text without pencil marks', () => {
    const text = '1...2...3...4...'
    expect(Array.from(parseBoard(text).candidates)).toEqual(
      Array.from(newBoard(parsePuzzle(text)).candidates),
    )
  })

  it('takes a lone digit for a digit and parsePuzzle keeps nothing but those', () => {
    expect(parsePuzzle(LAYOUTS['spaces between cells']).givens.join('')).toBe('1000000000000000')
  })

  it.each([
    ['42', 'descending candidates'],
    ['22', 'a candidate twice'],
    ['25', 'a candidate out of range'],
    ['+24', 'two placed digits'],
    ['+2?', 'placed and doubtful'],
    ['?', 'doubt about nothing'],
  ])('refuses %s: %s', (cell) => {
    const text = LAYOUTS['spaces between cells'].replace('234  !', `234  ${cell}`)
    const result = safeParseBoard(text)
    expect(result.ok).toBe(false)
    if (!result.ok) expect(result.error).toMatchObject({ code: 'text-symbol', place: { line: 4, column: 6 } })
  })

  it('refuses twelve that may be one and two', () => {
    const board = newBoard(parsePuzzle('.'.repeat(144), { geometry: boxedGeometry(3, 4) }))
    const oneOrTwo = applyTo(board, {
      placements: [],
      removals: [3, 4, 5, 6, 7, 8, 9, 10, 11, 12].map((digit) => ({ cell: 0, digit })),
    })
    const text = formatPuzzle(oneOrTwo, { style: 'marks' })
    expect(text).toMatch(/^\| 1,2 /m)
    expect(digitsOf(parseBoard(text).candidates[0]!)).toEqual([1, 2])
    const joined = safeParseBoard(text.replace('1,2 ', '12  '))
    expect(joined.ok ? '' : joined.error.message).toMatch(/found "12".*such as 1,5,10/)
  })
})

describe('the marks drawing', () => {
  it('tells givens, placed digits, single candidates and cells without any apart', () => {
    const board = parseBoard(LAYOUTS['spaces between cells'], { geometry: boxedGeometry(2, 2) })
    expect(formatPuzzle(board, { style: 'marks' })).toBe(
      [
        '+---------+---------+',
        '| 1   4?  | 3?  .   |',
        '| 34  +2  | 14  134 |',
        '+---------+---------+',
        '| 234 134 | 124 134 |',
        '| 234 !   | 124 134 |',
        '+---------+---------+',
      ].join('\n'),
    )
  })
})
