import { describe, expect, it } from 'vitest'
import { boxedGeometry, regionGeometry } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { parsePuzzle, safeParsePuzzle } from '../../../src/grid/text/parse.js'

const LINE = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'
const ROWS = LINE.match(/.{9}/g)!
const BLANKS = ROWS.map((row) => row.replaceAll('0', ' '))
const DOTS = ROWS.map((row) => row.replaceAll('0', '.'))
const thirds = (row: string) => row.match(/.../g)!
/** A rule before the first line, after every third and after the last one as asked. */
const bands = (lines: string[], rule: string, framed: boolean) =>
  lines.flatMap((line, r) => [
    ...(r % 3 === 0 && (framed || r > 0) ? [rule] : []),
    line,
    ...(framed && r === 8 ? [rule] : []),
  ])
const joined = (lines: string[]) => lines.join('\n')

/** Layouts of one puzzle as people print it. */
const LAYOUTS: Record<string, string> = {
  'bars and dashes without a frame': joined(
    bands(
      DOTS.map((row) => thirds(row).join('|')),
      '---+---+---',
      false,
    ),
  ),
  'the same with spaces for empty cells': joined(
    bands(
      BLANKS.map((row) => thirds(row).join('|')),
      '---+---+---',
      false,
    ),
  ),
  'the same with trailing spaces lost': joined(
    bands(
      BLANKS.map((row) => thirds(row).join('|').trimEnd()),
      '---+---+---',
      false,
    ),
  ),
  'a frame of ASCII rules, digits apart': joined(
    bands(
      DOTS.map(
        (row) =>
          `| ${thirds(row)
            .map((box) => [...box].join(' '))
            .join(' | ')} |`,
      ),
      '+-------+-------+-------+',
      true,
    ),
  ),
  'the same with spaces for empty cells, indented': joined(
    bands(
      BLANKS.map(
        (row) =>
          `    | ${thirds(row)
            .map((box) => [...box].join(' '))
            .join(' | ')} |`,
      ),
      '    +-------+-------+-------+',
      true,
    ),
  ),
  'digits three columns apart': joined(
    bands(
      BLANKS.map(
        (row) =>
          `|${thirds(row)
            .map((box) => [...box].map((cell) => ` ${cell} `).join(''))
            .join('|')}|`,
      ),
      `|${'='.repeat(9)}+${'='.repeat(9)}+${'='.repeat(9)}|`,
      true,
    ),
  ),
  'rules of equals signs, bars doubled': joined(
    bands(
      DOTS.map((row) => `||${thirds(row).join('||')}||`),
      '='.repeat(17),
      true,
    ),
  ),
  'bars only': joined(BLANKS.map((row) => `|${thirds(row).join('|')}|`)),
  'rules only': joined(bands(DOTS, '---------', false)),
  'box drawing between all cells, heavy round boxes': joined([
    '┏━━━┯━━━┯━━━┳━━━┯━━━┯━━━┳━━━┯━━━┯━━━┓',
    ...BLANKS.flatMap((row, r) => [
      `┃${[...row].map((cell, c) => ` ${cell} ${c % 3 === 2 ? '┃' : '│'}`).join('')}`,
      ...(r === 8
        ? ['┗━━━┷━━━┷━━━┻━━━┷━━━┷━━━┻━━━┷━━━┷━━━┛']
        : [r % 3 === 2 ? '┣━━━┿━━━┿━━━╋━━━┿━━━┿━━━╋━━━┿━━━┿━━━┫' : '┠───┼───┼───╂───┼───┼───╂───┼───┼───┨']),
    ]),
  ]),
  'double lines, one character a cell': joined([
    '╔═══╦═══╦═══╗',
    ...BLANKS.flatMap((row, r) => [
      ...(r === 3 || r === 6 ? ['╠═══╬═══╬═══╣'] : []),
      `║${thirds(row).join('║')}║`,
    ]),
    '╚═══╩═══╩═══╝',
  ]),
  'a table of running text': joined([
    `| ${[...DOTS[0]!].join(' | ')} |`,
    `|${':-:|'.repeat(9)}`,
    ...BLANKS.slice(1).map((row) => `| ${[...row].join(' | ')} |`),
  ]),
  'rules of underscores': joined([
    ' ___________ ',
    ...DOTS.flatMap((row, r) => [
      `|${thirds(row).join('|')}|`,
      ...(r % 3 === 2 ? ['|___________|'.replaceAll('|', ' ')] : []),
    ]),
  ]),
  'bars as separators, nothing for empty cells': joined(
    BLANKS.map((row) => [...row].map((cell) => cell.trim()).join('|')),
  ),
  'remarks after lines': joined(
    DOTS.map((row, r) => (r % 4 ? row : `${row}  # line ${r + 1}, from the top`)),
  ),
  'no-break spaces': joined(DOTS.map((row) => thirds(row).join('\u00a0'))),
  'semicolons and nothing for empty cells': joined(
    BLANKS.map((row) => [...row].map((cell) => cell.trim()).join(';')),
  ),
  'commas, quotes and one too many': joined(
    ROWS.map((row) => `${[...row].map((cell) => `"${cell}"`).join(',')},`),
  ),
  'a list': `[${ROWS.map((row) => `[${[...row].join(',')}]`).join(',\n')}]`,
  'a puzzle and its solution': `${LINE},483921657967345821251876493548132976729564138136798245372689514814253769695417382`,
  'a number and a rating': `17\t${LINE}\t2.4`,
  'groups of nine on a line': ROWS.join(' '),
}

