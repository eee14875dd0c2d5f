import { describe, expect, it } from 'vitest'
import { A, B, C, entriesOf, read, rows, text, values } from './reading.js'

const GRIDS = [A, B, C]
const SMALL = '1000001002000003'
const SOLUTION = '483921657967345821251876493548132976729564138136798245372689514814253769695417382'
const LETTERS = 'ABCDEFGHI'
const RULE = '+-------+-------+-------+'

const spaced = (line: string) => values(line, ' ', '.')
const framed = (line: string) => [
  RULE,
  ...rows(line, '.').flatMap((row, r) => [
    `| ${row
      .match(/.../g)!
      .map((box) => [...box].join(' '))
      .join(' | ')} |`,
    ...(r % 3 === 2 ? [RULE] : []),
  ]),
]
/** Rows of a drawing, and what else is on it, each with a number before it or blanks. */
const numbered = (lines: readonly string[], after: boolean) => {
  let row = 0
  return lines.map((line) => {
    if (!line.startsWith('|')) return `  ${line}`
    row++
    return `${row} ${line}${after ? ` ${row}` : ''}`
  })
}
const fullWidth = (line: string) =>
  [...line].map((digit) => String.fromCharCode(0xff10 + Number(digit))).join('')
const table = (line: string) => [
  '<table>',
  ...rows(line).map((row) => `<tr>${[...row].map((cell) => `<td>${cell}</td>`).join('')}</tr>`),
  '</table>',
]

/** Errors of one line, whatever they say. */
const at = (line: number, what = '') => expect.stringMatching(new RegExp(`^Line ${line}[:,].*${what}`))

describe('numbers, dates and times beside puzzles', () => {
  it.each([
    ...['17/100', '3/5', '12/100:', '10:30', '8:05', '00:10:30', '=== 12 ===', '--- 3 ---', '- 12 -', '(12)'],
    ...['-- 5 --', '<12>', '- - - 12 - - -', '20241130', '11/30/2024', '2024-11-30', '30.11.24', '5/6/24'],
    ...['2024-11-30 10:30', '2024', '12', '001', '1.', '7)', 'Nov 30, 2024', 'No 5', 'page 12', 'easy'],
  ])('%s is a heading, above rows and lines, with breaks and without', async (heading) => {
    for (const parts of [
      text(heading, rows(A), heading, rows(B), heading, rows(C)),
      text(heading, '', rows(A), '', heading, '', rows(B), '', heading, '', rows(C)),
      text(heading, A, heading, B, heading, C),
      text(heading, framed(A), heading, framed(B), heading, framed(C)),
    ]) {
      const entries = await entriesOf(parts)
      expect(entries.map((entry) => (entry.ok ? entry.puzzle.givens.join('') : entry.error.message))).toEqual(
        GRIDS,
      )
      expect(entries.map(({ title }) => title)).toEqual([heading, heading, heading])
    }
  })

  it.each([
    ...['12.5', '1st', '№ 12', 'p. 12', '12345', 'Q4', 'A1', '★★☆', '4 * *', '100 %', '$1.50', '1,000'],
    ...['12 of 100', '12 | 100', '12-3', '020 7946 0018', '978-0-13-468599-1'],
  ])('%s is said where it stands, and the grids around it come out', async (line) => {
    const found = await read(text(line, rows(A), line, rows(B), line, rows(C)))
    expect(found).toEqual([at(1), A, at(11), B, at(21), C])
  })

  it.each(['17/100', '20241130', '12-3', '12345'])('%s after the last row', async (line) => {
    const found = await read(text(rows(A), line, '', rows(B), line))
    expect(found.filter((entry) => !entry.startsWith('Line'))).toEqual([A, B])
  })

  it('in the middle of a grid are a fault of it', async () => {
    for (const line of ['17/100', '10:30', '20241130', '3/5']) {
      const found = await read(text(rows(A), rows(B).toSpliced(5, 0, line), rows(C)))
      expect(found).not.toContain(B)
      expect(found.join('\n')).toMatch(/Line 1[456]/)
    }
  })
})

