import { describe, expect, it } from 'vitest'
import { parsePuzzle, safeParsePuzzle } from '../../../src/grid/text/parse.js'
import { faultOf, text } from './reading.js'

const SMALL = '1000001002000003'
const SIX = '100020030000004000000500000060200001'
const chunks = (line: string, size: number) => line.match(new RegExp(`.{${size}}`, 'g'))!
const rowsOf = (line: string) => chunks(line, Math.sqrt(line.length))
/** Groups of cells on each row, with something between cells, between groups and at both ends. */
const grouped = (
  line: string,
  {
    size,
    empty = '.',
    inner = '',
    bar = '|',
    left = '',
    right = '',
  }: {
    size: number
    empty?: string
    inner?: string
    bar?: string
    left?: string
    right?: string
  },
) =>
  rowsOf(line.replaceAll('0', empty)).map(
    (row) =>
      left +
      chunks(row, size)
        .map((group) => [...group].join(inner))
        .join(bar) +
      right,
  )
/** A drawn line after every so many rows, but the last. */
const ruled = (lines: readonly string[], height: number, rule: string) =>
  lines.flatMap((line, r) => (r % height === 0 && r > 0 ? [rule, line] : [line]))

const read = (...lines: readonly (string | readonly string[])[]) => {
  const result = safeParsePuzzle(text(...lines))
  return result.ok ? `${result.puzzle.geometry.name} ${result.puzzle.givens.join('')}` : result.error.message
}

describe('rules between boxes', () => {
  const blank = { size: 2, empty: ' ', inner: ' ' }
  it.each<[string, readonly string[]]>([
    ['bars alone', grouped(SMALL, { size: 2 })],
    ['bars, and a frame on the left', grouped(SMALL, { size: 2, left: '|' })],
    ['bars, and a frame on the right', grouped(SMALL, { size: 2, right: '|' })],
    ['bars and a frame', grouped(SMALL, { size: 2, left: '|', right: '|' })],
    ['bars and a frame, further in', grouped(SMALL, { size: 2, left: '   |', right: '|' })],
    ['doubled bars', grouped(SMALL, { size: 2, bar: '||', left: '||', right: '||' })],
    ['broken bars', grouped(SMALL, { size: 2, bar: '¦' })],
    ['bars of a box drawing', grouped(SMALL, { size: 2, bar: '│', left: '│', right: '│' })],
    ['heavy bars', grouped(SMALL, { size: 2, bar: '┃' })],
    ['bars with blanks round them', grouped(SMALL, { size: 2, inner: ' ', bar: ' | ' })],
    [
      'bars with blanks in rows',
      grouped(SMALL, { size: 2, inner: ' ', bar: ' | ', left: '| ', right: ' |' }),
    ],
    ['blank cells', grouped(SMALL, { ...blank, bar: ' | ', left: '| ', right: ' |' })],
    ['blank cells, packed', grouped(SMALL, { size: 2, empty: ' ', left: '|', right: '|' })],
    ['blank cells without a frame', grouped(SMALL, { size: 2, empty: ' ' }).map((row) => row.trimEnd())],
    [
      'cells three columns apart',
      grouped(SMALL, { ...blank, inner: '  ', bar: ' | ', left: '| ', right: ' |' }),
    ],
  ])('%s', (_, lines) => {
    expect(read(lines)).toBe(`2x2 ${SMALL}`)
    const margin = lines[0]!.length - lines[0]!.trimStart().length
    const drawn = lines[0]!.trimStart().replace(/[^|│┃¦]/g, '-')
    const rule = ' '.repeat(margin) + drawn.replace(/[|│┃¦]/g, '+')
    expect(read(ruled(lines, 2, rule))).toBe(`2x2 ${SMALL}`)
    expect(read(rule, ruled(lines, 2, rule), rule)).toBe(`2x2 ${SMALL}`)
    expect(read(ruled(lines, 2, rule.replaceAll('-', '=')))).toBe(`2x2 ${SMALL}`)
  })

  it.each(['-', '?', 'x', '*', '_'])('rows of %s alone are empty cells in a frame', (mark) => {
    const line = `1000${'0000'}0203${'0040'}`
    const lines = grouped(line, { size: 2, empty: mark, inner: ' ', bar: ' | ', left: '| ', right: ' |' })
    const rule = '+-----+-----+'
    expect(read(rule, ruled(lines, 2, rule), rule)).toBe(`2x2 ${line}`)
    expect(read(grouped(line, { size: 2, empty: mark }))).toBe(`2x2 ${line}`)
  })

  it.each([
    ['-', 2],
    ['=', 2],
    ['~', 2],
    ['_', 2],
    ['─', 2],
    ['-', 3],
    ['=', 3],
  ] as const)('lines of %s after each %i rows', (sign, height) => {
    const rows = rowsOf(SIX.replaceAll('0', '.'))
    const name = height === 2 ? '2x3' : '3x2'
    expect(read(ruled(rows, height, sign.repeat(6)))).toBe(`${name} ${SIX}`)
    const barred = grouped(SIX, { size: 6 / height })
    expect(read(ruled(barred, height, sign.repeat(8)))).toBe(`${name} ${SIX}`)
  })

  it.each([
    [2, '3x2'],
    [3, '2x3'],
  ] as const)('bars after each %i cells say the boxes', (size, name) => {
    expect(read(grouped(SIX, { size }))).toBe(`${name} ${SIX}`)
    expect(read(grouped(SIX, { size, left: '|', right: '|' }))).toBe(`${name} ${SIX}`)
    expect(read(grouped(SIX, { size, left: '|', right: '|', inner: ' ' }))).toBe(`${name} ${SIX}`)
  })
})

