import { describe, expect, it } from 'vitest'
import { boxedGeometry } from '../../../src/grid/geometry.js'
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

describe('bands', () => {
  const bands = (line: string) => rows(line).flatMap((row, r) => (r % 3 === 0 && r > 0 ? ['', row] : [row]))
  it('of several grids need a wider gap between grids, or none', async () => {
    for (const between of [[''], ['', ''], ['# next'], ['Next'], ['---------------']])
      expect(await read(text(bands(A), between, bands(B), between, bands(C)))).toEqual([A, B, C])
    expect(await read(text(bands(A), '', rows(B)))).toEqual([A, B])
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