describe('what is lost or added costs one grid', () => {
  const places = [0, 1, 2, 3, 4, 5, 6, 7, 8]
  it.each([
    ['a blank line', '', rows],
    ['a heading', 'Next', rows],
    ['a date', '2024-11-30', rows],
    ['a drawn line', '===============', rows],
    ['a blank line, values', '', (line: string) => values(line, ',')],
    ['a blank line, frames', '', framed],
  ] as const)('a row, with %s between grids', async (_, between, write) => {
    for (const place of places) {
      const lines = write(B)
      const row = lines.indexOf(lines.filter((line) => line !== RULE)[place]!)
      const found = await read(text(write(A), between, lines.toSpliced(row, 1), between, write(C)))
      expect(found).toEqual([A, expect.stringMatching(/^Line \d+/), C])
    }
  })

  it('a cell, at the line of its row', async () => {
    for (const place of places) {
      const broken = [
        [rows(B).with(place, rows(B)[place]!.slice(1)), '8 cells'],
        [rows(B).with(place, `${rows(B)[place]!}1`), '10 cells'],
        [rows(B).with(place, `z${rows(B)[place]!.slice(1)}`), '"z"'],
      ] as const
      for (const [lines, what] of broken)
        expect(await read(text(rows(A), '', lines, '', rows(C)))).toEqual([A, at(11 + place, what), C])
    }
  })

  it('a cell, where nothing parts the grids either', async () => {
    for (const place of places)
      for (const row of [rows(B)[place]!.slice(1), `${rows(B)[place]!}1`])
        expect(await read(text(rows(A), rows(B).with(place, row), rows(C)))).toEqual([
          A,
          at(10 + place, row.length === 8 ? '8 cells' : '10 cells'),
          C,
        ])
  })

  it('a line end between two rows', async () => {
    const banded = (line: string) =>
      rows(line).flatMap((row, r) => {
        const spacedRow = row
          .match(/.../g)!
          .map((box) => [...box].join(' '))
          .join('  ')
        return r % 3 === 0 && r > 0 ? ['', spacedRow] : [spacedRow]
      })
    const full = banded(SOLUTION)
    for (const place of [0, 1, 4, 5, 8, 9]) {
      const joined = full.toSpliced(place, 2, `${full[place]}${full[place + 1]}`)
      const found = await read(text(joined, '', banded(B), '', banded(C)))
      expect(found.slice(-2)).toEqual([B, C])
      expect(found).toHaveLength(3)
    }
  })

  it('cells of two rows, or of all, in one grid', async () => {
    for (const place of places.slice(1)) {
      const two = rows(B).map((row, r) => (r === place || r === place - 1 ? row.slice(1) : row))
      expect(await read(text(rows(A), two, rows(C)))).toEqual([A, at(9 + place, '8 cells'), C])
      const both = rows(B)
        .with(place, rows(B)[place]!.slice(2))
        .with(place - 1, `${rows(B)[place - 1]}1`)
      expect(await read(text(rows(A), both, rows(C)))).toEqual([A, at(9 + place, '10 cells'), C])
    }
  })

  it('a line among its rows that is none', async () => {
    for (const place of places.slice(1)) {
      for (const line of ['1 2', '[1,2', '12.5', '0,0'])
        expect(await read(text(rows(A), rows(B).toSpliced(place, 0, line), rows(C)))).toEqual([
          A,
          at(10 + place),
          C,
        ])
    }
  })

  it('a cell of every row of a grid', async () => {
    const short = rows(B).map((row) => row.slice(1))
    expect(await read(text(rows(A), short, rows(C)))).toEqual([A, at(10, '8 cells'), C])
    expect(await read(text(short, rows(A), rows(C)))).toEqual([at(1, '8 cells'), A, C])
  })

  it('a line end, where nothing parts the grids', async () => {
    for (const place of places) {
      for (const length of [4, 5]) {
        const row = rows(B)[place]!
        const split = rows(B).toSpliced(place, 1, row.slice(0, length), row.slice(length))
        expect(await read(text(rows(A), split, rows(C)))).toEqual([A, expect.stringMatching(/^Line 1\d/), C])
      }
    }
  })

  it('a blank line or a comment within a grid', async () => {
    for (const place of places.slice(1)) {
      expect(await read(text(rows(A).toSpliced(place, 0, ''), '# next', rows(B)))).toEqual([
        at(place + 2, `${place} and ${9 - place} rows? with breaks`),
        B,
      ])
      const found = await read(text(rows(A).toSpliced(place, 0, '# here'), '', rows(B)))
      expect(found.at(-1)).toBe(B)
      expect(found).not.toContain(A)
    }
  })

  it('a character of a line', async () => {
    expect(await read(text(A, B.slice(1), C))).toEqual([A, at(2, '80 characters'), C])
    expect(await read(text(A, `${B}1`, C))).toEqual([A, at(2, '82 characters'), C])
    expect(await read(text('id,puzzle', `1,${A}`, `2,${B.slice(1)}`, `3,${C}`))).toEqual([
      A,
      at(3, '80 characters'),
      C,
    ])
  })
})

