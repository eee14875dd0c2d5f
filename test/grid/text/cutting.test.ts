import { describe, expect, it } from 'vitest'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { parseBoard } from '../../../src/grid/text/parse.js'
import { readPuzzles } from '../../../src/grid/text/stream.js'
import { A, B, C, entriesOf, read, rows, text, values } from './reading.js'

const SMALL = '1000001002000003'
const isError = expect.stringMatching(/^Line \d+/)
const times = <T>(count: number, item: T): T[] => new Array<T>(count).fill(item)
/** The rows of a grid on one line, a blank between: as long as nine cells with pencil marks. */
const grouped = (line: string) => rows(line).join(' ')

describe('many lines without a break', () => {
  it('that are a grid each come out while the text goes on', async () => {
    async function* endless() {
      for (;;) yield `${grouped(A)}\n`
    }
    const found: string[] = []
    for await (const entry of readPuzzles(endless())) {
      found.push(entry.ok ? entry.puzzle.givens.join('') : entry.error.message)
      if (found.length === 200) break
    }
    expect(found).toEqual(times(200, A))
  })

  it('that are a grid each may have others among them', async () => {
    const lines = times(70, grouped(A))
    expect(await read(text(lines))).toEqual(times(70, A))
    const others = [grouped(B), grouped(C).slice(1), '-----', '*'.repeat(16), grouped(B)]
    const found = await read(text(lines, others))
    expect(found.slice(0, 70)).toEqual(times(70, A))
    expect(found.slice(70)).toEqual([
      B,
      expect.stringMatching(/^Line 72/),
      expect.stringMatching(/^Line 74: found "\*{16}", a line of one symbol/),
      B,
    ])
    expect(await read(text(lines, '', rows(B)))).toEqual([...times(70, A), B])
  })

  it('of sixteen symbols are small grids, or rows of large ones', async () => {
    expect(await read(text(times(70, SMALL)))).toEqual(times(70, SMALL))
    const symbols = 'G123456789ABCDEF'
    const large = Array.from({ length: 16 }, (_, r) =>
      Array.from({ length: 16 }, (_, c) => symbols[(r * 4 + (r >> 2) + c) % 16]!).join(''),
    )
    const entries = await entriesOf(text(large, large, large, large, large))
    expect(entries.map((entry) => entry.ok && entry.puzzle.geometry.order)).toEqual(times(5, 16))
    expect(entries.map(({ line }) => line)).toEqual([1, 17, 33, 49, 65])
  })

  it('of sixteen values are rows of a large grid where most are above four, ten and more among them', async () => {
    const numbers = '10,11,12,13,14,,,,,,,,,,,1'
    expect(await read(text(times(4, numbers)))).toEqual([
      expect.stringMatching(/^Line 4: found 4 lines of 16 cells; expected 16 lines/),
    ])
    const spaced = '10 11 12 13 14 . . . . . . . . . . .'
    expect(await read(text(times(4, spaced)))).toHaveLength(1)
  })

  it('of sixteen digits in groups are small grids', async () => {
    const groups = [
      '1234 3412 2143 4321',
      '2143 4321 1234 3412',
      '4300 0021 0340 1000',
      '1000 2000 3000 4000',
    ]
    expect(await read(text(groups))).toEqual(groups.map((line) => line.replaceAll(' ', '')))
  })

  it('of sixteen symbols with a digit or two on each are unclear', async () => {
    const isUnclear = expect.stringMatching(/^Line 1: found lines of 16 symbols that may be/)
    expect(await read(text('3000000000000000', '0000040000000000'))).toEqual([isUnclear])
    expect(await read(text('3000000000000001', '0200040000000000'))).toEqual([
      '3000000000000001',
      '0200040000000000',
    ])
    expect(await read(text('3000000000000009', '0200040000000000'))).toEqual([isUnclear])
    expect(await read(text('3000000000000009', '0800070000000000'))).toEqual([
      expect.stringMatching(/found 2 lines of 16 cells; expected 16 lines/),
    ])
  })

  it('that are too much to hold are said once, up to the next break', async () => {
    const lines = times(3000, text(rows(A))).join('\n')
    const tooMuch =
      'Line 1: found more than 262144 characters of rows without a break; expected a blank line, a comment or a heading between grids.'
    expect(await read(text(lines, '', rows(B), '# next', rows(C)))).toEqual([tooMuch, B, C])
    for (const heading of ['Grid 2', '# geometry: 3x3']) {
      const entries = await entriesOf(text('# first', 'One', lines, heading, rows(B)))
      expect(entries).toMatchObject([{ ok: false, line: 3, title: 'One', comments: ['first'] }, { ok: true }])
      expect(entries[1]!.title).toBe(heading.startsWith('#') ? undefined : heading)
    }
    const bands = [text(rows(A).slice(0, 3)), '', lines]
    expect(await read(text(bands, '', rows(B)))).toEqual([expect.stringMatching(/^Line 1: found more/), B])
  })
})