describe('rules round every cell', () => {
  const cells = (line: string, bars: (c: number) => string, empty = ' ') =>
    rowsOf(line.replaceAll('0', empty)).map(
      (row) => `${bars(0)}${[...row].map((cell, c) => ` ${cell} ${bars(c + 1)}`).join('')}`,
    )
  const rule = (order: number, sign: string) => `+${`${sign.repeat(3)}+`.repeat(order)}`

  it('say the boxes where some are heavy', () => {
    const heavy = (size: number) => (c: number) => (c % size === 0 ? '║' : '│')
    expect(read(cells(SIX, heavy(3)))).toBe(`2x3 ${SIX}`)
    expect(read(cells(SIX, heavy(2)))).toBe(`3x2 ${SIX}`)
    expect(read(cells(SIX, heavy(2), '.'))).toBe(`3x2 ${SIX}`)
    expect(read(cells(SIX, (c) => (c === 2 || c === 3 ? '║' : '│')))).toMatch(/rules that cut unequal pieces/)
  })

  it('say the boxes where some lines are of equals signs', () => {
    const lines = cells(SIX, () => '|')
    for (const height of [2, 3]) {
      const drawn = lines.flatMap((line, r) => [rule(6, r % height === 0 ? '=' : '-'), line])
      expect(read(drawn, rule(6, '='))).toBe(`${height}x${6 / height} ${SIX}`)
    }
  })

  it('say nothing where all are alike', () => {
    const lines = cells(SIX, () => '|')
    const all = lines.flatMap((line) => [rule(6, '-'), line])
    expect(read(all, rule(6, '-'))).toMatch(/2x3 or 3x2/)
    expect(read(lines)).toMatch(/2x3 or 3x2/)
    expect(read(cells(SMALL, () => '|'))).toBe(`2x2 ${SMALL}`)
  })

  it('may have a head set off, as tables have', () => {
    const lines = cells(SMALL, () => '|')
    expect(read(lines[0]!, '|---|---|---|---|', lines.slice(1))).toBe(`2x2 ${SMALL}`)
    expect(read(lines.slice(0, 3), '|---|---|---|---|', lines.slice(3))).toMatch(
      /rules that cut unequal pieces/,
    )
  })

  it('may have nothing for empty cells', () => {
    const line = '1020012330000004'
    const packed = rowsOf(line).map((row) => [...row].map((cell) => (cell === '0' ? '' : cell)).join('|'))
    expect(packed[0]).toBe('1||2|')
    expect(read(packed)).toBe(`2x2 ${line}`)
    expect(read(packed.map((row) => `|${row}|`))).toBe(`2x2 ${line}`)
  })
})

describe('walls', () => {
  const post = (lines: readonly string[]) => read(lines)
  it('close off boxes where posts stand at every cell', () => {
    const lines = [
      '+---+---+---+---+',
      '| 1     |       |',
      '+   +   +   +   +',
      '|       | 1     |',
      '+---+---+---+---+',
      '|     2 |       |',
      '+   +   +   +   +',
      '|       |     3 |',
      '+---+---+---+---+',
    ]
    expect(post(lines)).toBe(`2x2 ${SMALL}`)
    expect(post(lines.map((line) => `   ${line}`))).toBe(`2x2 ${SMALL}`)
  })

  it('close off regions of any shape', () => {
    const lines = [
      '+---+---+---+---+',
      '| 1         |   |',
      '+   +---+---+   +',
      '|   | 2 |       |',
      '+---+   +   +---+',
      '|       | 3 |   |',
      '+   +---+---+   +',
      '|   |         4 |',
      '+---+---+---+---+',
    ]
    const puzzle = parsePuzzle(text(lines))
    expect(puzzle.givens.join('')).toBe('1000020000300004')
    expect(puzzle.geometry.name).toBe('drawn 4x4')
    // a wall less, and two regions are one
    expect(read(lines.with(2, '+   +   +---+   +'))).toMatch(/^Line \d/)
    expect(read(lines.with(3, '|   | 2         |'))).toMatch(/^Line \d/)
    expect(read(lines.with(1, '| 1          |  |'))).toMatch(/^Line \d/)
  })
})

describe('drawings that are refused', () => {
  it.each<[string, readonly string[], RegExp]>([
    ['three rows', ['12|34', '34|12', '21|43'], /^Line 3: found 3 lines of 4 cells/],
    [
      'a bar that is missing',
      ['..|3.', '..1.', '.1|..', '3.|.1'],
      /^Line 2: found 0 vertical rules; expected 1 as on line 1/,
    ],
    [
      'a bar in another place',
      ['1.|3.', '...|1', '.1|..', '3.|.1'],
      /^Line 2: found 3 cells between two vertical rules/,
    ],
    [
      'drawn lines after one and three rows',
      ['..|3.', '--+--', '..|1.', '.1|..', '--+--', '3.|.1'],
      /unequal pieces/,
    ],
    [
      'a zero where blanks are empty cells',
      [
        '08  1  ',
        '    06 3',
        '--------',
        '  3827 1',
        '2751   8',
        '43    16',
        '     3 2',
        '  2     ',
        '516 3   ',
      ],
      /^Line/,
    ],
    ['text left of the frame', ['a|12|34|', 'b|34|12|', 'c|21|43|', '|43|21|'], /^Line/],
  ])('%s', (_, lines, message) => {
    expect(faultOf(text(lines))).toMatch(message)
  })
})
