import { describe, expect, it } from 'vitest'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { A, B, faultOf, read, rows, text, values } from './reading.js'

const spaced = values(A, ' ', '.')
const label = (lines: readonly string[], name: (row: number) => string) =>
  lines.map((line, r) => name(r) + line)

describe('labels before rows', () => {
  it.each<[string, (row: number) => string]>([
    ['numbers', (r) => `${r + 1} `],
    ['numbers from zero', (r) => `${r} `],
    ['numbers with a full stop', (r) => `${r + 1}. `],
    ['numbers with a bracket', (r) => `${r + 1}) `],
    ['numbers with a colon', (r) => `${r + 1}:`],
    ['numbers with a bar', (r) => `${r + 1} | `],
    ['numbers set apart', (r) => `   ${r + 1}   `],
    ['letters', (r) => `${'abcdefghi'[r]} `],
    ['capital letters with a colon', (r) => `${'ABCDEFGHI'[r]}: `],
    ['names of rows', (r) => `row ${r + 1}: `],
    ['short names of rows', (r) => `R${r + 1} `],
    ['quoted numbers', (r) => `"${r + 1}" `],
  ])('%s', async (_, name) => {
    const lines = label(spaced, name)
    expect(await read(text(lines))).toEqual([A])
    expect(await read(text(rows(B), '', lines, '', lines))).toEqual([B, A, A])
  })

  it.each([',', ';', '\t'])('with "%s" between values', async (separator) => {
    const lines = label(values(A, separator), (r) => `${r + 1}${separator}`)
    expect(await read(text(lines))).toEqual([A])
    const head = [...'123456789'].join(separator)
    expect(await read(text(`${separator}${head}`, lines))).toEqual([A])
    expect(await read(text(`""${separator}${head}`, lines))).toEqual([A])
    expect(await read(text(`${separator}${head.replace(/\d/g, 'c$&')}`, lines))).toEqual([A])
    expect(await read(text(`row${separator}${head.replace(/\d/g, 'col$&')}`, lines))).toEqual([A])
  })

  it('that do not count up are cells, or faults', async () => {
    for (const wrong of [
      (r: number) => `${r + 2} `,
      (r: number) => `${9 - r} `,
      (r: number) => `${r === 4 ? 4 : r + 1} `,
    ])
      expect(await read(text(label(spaced, wrong)))).toEqual([
        expect.stringMatching(/^Line 9: found 9 lines of 10 cells; expected 10 lines/),
      ])
    expect(await read(text(label(spaced, (r) => (r === 4 ? '' : `${r + 1} `))))).toEqual([
      expect.stringMatching(/^Line \d+/),
    ])
  })

  it('are cells where the grid is whole with them', async () => {
    const ten = Array.from({ length: 10 }, (_, r) => `${r < 9 ? r + 1 : 'A'} ${'. '.repeat(8)}.`)
    const geometry = boxedGeometry(2, 5)
    expect((await read(text(ten), geometry))[0]).toMatch(/^100000000020/)
    const four = ['1 2 3 4', '2 . . .', '3 . . .', '4 . . .']
    expect(await read(text(four))).toEqual(['1234200030004000'])
  })
})

describe('labels above and below', () => {
  it.each([
    ['letters', 'A B C D E F G H I'],
    ['letters in a run', 'ABCDEFGHI'],
    ['numbers with a letter', 'c1 c2 c3 c4 c5 c6 c7 c8 c9'],
    ['words', 'col1 col2 col3 col4 col5 col6 col7 col8 col9'],
    ['numbers from zero', '0 1 2 3 4 5 6 7 8'],
    ['numbers', '1 2 3 4 5 6 7 8 9'],
    ['numbers with bars', '1 2 3 | 4 5 6 | 7 8 9'],
  ])('%s', async (_, line) => {
    expect(await read(text(line, spaced))).toEqual([A])
    expect(await read(text(spaced, line))).toEqual([A])
    expect(await read(text(line, spaced, line))).toEqual([A])
  })

  it('that count too far, or not up, are rows or faults', () => {
    for (const line of ['1 2 3 4 5 6 7 8', '1 2 3 4 5 6 7 8 9 10', '2 1 3 4 5 6 7 8 9', '1 2 3 4 5 6 7 8 8'])
      expect(faultOf(text(line, spaced))).toMatch(/^Line \d+/)
  })

  it('are rows where one of the others is none', () => {
    // nine rows with the first, in which no digit stands twice
    const first = ['123456789', '000000000', ...new Array<string>(7).fill('.........').map(() => '000000000')]
    expect(faultOf(text(first))).toBe(`read as 123456789${'0'.repeat(72)}`)
    expect(faultOf(text('123456789', rows(A).with(8, rows(A)[7]!)))).toMatch(/10 lines of 9 cells/)
  })

  it('may stand above a grid of another order', async () => {
    const six = ['1 . . . . .', '. 2 . . . .', '. . 3 . . .', '. . . 4 . .', '. . . . 5 .', '. . . . . 6']
    const line = six.join('').replaceAll(' ', '').replaceAll('.', '0')
    const geometry = boxedGeometry(3, 2)
    expect(await read(text('A B C D E F', six), geometry)).toEqual([line])
    expect(
      await read(
        text(
          '  1 2 3 4 5 6',
          label(six, (r) => `${r + 1} `),
        ),
        geometry,
      ),
    ).toEqual([line])
    expect(await read(text('  1 2 3 4 5 6', label(six, (r) => `${r + 1} `).slice(1)), geometry)).toEqual([
      expect.stringMatching(/^Line \d/),
    ])
  })
})
