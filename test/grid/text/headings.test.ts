import { describe, expect, it } from 'vitest'
import { A, B, C, entriesOf, faultOf, read, rows, text, values } from './reading.js'

const isError = expect.stringMatching(/^Line \d+/)

describe('headings', () => {
  it.each([
    ...[
      '2024-11-30',
      '30/11/2024',
      '30.11.2024',
      '1999.12.31',
      'Cabbage',
      'dad',
      '12.',
      '(7)',
      'a)',
      'xylophone',
    ],
  ])('"%s" parts grids, above and between them', async (heading) => {
    const entries = await entriesOf(text(heading, rows(A), heading, rows(B), '', heading, C))
    expect(entries.map((entry) => entry.ok && entry.puzzle.givens.join(''))).toEqual([A, B, C])
    expect(entries.map(({ title }) => title)).toEqual([heading, heading, heading])
  })

  it.each(['2024-130', '12-34-56-78', '12345678'])('"%s" is said, and costs no grid', async (line) => {
    expect(await read(text(rows(A), line, rows(B)))).toEqual([
      A,
      `Line 10: found "${line}"; expected rows of 9 cells, and # before a line that is none.`,
      B,
    ])
  })

  it.each(['..24.', '--24-', '*24**', '.24.'])(
    '"%s" is a row with a fault where others have such cells',
    async (line) => {
      const lines = [`3${line[0]}`, `${line[0]}3`, line[0]!.repeat(2)].map(
        (pair) => pair + line[0]!.repeat(2),
      )
      expect(await read(text(lines, line))).not.toContain('')
      for (const entry of await entriesOf(text(lines.slice(0, 3), line))) expect(entry.title).toBe(undefined)
    },
  )

  it.each(['20241130', '2024-11-30'])('"%s" is a row with a fault where a grid lacks one', async (line) => {
    expect(await read(text(rows(A), rows(B).with(4, line), rows(C)))).toEqual([
      A,
      expect.stringMatching(/^Line 14/),
      C,
    ])
  })

  it('are no rows with a wrong symbol', async () => {
    const marked = rows(A, 'x')
    expect(await read(text(marked.with(0, 'xxxxxxxx['), '', rows(B)))).toEqual([isError, B])
    expect(faultOf(text(marked.with(4, 'xxxAxxxx[')))).toMatch(/^Line 5/)
  })
})

describe('rows with words in them', () => {
  it.each(['NaN', 'null', 'None', 'empty'])('%s for an empty cell is named', async (word) => {
    for (const separator of [',', ';', '\t', ' ']) {
      const lines = values(A, separator, word)
      expect(await read(text(lines, '', rows(B)))).toEqual([expect.stringContaining(`found "${word}"`), B])
    }
  })

  it('are told apart from headings with commas', async () => {
    const entries = await entriesOf(text('Week 12, hard, by Moll, page 3', rows(A)))
    expect(entries).toMatchObject([{ ok: true, title: 'Week 12, hard, by Moll, page 3' }])
    expect(await read(text(values(A, ',').with(2, '0,0,1,8,oops,6,4,0,0')))).toEqual([
      expect.stringMatching(/^Line 3, column 9: found "oops"/),
    ])
  })

  it('before them are said once and dropped nowhere', async () => {
    for (const label of ['Zeile 3: ', 'line ', 'third '])
      expect(
        await read(
          text(
            rows(A).map((row) => label + row),
            '',
            B,
          ),
        ),
      ).toEqual([expect.stringMatching(/^Line 1: found 9 lines of words with 9 cells after them/), B])
    const spaced = values(A, ' ', '.').map((row) => `Row one: ${row}`)
    expect(await read(text(B, spaced))).toEqual([B, expect.stringMatching(/^Line 2: found 9 lines of words/)])
    expect(faultOf(text(rows(A).map((row) => `line ${row}`)))).toMatch(/^Line 1: found 9 lines of words/)
    expect(faultOf(text(rows(A).map((row, r) => `row${r + 1} ${row}`)))).toBe(`read as ${A}`)
  })

  it('are headings after all where they are few, or end in years', async () => {
    for (const headings of [
      ['Grid 2021', 'Grid 2022', 'Grid 2023'],
      ['No. 102030', 'No. 102031', 'No. 102032'],
    ])
      expect(await read(text(headings, A))).toEqual([A])
    const years = Array.from({ length: 3 }, (_, i) => `Volume ${2019 + i}`)
    expect(await read(text(years, 'Contents', years, A))).toEqual([A])
  })

  it('of tabs alone, or with one digit, are rows', async () => {
    const sparse = `${'0'.repeat(9)}${'000010000'}${A.slice(18)}`
    expect(await read(text(values(sparse, '\t', '')))).toEqual([sparse])
    expect(await read(text(values(sparse, '\t', ''), '', values(B, '\t', '')))).toEqual([sparse, B])
  })
})