describe('two rows on one line, whose line end is lost', () => {
  const joinedAt = (lines: readonly string[], at: number, between = '') =>
    lines.toSpliced(at, 2, `${lines[at]!}${between}${lines[at + 1]!}`)
  it.each([
    ['rows', rows, ''],
    ['rows, with a blank between', rows, ' '],
    ['values', (line: string) => values(line, ','), ''],
    ['values, with a separator between', (line: string) => values(line, ','), ','],
    ['values and blanks', (line: string) => values(line, ' '), ''],
  ] as const)('cost their grid: %s', async (_, write, between) => {
    for (const at of [0, 3, 7]) {
      const found = await read(text(write(A), joinedAt(write(B), at, between), write(C)))
      expect(found).toEqual([A, isError, C])
    }
  })

  it('cost two grids, if they are of two', async () => {
    const found = await read(text(rows(C), joinedAt([...rows(A), ...rows(B)], 8), rows(C)))
    expect([found[0], found.at(-1)]).toEqual([C, C])
    expect(found).not.toContain(A)
    expect(found).not.toContain(B)
  })
})

describe('rows that end in a separator', () => {
  const ended = (line: string, mark: string) => values(line, ',', mark).map((row) => `${row},`)
  it('have one value less than there are separators', async () => {
    for (const mark of ['0', '.'])
      expect(await read(text(ended(A, mark), ended(B, mark), ended(C, mark)))).toEqual([A, B, C])
    // where nothing stands for an empty cell, a separator may be doubled instead
    expect(await read(text(ended(A, ''), ended(B, ''), ended(C, '')))).toEqual([isError, isError, isError])
    expect(await read(text(ended(A, '0'), ended(B, '0').slice(1), '', ended(C, '0')))).toEqual([isError, C])
    expect(await read(text(ended(A, '0'), ended(B, '0').with(4, '1,2,3,4,5,6,7,8,'), ended(C, '0')))).toEqual(
      [...[A, isError, C]],
    )
  })

  it('are of as many cells as separators where the number of rows says so', async () => {
    expect(await read(text(...times(10, '1,2,,,,,,,,')))).toEqual([
      expect.stringMatching(/^Line 1: found a grid of 10×10 cells/),
    ])
  })

  it('must all do so', async () => {
    const found = await read(text(ended(A, '0').with(3, values(A, ',')[3]!), ended(B, '0')))
    expect(found).not.toContain(A)
    expect(found).toHaveLength(2)
  })
})

describe('a line that has the rows of a grid one after another', () => {
  it('is a grid beside rows', async () => {
    for (const mark of ['0', '.', 'x'])
      expect(await read(text(rows(A), grouped(B.replaceAll('0', mark)), rows(C), '', grouped(A)))).toEqual([
        A,
        B,
        C,
        A,
      ])
    const found = await read(text(rows(A), `${grouped(B)}0`, rows(C)))
    expect(found).not.toContain(B)
  })

  it('is a row of pencil marks where every word may be those of a cell', () => {
    const marks = '123456789 '.repeat(9).trim()
    const board = parseBoard(text(marks, ...new Array<string>(8).fill(marks.replace('123456789', '12'))))
    expect(board.candidates[9]).toBe(0b11)
  })
})