describe('labels', () => {
  const head = '  1 2 3  4 5 6  7 8 9'
  const letters = `  ${[...LETTERS].join(' ')}`
  const columns = '    A B C   D E F   G H I'
  it.each<[string, readonly string[]]>([
    ['at both ends of rows', spaced(A).map((row, r) => `${LETTERS[r]} ${row} ${LETTERS[r]}`)],
    ['at both ends, and above', [head, ...spaced(A).map((row, r) => `${LETTERS[r]} ${row} ${LETTERS[r]}`)]],
    ['on all four sides', [head, ...spaced(A).map((row, r) => `${LETTERS[r]} ${row} ${LETTERS[r]}`), head]],
    ['letters after rows', spaced(A).map((row, r) => `${row} ${LETTERS[r]}`)],
    ['numbers after rows', spaced(A).map((row, r) => `${row} ${r + 1}`)],
    ['after values', values(A, ',').map((row, r) => `${row},${LETTERS[r]}`)],
    ['digits below', [...spaced(A), '1 2 3 4 5 6 7 8 9']],
    ['letters below', [...rows(A), LETTERS]],
    ['before rows and below', [...spaced(A).map((row, r) => `${r + 1} ${row}`), letters]],
    ['of columns above a frame', [columns.slice(2), ...framed(A)]],
    ['of rows before a frame', [columns, ...numbered(framed(A), false)]],
    ['all around a frame', [columns, ...numbered(framed(A), true), columns]],
    [
      'above a table',
      ['|1|2|3|4|5|6|7|8|9|', '|-|-|-|-|-|-|-|-|-|', ...rows(A, ' ').map((row) => `|${[...row].join('|')}|`)],
    ],
  ])('%s', async (_, lines) => {
    expect(await read(text(lines))).toEqual([A])
    expect(await read(text(lines, '', rows(B)))).toEqual([A, B])
  })

  it('of columns are no row of a grid that has lost one', async () => {
    for (const place of [0, 4, 8])
      expect(await read(text(head, spaced(A).toSpliced(place, 1), '', rows(B)))).toEqual([
        at(9, '8 lines of 9 cells'),
        B,
      ])
  })
})

describe('characters as other programs write them', () => {
  it.each<[string, string]>([
    ['full-width digits in rows', text(rows(A).map(fullWidth))],
    ['full-width digits on a line', fullWidth(A)],
    ['dots in the middle', A.replaceAll('0', '·')],
    ['dashes', text(rows(A, '–'))],
    ['no-break spaces for empty cells', text(rows(A, '\u00a0'))],
    ['Windows line ends', text(rows(A)).replaceAll('\n', '\r\n')],
    ['old line ends', text(rows(A)).replaceAll('\n', '\r')],
    ['a page break', `${text(rows(A))}\f`],
    ['blanks at the ends', text(rows(A).map((row) => `  ${row}   `))],
    ['a fence', text('```', rows(A), '```')],
    ['a byte order mark within', text('# one', `\ufeff${rows(A)[0]}`, rows(A).slice(1))],
  ])('%s', async (_, input) => {
    expect(await read(input)).toEqual([A])
    expect(await read(`${input}\n\n${text(rows(B))}`)).toEqual([A, B])
  })
})

describe('a grid among other words on its line', () => {
  it.each<[string, (line: string, i: number) => string]>([
    ['a numbered list', (line, i) => `${i + 1}. ${line}`],
    ['another', (line, i) => `${i + 1}) ${line}`],
    ['bullets', (line) => `• ${line}`],
    ['dashes', (line) => `- ${line}`],
    ['a rating before', (line) => `4.5 ${line}`],
    ['a rating after', (line) => `${line} 4.5`],
    ['a date', (line) => `20241130 ${line}`],
    ['another date', (line) => `2024-11-30 ${line}`],
    ['an id of sixteen digits', (line) => `3283790912304221 ${line}`],
    ['a longer id', (line) => `123e4567-e89b-12d3-a456-426614174000 ${line}`],
    ['a name', (line, i) => `grid${i}=${line}`],
    ['quotes', (line) => `'${line}',`],
    ['a statement', (line) => `INSERT INTO grids VALUES ('${line}');`],
    ['a solution', (line) => `${line},${'1'.repeat(3)}`],
  ])('%s', async (_, write) => {
    expect(await read(text(GRIDS.map(write)))).toEqual(GRIDS)
  })

  it('several grids on a line are said', async () => {
    expect(await read(text(`${A} ${B}`, C))).toEqual([at(1, 'second grid'), C])
    expect(await read(text(`${A}, ${B}, ${C}`))).toEqual([at(1, 'second grid')])
  })

  it('a table of puzzles, solutions and levels', async () => {
    const lines = ['id,puzzle,solution,level', `1,${A},${SOLUTION},2.5`, `2,${B},,3`]
    expect(await read(text(lines))).toEqual([A, B])
  })
})

