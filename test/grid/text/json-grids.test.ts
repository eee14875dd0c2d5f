import { describe, expect, it } from 'vitest'
import { noteMarks } from '../../../src/grid/board/edit.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { parseBoard, parsePuzzle } from '../../../src/grid/text/parse.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'
import { A, B, C, faultOf, read, rows, text } from './reading.js'

const SMALL = '1000001002000003'
const list = (line: string) => [...line].map(Number)
const lists = (line: string, size: number) => line.match(new RegExp(`.{${size}}`, 'g'))!.map(list)
const json = (data: unknown) => JSON.stringify(data)

describe('a grid in JSON', () => {
  it.each<[string, unknown]>([
    ['values', list(A)],
    ['values, nothing for empty cells', [...A].map((cell) => (cell === '0' ? null : Number(cell)))],
    ['texts', [...A].map((cell) => (cell === '0' ? '' : cell))],
    ['rows', lists(A, 9)],
    ['rows with nothing for empty cells', lists(A, 9).map((row) => row.map((cell) => cell || null))],
    ['rows as texts', rows(A)],
    ['rows as texts with another mark', rows(A, 'x')],
    ['one text', [A]],
  ])('may be %s', async (_, data) => {
    expect(await read(json(data))).toEqual([A])
    expect(await read(JSON.stringify(data, undefined, 2))).toEqual([A])
    expect(await read(`${json(data)}\n${json(data)}`)).toEqual([A, A])
    expect(await read(text(B, json(data), rows(C)))).toEqual([B, A, C])
    expect(faultOf(json(data))).toBe(`read as ${A}`)
  })

  it.each<[string, unknown, readonly string[]]>([
    ['texts', [A, B, C], [A, B, C]],
    ['lists of values', [list(A), list(B)], [A, B]],
    ['lists of rows', [lists(A, 9), rows(B)], [A, B]],
    ['lists in lists', [[A, B], [C]], [A, B, C]],
    ['small grids', [list(SMALL), list(SMALL), list(SMALL)], [SMALL, SMALL, SMALL]],
    ['sixteen small grids', new Array(16).fill(list(SMALL)), new Array(16).fill(SMALL)],
    ['small grids in rows', [lists(SMALL, 4), lists(SMALL, 4)], [SMALL, SMALL]],
  ])('may be one of several: %s', async (_, data, grids) => {
    expect(await read(json(data))).toEqual(grids)
    expect(faultOf(json(data))).toMatch(new RegExp(`found ${grids.length} grids`))
  })

  it('of order sixteen is told apart from sixteen small ones by its digits, or by the caller', async () => {
    const large = Array.from({ length: 16 }, (_, r) =>
      Array.from({ length: 16 }, (_, c) => (r === c ? 16 : 0)),
    )
    expect(await read(json(large))).toEqual([large.flat().join('')])
    const few = Array.from({ length: 16 }, (_, r) => Array.from({ length: 16 }, (_, c) => (r === c ? 4 : 0)))
    expect(await read(json(few))).toHaveLength(16)
    expect(await read(json(few), boxedGeometry(4, 4))).toEqual([few.flat().join('')])
    expect(await read(json(few), boxedGeometry(2, 2))).toHaveLength(16)
    expect(await read(json(large.slice(1)))).toEqual(['Line 1: found 15 rows of a 16×16 grid; expected 16.'])
    expect(await read(json(new Array(5).fill(list(SMALL))))).toEqual(new Array(5).fill(SMALL))
  })

  it('that is wrong costs its own place in a list', async () => {
    expect(await read(json([A, A.slice(1), C]))).toEqual([
      A,
      'Line 1: found a list of 80 values; expected 81 for a 9×9 grid.',
      C,
    ])
    expect(await read(json([lists(A, 9), lists(B, 9).slice(1), lists(C, 9)]))).toEqual([
      A,
      'Line 1: found 8 rows of 9 values; expected 9.',
      C,
    ])
    const ragged = lists(B, 9).map((row, r) => (r === 5 ? row.slice(2) : row))
    expect(await read(json([ragged, rows(C)]))).toEqual([
      'Line 1: found row 6 of the list with 7 values; expected 9 in each of 9 rows.',
      C,
    ])
    expect(await read(json([A, { type: 'puzzle' }, C]))).toEqual([
      A,
      expect.stringMatching(
        /^Line 1: found JSON that is no puzzle \(.*\); expected a saved puzzle or board\.$/,
      ),
      C,
    ])
  })
})

describe('saved puzzles and boards', () => {
  const saved = (line: string) => formatPuzzle(parsePuzzle(line), { style: 'json' })
  it('come out one a line, in a list, and over several lines', async () => {
    expect(await read(text(saved(A), saved(B)))).toEqual([A, B])
    expect(await read(`[${saved(A)},\n${saved(B)}]`)).toEqual([A, B])
    expect(await read(JSON.stringify(JSON.parse(saved(A)), undefined, 1))).toEqual([A])
  })

  it('that are broken off cost their own lines', async () => {
    const broken = text(saved(A).slice(0, 50), saved(B), '', rows(C))
    expect(await read(broken)).toEqual([expect.stringMatching(/^Line 1/), B, C])
    expect(await read(text(`${saved(A)}}`, saved(B)))).toEqual([expect.stringMatching(/^Line 1/), B])
    const spread = JSON.stringify(JSON.parse(saved(A)), undefined, 1).split('\n')
    expect((await read(text(spread.slice(0, -1), '', rows(B)))).at(-1)).toBe(B)
    expect((await read(text('{', '"type": "puzzle",', rows(B)))).at(-1)).toMatch(/^\d|^Line/)
  })

  it('keep entries, marks and what was removed', () => {
    const text = `5 37 4 . . . . . .\n${new Array(8).fill('. . . . . . . . .').join('\n')}`
    const board = noteMarks(parseBoard(text, { format: 'marks' }), 10, 0b11)
    const again = parseBoard(formatPuzzle(board, { style: 'json' }))
    expect(again).toEqual(board)
    expect(formatPuzzle(again, { style: 'marks' })).toBe(formatPuzzle(board, { style: 'marks' }))
    expect(JSON.parse(formatPuzzle(board, { style: 'json' }))).toMatchObject({ type: 'board' })
    expect(JSON.parse(formatPuzzle(parseBoard(A), { style: 'json' }))).toMatchObject({ type: 'puzzle' })
  })
})
