import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boxedGeometry, type Geometry } from '../../../src/grid/geometry.js'
import { parsePuzzle } from '../../../src/grid/text/parse.js'
import { type PuzzleEntry, readPuzzles } from '../../../src/grid/text/stream.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'
import { SEED } from '../arbitraries.js'

const A = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'
const B = '200080300060070084030500209000105408000000000402706000301007040720040060004010003'
const rows = (line: string) => line.match(/.{9}/g)!.join('\n')

async function readAll(text: string, chunk = text.length || 1, geometry?: Geometry): Promise<PuzzleEntry[]> {
  const chunks: string[] = []
  for (let i = 0; i < text.length; i += chunk) chunks.push(text.slice(i, i + chunk))
  const entries: PuzzleEntry[] = []
  for await (const entry of readPuzzles(chunks, geometry ? { geometry } : {})) entries.push(entry)
  return entries
}

const summary = (entries: PuzzleEntry[]) =>
  entries.map((e) => `${e.line} ${e.title ?? '-'} ${e.ok ? e.puzzle.givens.join('') : e.error.code}`)

describe('readPuzzles', () => {
  it('reads one a line with comments, blank lines, remarks and bad lines, whatever the chunks and line ends', async () => {
    const text = ['\ufeff# from the Dale Courier', A, '', `7 ${B} 3.5`, B.slice(1), A].join('\n')
    const expected = [`2 - ${A}`, `4 7 3.5 ${B}`, '5 - text-shape', `6 - ${A}`]
    for (const end of ['\n', '\r\n', '\r']) {
      for (const chunk of [1, 2, 7, 1000]) {
        const entries = await readAll(text.replaceAll('\n', end), chunk)
        expect(summary(entries)).toEqual(expected)
        expect(entries[0]!.comments).toEqual(['from the Dale Courier'])
      }
    }
  })

  it('reads grids of several lines under headings, run together, and with a gap between bands', async () => {
    expect(summary(await readAll(`Grid 01\n${rows(A)}\nGrid 02\n${rows(B)}`))).toEqual([
      `2 Grid 01 ${A}`,
      `12 Grid 02 ${B}`,
    ])
    expect(summary(await readAll(`${rows(A)}\n${rows(B)}\n`))).toEqual([`1 - ${A}`, `10 - ${B}`])
    const banded = (line: string) => line.match(/.{27}/g)!.map(rows).join('\n\n')
    expect(summary(await readAll(`${banded(A)}\n\n${banded(B)}\n`))).toEqual([`1 - ${A}`, `13 - ${B}`])
  })

  it('does not complete a grid that lacks a row with a row of the next', async () => {
    const short = rows(A).split('\n').slice(1).join('\n')
    expect(summary(await readAll(`${short}\n\n${rows(B)}\n\n${rows(A)}`))).toEqual([
      '1 - text-shape',
      `10 - ${B}`,
      `20 - ${A}`,
    ])
  })

  it('does not take two half grids for one when the gap between them is as long as the one within', async () => {
    const half = rows(A).split('\n').slice(0, 6).join('\n')
    expect(summary(await readAll(`${half}\n\n${rows(B)}`))).toEqual(['1 - text-shape', `8 - ${B}`])
  })

  it('reads ruled drawings one after the other, with and without blank lines or comments between', async () => {
    const [a, b] = [A, B].map((line) => formatPuzzle(parsePuzzle(line), { style: 'ruled' }))
    const open = (text: string) => text.split('\n').slice(1, -1).join('\n')
    for (const text of [
      `${a}\n${b}`,
      `${a}\n\n\n${b}`,
      `${open(a!)}\n# next\n${open(b!)}`,
      `One\n${open(a!)}\nTwo\n${b}`,
    ]) {
      expect(
        (await readAll(text, 40)).map((e) => (e.ok ? e.puzzle.givens.join('') : e.error.message)),
        text,
      ).toEqual([A, B])
    }
  })

  it('gives headings and comments to the grid below them', async () => {
    const entries = await readAll(`# file\nWeek 12\n\n# easy\n${A}\nWeek 13\nWeek 14\n${B} hard`)
    expect(entries.map(({ title, comments }) => ({ title, comments }))).toEqual([
      { title: 'Week 12', comments: ['file', 'easy'] },
      { title: 'Week 14', comments: ['Week 13'] },
    ])
  })

  it('tells 4×4 grids on a line from rows of a 16×16 grid', async () => {
    const small = Array.from({ length: 20 }, () => '1234341221434321')
    expect((await readAll(small.join('\n'))).every((e) => e.ok && e.puzzle.geometry.order === 4)).toBe(true)
    const symbols = '123456789ABCDEFG'
    const large = Array.from({ length: 16 }, (_, r) =>
      Array.from({ length: 16 }, (_, c) => ((r + c) % 3 ? '.' : symbols[(r * 4 + c + (r >> 2)) % 16])).join(
        '',
      ),
    )
    const [entry, ...others] = await readAll(large.join('\n'))
    expect(entry!.ok && entry!.puzzle.geometry.name).toBe('4x4')
    expect(entry!.ok && entry!.puzzle.geometry.order).toBe(16)
    expect(others).toEqual([])
    // One wrong symbol among 4×4 grids costs one grid, and does not make sixteen of them into another.
    const mistaken = small.with(3, '1234341221434351')
    expect(
      (await readAll(mistaken.join('\n'))).map((e) =>
        e.ok ? e.puzzle.geometry.order : `${e.line} ${e.error.code}`,
      ),
    ).toEqual(small.map((_, i) => (i === 3 ? '4 text-symbol' : 4)))
    // With a geometry there is nothing to guess.
    const few = Array.from({ length: 16 }, () => '................')
    expect(
      (await readAll(few.join('\n'), 1000, boxedGeometry(4, 4))).map((e) => e.ok && e.puzzle.geometry.order),
    ).toEqual([16])
    expect((await readAll(few.join('\n'), 1000, boxedGeometry(2, 2))).length).toBe(16)
  })

  it('reads saved data, one a line', async () => {
    const lines = [A, B].map((line) => formatPuzzle(parsePuzzle(line), { style: 'json' }))
    expect(summary(await readAll([...lines, '{"type":'].join('\n')))).toEqual([
      `1 - ${A}`,
      `2 - ${B}`,
      '3 - json-shape',
    ])
  })

  it('passes over a line of any length without keeping it', async () => {
    function* hostile() {
      yield `${A}\n`
      const piece = '1'.repeat(1 << 16)
      for (let i = 0; i < 400; i++) yield piece
      yield `\n${B}\n`
      for (let i = 0; i < 200; i++) yield '# '.repeat(2000)
      yield `\n${A}`
    }
    const entries: PuzzleEntry[] = []
    for await (const entry of readPuzzles(hostile())) entries.push(entry)
    expect(summary(entries)).toEqual([`1 - ${A}`, '2 - text-shape', `3 - ${B}`, '4 - text-shape', `5 - ${A}`])
  })

  it('goes through any lines at all with entries in order and no other error', async () => {
    const line = fc.oneof(
      fc.constantFrom(
        A,
        B,
        '',
        ' ',
        '# note',
        'Grid 7',
        '+---+',
        '|12|34|',
        '1,2,,4',
        '\t\t\t',
        '{"a":1}',
        ...rows(A).split('\n'),
      ),
      fc.string({ unit: fc.constantFrom(...'12.|-+,# \tgx'), maxLength: 20 }),
    )
    await fc.assert(
      fc.asyncProperty(
        fc.array(line, { maxLength: 60 }),
        fc.integer({ min: 1, max: 90 }),
        async (lines, chunk) => {
          const entries = await readAll(lines.join('\n'), chunk)
          const numbers = entries.map((entry) => entry.line)
          expect(numbers).toEqual([...numbers].sort((a, b) => a - b))
          // Whole grids on a line are found wherever they stand, whatever stands around them.
          for (const [i, text] of lines.entries()) {
            if (text !== A && text !== B) continue
            const entry = entries.find(({ line }) => line === i + 1)
            expect(entry?.ok && entry.puzzle.givens.join('')).toBe(text)
          }
        },
      ),
      { seed: SEED, numRuns: 150 },
    )
  })

  it('takes text or bytes, however they are cut, and says so otherwise', async () => {
    const bytes = new TextEncoder().encode(`\ufeff# für alle\n${A}\n`)
    for (const size of [1, 3, 50]) {
      const chunks = Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) =>
        bytes.slice(i * size, (i + 1) * size),
      )
      const entries: PuzzleEntry[] = []
      for await (const entry of readPuzzles(chunks)) entries.push(entry)
      expect(summary(entries)).toEqual([`2 - ${A}`])
      expect(entries[0]!.comments).toEqual(['für alle'])
    }
    await expect(async () => {
      for await (const _ of readPuzzles([81] as unknown as string[])) break
    }).rejects.toThrow(/strings or in bytes/)
  })

  it('reads a text handed in whole, with limits, too', async () => {
    for (const options of [{}, { timeLimit: 60_000 }]) {
      const entries: PuzzleEntry[] = []
      for await (const entry of readPuzzles(A, options)) entries.push(entry)
      expect(entries).toMatchObject([{ ok: true }])
    }
  })
})