describe('what stands between grids', () => {
  it('goes to the grid below: headings, comments, a geometry', async () => {
    const entries = await entriesOf(
      text('# a', 'One', '', '# b', rows(A), 'Two', 'Three', rows(B), '', '---', '# c', rows(C)),
    )
    expect(entries).toMatchObject([
      { ok: true, title: 'One', comments: ['a', 'b'], line: 5 },
      { ok: true, title: 'Three', comments: ['Two'], line: 16 },
      { ok: true, title: undefined, comments: ['c'], line: 28 },
    ])
    const said = text('# geometry: 3x3 diagonals', 'Four', '', A, B)
    const [first, second] = await entriesOf(said)
    expect(first).toMatchObject({ ok: true, title: 'Four' })
    expect(first!.ok && first!.puzzle.geometry.diagonals).toBe(true)
    expect(second!.ok && second!.puzzle.geometry.name).toBe('3x3')
  })

  it('stays for the next grid where only drawn lines stand below it', async () => {
    const entries = await entriesOf(text('One', '-----', '', rows(A)))
    expect(entries).toMatchObject([{ ok: true, title: 'One' }])
    expect(await read(text('# geometry: 3x2', '-----', '1'.padEnd(36, '.')))).toEqual(['1'.padEnd(36, '0')])
  })

  it('is a heading beside lines that are a grid each, too', async () => {
    const entries = await entriesOf(text('17/100', grouped(A), '2024-11-30', grouped(B)))
    expect(entries).toMatchObject([
      { ok: true, title: '17/100' },
      { ok: true, title: '2024-11-30' },
    ])
  })

  it('may be lines in another layout, between drawn lines', async () => {
    const ruler = '-'.repeat(40)
    expect(await read(text(rows(A).slice(1), ruler, grouped(B), ruler, rows(C)))).toEqual([isError, B, C])
    expect(await read(text(rows(A), ruler, values(B, ','), ruler, grouped(C)))).toEqual([A, B, C])
  })

  it('may be a drawn line as long as a grid', async () => {
    for (const ruler of ['*'.repeat(16), 'x'.repeat(36), '_'.repeat(81), '?'.repeat(81)]) {
      const found = await read(text(grouped(A), ruler, grouped(B)))
      expect(found).toEqual([A, expect.stringMatching(/^Line 2: found .*a line of one symbol/), B])
    }
    for (const ruler of ['*'.repeat(17), '-'.repeat(81), '='.repeat(16)])
      expect(await read(text(grouped(A), ruler, grouped(B)))).toEqual([A, B])
    expect(await read(text(grouped(A), '.'.repeat(81), grouped(B)))).toEqual([A, '0'.repeat(81), B])
  })
})

describe('a fault', () => {
  /** A digit twice in a row, as a misprint has it. */
  const misprint = `${B.slice(0, 1)}2${B.slice(2)}`
  const isDoubtful = expect.stringMatching(/^Line \d+: found a grid with 2 twice in row 1, among rows/)
  const ruler = '-'.repeat(40)

  it('makes a misprint beside it doubtful where rows may be lost or added', async () => {
    expect(await read(text(rows(A), '', rows(misprint)))).toEqual([A, misprint])
    expect(await read(text(rows(A).slice(1), '', rows(misprint)))).toEqual([isError, isDoubtful])
    expect(await read(text(rows(A), ruler, rows(misprint), ruler, rows(C)))).toEqual([A, misprint, C])
    expect(await read(text(rows(A).slice(1), ruler, rows(misprint), ruler, rows(C)))).toEqual([
      isError,
      isDoubtful,
      C,
    ])
  })

  it('between drawn lines that may stand within grids leaves no half of one', async () => {
    const lines = [
      '13 42',
      '_____',
      '21 34',
      '34 21',
      'xx 4x',
      '4x xx',
      '-----',
      'xx 1x',
      'xx xx',
      '24 31',
      '31 24',
    ]
    for (const entry of await read(text(lines), boxedGeometry(2, 2))) expect(entry).toEqual(isError)
  })

  it('does not join what blank lines part with what drawn lines part', async () => {
    const lines = ['3. ..', '24 31', '', '', '.2 1.', '.. 32', '=====', '.. ..', '.. ..', '1. 2.', '24 .3']
    for (const entry of await read(text(lines), boxedGeometry(2, 2))) expect(entry).toEqual(isError)
  })

  it('of JSON among grids is said as one of JSON, unless it is but a bracket', async () => {
    expect(await read(text(rows(A), '{"type":"puzzle","givens":[1,2,3', rows(B)))).toEqual([
      A,
      'Line 10, column 33: found the end of unfinished JSON; expected the rest.',
      B,
    ])
    expect(await read(text(rows(A), '[1,2', rows(B)))).toEqual([
      A,
      expect.stringMatching(/^Line 10: found "\[1,2"/),
      B,
    ])
  })

  it('of lines that are too long for rows is said line by line where they differ', async () => {
    const lines = ['12345678'.repeat(3), '12345678'.repeat(4), '12345678'.repeat(3)]
    expect(await read(text(lines))).toEqual([
      expect.stringMatching(/^Line 1, column 1: found 24 characters/),
      expect.stringMatching(/^Line 2, column 1: found 32 characters/),
      expect.stringMatching(/^Line 3, column 1: found 24 characters/),
    ])
  })
})