describe('parsePuzzle reads', () => {
  it.each(Object.keys(LAYOUTS))('%s', (name) => {
    const puzzle = parsePuzzle(LAYOUTS[name]!)
    expect(puzzle.givens.join('')).toBe(LINE)
    expect(puzzle.geometry.name).toBe('3x3')
  })
})

describe('the shape of boxes', () => {
  const rows = ['12|34|56', '..|..|..', '..|..|..', '..|..|..', '..|..|..', '..|..|1.']
  it('comes from the rules, else has to be said', () => {
    const ruled = [...rows.slice(0, 3), '--+--+--', ...rows.slice(3)].join('\n')
    expect(parsePuzzle(ruled).geometry.name).toBe('3x2')
    expect(parsePuzzle(rows.join('\n')).geometry.name).toBe('3x2')
    const plain = rows.join('\n').replaceAll('|', '')
    const result = safeParsePuzzle(plain)
    expect(result.ok ? '' : result.error.code).toBe('geometry-ambiguous')
    expect(result.ok ? '' : result.error.message).toMatch(/boxes of 2x3 or 3x2.*"# geometry: 2x3"/)
    expect(parsePuzzle(`# geometry: 3x2\n${plain}`).geometry.name).toBe('3x2')
    expect(parsePuzzle(plain, { geometry: boxedGeometry(2, 3) }).geometry.name).toBe('2x3')
    expect(
      parsePuzzle(
        rows
          .flatMap((row, r) => (r === 2 || r === 4 ? ['------', row] : [row]))
          .join('\n')
          .replaceAll('|', ''),
      ).geometry.name,
    ).toBe('2x3')
  })

  it('comes from heavy rules where every cell is ruled', () => {
    const row = (cells: string) => `║${[...cells].map((cell, c) => ` ${cell} ${c % 2 ? '║' : '│'}`).join('')}`
    const text = ['123456', '      ', '      ', '      ', '      ', '    1 '].map(row).join('\n')
    expect(parsePuzzle(text).geometry.name).toBe('3x2')
  })

  it('of other sizes: 3 high and 4 wide, 4 high and 3 wide', () => {
    const blank = (width: number) => Array.from({ length: 12 / width }, () => '.'.repeat(width)).join('|')
    for (const [width, name] of [
      [4, '3x4'],
      [3, '4x3'],
      [6, '2x6'],
      [2, '6x2'],
    ] as const) {
      expect(parsePuzzle(new Array(12).fill(blank(width)).join('\n')).geometry.name).toBe(name)
    }
  })

  it('is refused where the rules contradict themselves or the geometry asked for', () => {
    const wrong = safeParsePuzzle(
      [...rows.slice(0, 2), '--+--+--', ...rows.slice(2, 4), '--+--+--', ...rows.slice(4)].join('\n'),
    )
    expect(wrong.ok ? '' : wrong.error.message).toMatch(/boxes 2 high and 2 wide; expected boxes of 6 cells/)
    const other = safeParsePuzzle(rows.join('\n'), { geometry: boxedGeometry(2, 3) })
    expect(other.ok ? '' : other.error.message).toMatch(/found a drawing of boxes 3 high and 2 wide/)
  })

  it('may be irregular: walls show the regions', () => {
    const puzzle = parsePuzzle(
      [
        '+---+---+---+---+',
        '| 1         |   |',
        '+   +---+---+   +',
        '|   | 2 |       |',
        '+---+   +   +---+',
        '|       | 3 |   |',
        '+   +---+---+   +',
        '|   |         4 |',
        '+---+---+---+---+',
      ].join('\n'),
    )
    expect(puzzle.givens.join('')).toBe('1000020000300004')
    const regions = layoutOf(puzzle.geometry)
      .houses.filter((house) => house.kind === 'region')
      .map((house) => house.cells)
    expect(regions).toEqual([
      [0, 1, 2, 4],
      [3, 6, 7, 10],
      [5, 8, 9, 12],
      [11, 13, 14, 15],
    ])
  })
})

describe('jigsaw geometry handed in', () => {
  it('goes with a line of cells', () => {
    const geometry = regionGeometry('four corners', [0, 0, 0, 1, 0, 2, 1, 1, 2, 2, 1, 3, 2, 3, 3, 3])
    expect(parsePuzzle('1...2...3...4...', { geometry }).geometry).toBe(geometry)
  })
})