describe('other layouts', () => {
  const thirds = (line: string) => line.match(/.{27}/g)!
  it('three lines of three rows each are a grid', async () => {
    expect(await read(text(thirds(A), '', thirds(B), '', rows(C)))).toEqual(GRIDS)
    const wrong = thirds(A).with(1, thirds(A)[1]!.replace('8', 'k'))
    expect(await read(text(wrong))).toEqual([at(2, `column ${thirds(A)[1]!.indexOf('8') + 1}: found "k"`)])
    expect(await read(text(thirds(A).slice(1), '', rows(B)))).toEqual([at(1, '2 lines of 27 cells'), B])
  })

  it('grids side by side are said once', async () => {
    for (const gap of [' ', '   '])
      expect(
        await read(
          text(
            rows(A).map((row, r) => row + gap + rows(B)[r]!),
            '',
            rows(C),
          ),
        ),
      ).toEqual([at(1, '9 lines of 18 cells'), C])
  })

  it('a small grid among larger ones is one where no number looks so', async () => {
    const small = SMALL.match(/.{4}/g)!
    expect(await read(text(A, SMALL, B))).toEqual([A, SMALL, B])
    expect(await read(text(rows(A), '', small, '', rows(B)))).toEqual([A, SMALL, B])
    expect(await read(text(rows(A), small, rows(B)))).toEqual([A, SMALL, B])
    for (const number of ['1020304010203040', '0000000000001234', '0000000000000042', '1200340000000000'])
      expect(await read(text(A, number, B))).toEqual([A, at(2, '16 symbols among larger grids'), B])
    expect(await read(text(SMALL, A, '1020304010203040'))).toEqual([SMALL, A, at(3, '16 symbols')])
  })

  it('tables of HTML are said once each', async () => {
    expect(await read(text(A, table(B), C, table(A)))).toEqual([
      A,
      at(2, 'a table of HTML'),
      C,
      at(14, 'a table of HTML'),
    ])
  })

  it('JSON of other kinds is said once', async () => {
    const nested = JSON.stringify({ puzzles: [{ id: 1, grid: A }] }, undefined, 2)
    expect(await read(text(nested, B))).toEqual([at(1), B])
    expect(await read(JSON.stringify([{ grid: A }]))).toEqual([at(1)])
    expect(await read(JSON.stringify([rows(A), rows(B)]))).toEqual([A, B])
  })

  it('prose with numbers is passed over', async () => {
    const input = text(
      'Solve these 3 puzzles by 12 May 2024 (each takes 10 to 20 minutes).',
      A,
      'The next 2 are harder; see page 17.',
      rows(B),
      'In 1984 there were 12 of these.',
      rows(C),
    )
    expect(await read(input)).toEqual(GRIDS)
  })

  it('rows of blanks go on where a row is blank, or has one digit', async () => {
    const sparse = `${A.slice(0, 27)}000000000${'000050000'}${A.slice(45)}`
    expect(await read(text(rows(sparse, ' '), '', rows(B)))).toEqual([sparse, B])
    expect(await read(text(rows(sparse, ' ').toSpliced(0, 1), '', rows(B)))).toEqual([
      at(8, '8 lines of 9 cells'),
      B,
    ])
  })
})

describe('what looks like pencil marks', () => {
  it('is none where digits have run into a neighbour', async () => {
    const lines = framed(A)
    for (const wrong of [lines[1]!.replace('. |', '.3|'), lines[1]!.replace('. |', '.?|')])
      expect(await read(text(lines.with(1, wrong), '', framed(B)))).toEqual([at(2), B])
  })

  it('is none where a single sign stands among digits', async () => {
    const lines = framed(A)
    for (const sign of ['!', '+', '#'])
      expect(await read(text(lines.with(1, lines[1]!.replace('. |', `${sign} |`)), '', framed(B)))).toEqual([
        at(2),
        B,
      ])
  })

  it('is none in groups', async () => {
    const grouped = rows(A).map((row) => row.match(/.../g)!.join(' '))
    const ruled = [...grouped.slice(0, 3), '-----------', ...grouped.slice(3)]
    for (const lines of [grouped, ruled.toSpliced(7, 0, '-----------')])
      expect(await read(text(lines.with(0, lines[0]!.replace('3', '!'))))).toEqual([at(1, '"!"')])
  })
})

describe('separators at the ends of lines', () => {
  it('are passed over where every cell has a value', async () => {
    expect(await read(text(values(A, ',').map((row) => `${row},`)))).toEqual([A])
    expect(await read(`${[...A].join(';')};`)).toEqual([A])
  })

  it('may be doubled ones where empty cells have none', async () => {
    const row = [...A].map((cell) => (cell === '0' ? '' : cell)).join(',')
    expect(await read(row)).toEqual([A])
    expect(await read(`,${row}`)).toEqual([at(1, '82 values')])
    const empty = (line: string) => values(line, ',', '')
    expect(await read(text(empty(A).map((line) => `,${line}`)))).toEqual([at(9, '9 lines of 10 cells')])
  })
})