describe('lines with bars', () => {
  it('may each hold a grid, as a table does', async () => {
    const lines = [A, B, C].map((line, i) => `| ${i + 1} | ${line} | hard |`)
    expect(await read(text('| no. | puzzle | level |', '|-----|--------|-------|', lines))).toEqual([A, B, C])
    const [first] = await entriesOf(text('| no. | puzzle | level |', '|-----|--------|-------|', lines))
    expect(first).toMatchObject({ title: '1 hard', comments: ['| no. | puzzle | level |'] })
    expect(await read(text(lines[0]!, rows(B)))).toEqual([A, B])
  })

  it('may be rows of letters for digits above nine', async () => {
    const boxes = ['EoBo|oooo|oooo|oooo', 'xxxx|xCxA|xxxx|xxxx']
    for (const row of boxes) {
      const mark = row.includes('o') ? 'o' : 'x'
      const others = Array.from(
        { length: 15 },
        (_, r) => `${mark.repeat(3)}${1 + (r % 9)}|${`${mark.repeat(4)}|`.repeat(2)}${mark.repeat(4)}`,
      )
      const [entry] = await entriesOf(text('# geometry: 4x4', others.slice(0, 5), row, others.slice(5)))
      expect(entry!.ok && entry!.puzzle.givens.filter((digit) => digit > 9)).toHaveLength(2)
    }
    for (const head of ['| food | good |', '|no|of|', '|a|puzzle|'])
      expect(await entriesOf(text(head, A))).toMatchObject([{ ok: true, title: head }])
  })

  it('are no part of rows without bars below them', async () => {
    const barred = rows(A, '.').map((row) => row.match(/.../g)!.join('|'))
    const rule = '---+---+---'
    const drawn = barred.flatMap((row, r) => (r % 3 === 2 ? [row, rule] : [row]))
    expect(await read(text(drawn, rows(B)))).toEqual([A, B])
    expect(await read(text(rule, drawn, rule, drawn))).toEqual([A, A])
  })
})

describe('bands', () => {
  const bands = (line: string) => rows(line).flatMap((row, r) => (r % 3 === 0 && r > 0 ? ['', row] : [row]))
  it('of several grids need a wider gap between grids, or none', async () => {
    for (const between of [[''], ['', ''], ['# next'], ['Next'], ['---------------']])
      expect(await read(text(bands(A), between, bands(B), between, bands(C)))).toEqual([A, B, C])
    expect(await read(text(bands(A), '', rows(B)))).toEqual([A, B])
  })

  it('may have comments between them, with blank lines or without', async () => {
    const [first, second, third] = [rows(A).slice(0, 3), rows(A).slice(3, 6), rows(A).slice(6)]
    expect(await read(text(first, '# b', second, '# c', third, 'Next', rows(B)))).toEqual([A, B])
    expect(await read(text(first, '# b', second, '# c', '', third, 'Next', rows(B)))).toEqual([A, B])
    expect(await read(text(first, '', second, '# c', third, 'Next', rows(B)))).toEqual([isError, isError, B])
  })

  it('of full rows end at a line of blanks', async () => {
    const full = rows('483921657967345821251876493548132976729564138136798245372689514814253769695417382')
    const whole = full.join('')
    for (const blank of ['', ' ', ' '.repeat(9), '\t'])
      expect(await read(text(full, blank, full))).toEqual([whole, whole])
  })

  it('that are lost cost their grid', async () => {
    for (const lost of [0, 4, 8]) {
      const found = await read(text(bands(A).toSpliced(lost, 3), '# next', bands(B)))
      expect(found).toEqual([isError, B])
    }
    expect(await read(text(bands(A).toSpliced(1, 1), '', bands(B)))).toEqual([isError, B])
    expect(await read(text(bands(A), '', bands(B).toSpliced(-1, 1)))).toEqual([A, isError])
    expect(await read(text(bands(A).toSpliced(0, 4), '', bands(B), '', '', rows(C)))).toEqual([isError, C])
  })

  it('may be of two rows, of four, and of blank cells', async () => {
    const six = boxedGeometry(2, 3)
    const line = '100020030000004000000500000060200001'
    const pairs = line.match(/.{6}/g)!.flatMap((row, r) => (r === 2 || r === 4 ? ['', row] : [row]))
    expect(await read(text(pairs, '', pairs), six)).toEqual([line, line])
    const blank = bands(A).map((row) => row.replaceAll('0', ' '))
    expect(await read(text(blank))).toEqual([A])
  })
})

describe('grids of several orders without a break', () => {
  const small = SMALL.match(/.{4}/g)!
  it('are cut where the width changes, if each has as many rows', async () => {
    expect(await read(text(rows(A), small, rows(B)))).toEqual([A, SMALL, B])
    expect(await read(text(small, rows(A), small, small))).toEqual([SMALL, A, SMALL, SMALL])
    expect(await read(text(rows(A), small.slice(1), rows(B)))).not.toContain(SMALL)
    expect(await read(text(rows(A), '---------', small, '---------', rows(B)))).toEqual([A, SMALL, B])
  })
})