describe('names of columns', () => {
  it.each([
    ['puzzle,rating', `${A},3.5`, `${B},2.1`],
    ['id;puzzle', `1;${A}`, `2;${B}`],
    ['"id","puzzle"', `"1","${A}"`, `"2","${B}"`],
    ['name\tgrid', `Moll\t${A}`, `Ann\t${B}`],
  ])('%s are no title', async (names, first, second) => {
    const entries = await entriesOf(text(names, first, second))
    expect(entries.map((entry) => entry.ok && entry.puzzle.givens.join(''))).toEqual([A, B])
    expect(entries[0]!.title).not.toBe(names)
    expect(entries[0]!.comments).toEqual([names])
    expect(entries[1]!.comments).toEqual([])
  })

  it('but other headings are', async () => {
    expect((await entriesOf(text('Hard, for Moll', A)))[0]!.title).toBe('Hard, for Moll')
    expect((await entriesOf(text('Hard', `${A},3.5`)))[0]!.title).toBe('Hard')
  })
})

describe('broken JSON', () => {
  const list = (line: string) =>
    rows(line).map((row, r) => `${r === 0 ? '[' : ' '}[${[...row].join(',')}]${r === 8 ? ']' : ','}`)
  it('does not take the next list along', async () => {
    for (const between of [[], ['']]) {
      expect(await read(text(list(A).slice(0, 8), between, list(B), list(C)))).toEqual([
        ...[expect.stringMatching(/^Line [89], column \d+: found the end of unfinished JSON/), B, C],
      ])
      const open = list(A).with(3, list(A)[3]!.replace(']', ''))
      expect(await read(text(open, between, list(B)))).toEqual([expect.stringMatching(/^Line \d/), B])
    }
  })

  it('is said where it breaks', () => {
    expect(faultOf('[[1,2],\n [3,,4]]')).toBe(
      'Line 2, column 5: found "," in what should be JSON; expected a value.',
    )
    expect(faultOf('{"type":"puzzle"')).toBe(
      'Line 1, column 17: found the end of unfinished JSON; expected the rest.',
    )
  })
})

describe('messages', () => {
  it('count one thing as one', async () => {
    expect(await read(text('', '123456780', '', A))).toEqual([
      'Line 2: found 1 line of 9 cells; expected 9 lines, and a break between grids.',
      A,
    ])
    expect(faultOf('[5]')).toMatch(/a list of 1 value;/)
  })

  it('name the second run on a line, be it as long as a grid of another order', () => {
    expect(faultOf(`${'12345678'.repeat(8)} ${A}`)).toMatch(
      /^Line 1, column 1: found a second run of 64 characters on the line/,
    )
  })
})

describe('a number above rows with blanks for empty cells', () => {
  const blanks = rows(A, ' ')
  it('is the first of them where it is as long as they are', async () => {
    const lines = ['   74    ', ...blanks.slice(1)]
    expect(await read(text(lines))).toEqual([`000740000${A.slice(9)}`])
    expect(await read(text('   74    ', blanks))).toEqual([isError])
  })

  it('may have others above it', async () => {
    const lines = ['   74    ', ' 2       ', '        6', ...blanks.slice(3)]
    const entries = await entriesOf(text('# a', 'One', lines))
    expect(entries).toMatchObject([{ ok: true, title: 'One', comments: ['a'], line: 3 }])
    expect(await read(text(lines))).toEqual([`000740000020000000000000006${A.slice(27)}`])
    expect(await read(text(lines.slice(1)))).toEqual([isError])
  })

  it('else is a heading', async () => {
    for (const heading of ['74', '   74', ' 74.     '])
      expect(await entriesOf(text(heading, blanks))).toMatchObject([{ ok: true, title: heading.trim() }])
  })
})
