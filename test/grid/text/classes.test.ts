import { describe, expect, it } from 'vitest'
import { boxedGeometry, type Geometry, regionGeometry, withFurtherPeers } from '../../../src/grid/geometry.js'
import { puzzleFromJson } from '../../../src/grid/json.js'
import { makePuzzle } from '../../../src/grid/puzzle.js'
import { regionsOf, sameRules } from '../../../src/grid/regions.js'
import { geometryLine } from '../../../src/grid/text/geometry-line.js'
import { parsePuzzle, safeParsePuzzle } from '../../../src/grid/text/parse.js'
import { readPuzzles } from '../../../src/grid/text/stream.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'
import { DIAGONAL, JIGSAW } from '../arbitraries.js'

const A = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'
const B = '200080300060070084030500209000105408000000000402706000301007040720040060004010003'
const C = '000000907000420180000705026100904000050000040000507009920108000034059000507000000'
const rows = (line: string) => line.match(/.{9}/g)!
const text = (lines: readonly string[]) => lines.join('\n')

async function read(input: string, geometry?: Geometry): Promise<string[]> {
  const found: string[] = []
  for await (const entry of readPuzzles([input], geometry ? { geometry } : {})) {
    found.push(entry.ok ? entry.puzzle.givens.join('') : `${entry.error.code} ${entry.error.place.line}`)
  }
  return found
}

const faultOf = (input: string) => {
  const result = safeParsePuzzle(input)
  return result.ok ? `read as ${result.puzzle.givens.join('')}` : result.error.message
}

describe('marks for empty cells', () => {
  it.each(['x', 'X', 'o', '-', '?', '*', '_', '.'])('may be %s, on a line and in rows', async (mark) => {
    const marked = [A, B, C].map((line) => line.replaceAll('0', mark))
    expect(await read(text(marked))).toEqual([A, B, C])
    expect(await read(text(marked.map((line) => text(rows(line)))))).toEqual([A, B, C])
    expect(
      await read(
        text(
          marked.map((line) =>
            rows(line)
              .map((row) => [...row].join(' '))
              .join('\n'),
          ),
        ),
      ),
    ).toEqual([...[A, B, C]])
  })

  it('may be spaces where every line has all its characters', async () => {
    const blank = (line: string) => line.replaceAll('0', ' ')
    expect(await read(text([blank(A), blank(C)]))).toEqual([A, C])
    expect(await read(text(rows(blank(A))))).toEqual([A])
    expect(faultOf(text(rows(blank(A)).map((row, r) => (r === 2 ? row.slice(1) : row))))).toMatch(/^Line/)
    expect(faultOf(blank(A).slice(1))).toMatch(/^Line 1/)
    // groups and values are parted by spaces too
    expect(faultOf([...'123456789'].join(' ').repeat(9).slice(0, 81))).toMatch(/^Line 1/)
  })

  it('are not mixed', () => {
    expect(faultOf(A.replace('00', 'x0'))).toMatch(/column 1: found "x"/)
    expect(faultOf(A.replaceAll('0', 'x').replace('x', '-'))).toMatch(/found "[-x]"/)
  })
})

describe('one bad line is one record, and its neighbours come out', () => {
  it('among lines that are a grid each', async () => {
    expect(await read(text([...new Array(10).fill(A.replaceAll('0', 'x')), B]))).toEqual([
      ...new Array(10).fill(A),
      B,
    ])
    expect(await read(text([...new Array(10).fill(A.slice(1)), B]))).toEqual([
      ...Array.from({ length: 10 }, (_, i) => `text-shape ${i + 1}`),
      B,
    ])
    expect(await read(text([A, `${B.slice(0, 9)}k${B.slice(10)}`, C]))).toEqual([A, 'text-symbol 2', C])
  })

  it.each([
    ['a blank line', ''],
    ['two blank lines', '\n'],
    ['a comment', '# next'],
    ['a heading', 'Grid 2'],
    ['a number', '12.'],
  ])('among grids of nine rows with %s between them', async (_, between) => {
    for (const lost of [0, 4, 8]) {
      const short = rows(A).toSpliced(lost, 1)
      const found = await read(text([...short, between, ...rows(B), between, ...rows(C)]))
      expect(found).toEqual(['text-shape 8', B, C])
      const long = rows(A).toSpliced(lost, 0, rows(A)[lost]!)
      expect(
        (await read(text([...rows(C), between, ...long, between, ...rows(B)]))).map((e) => e.slice(0, 81)),
      ).toEqual([C, expect.stringMatching(/^text-shape/), B])
    }
  })

  it('and without a break nothing is taken from the next', async () => {
    const short = rows(A).slice(1)
    expect(await read(text([...short, ...rows(B), ...rows(C)]))).toEqual(['text-shape 26'])
    const bad = rows(B).with(3, '12345678')
    expect(await read(text([...rows(A), ...bad, ...rows(C)]))).toEqual([A, 'text-shape 13', C])
  })

  it('when the last row of one and the first of the next are on a line', async () => {
    const all = [...rows(A), ...rows(B), ...rows(C)]
    const joined = (at: number) => all.toSpliced(at, 2, `${all[at]}${all[at + 1]}`)
    expect(await read(text(joined(8)))).toEqual([expect.stringMatching(/^text/), C])
    expect(await read(text(joined(3)))).toEqual([expect.stringMatching(/^text/), B, C])
  })

  it('when bands have gaps between them', async () => {
    const banded = (line: string) => text(line.match(/.{27}/g)!.map((band) => text(rows(band))))
    const bands = (line: string) =>
      banded(line)
        .split('\n')
        .flatMap((row, r) => (r % 3 === 0 && r > 0 ? ['', row] : [row]))
    expect(await read(text([...bands(A), '', ...bands(B)]))).toEqual([A, B])
    expect(await read(text([...bands(A).toSpliced(1, 1), '', ...bands(B)]))).toEqual(['text-shape 4', B])
    expect(await read(text([...bands(A).slice(4), '', ...bands(B)]))).toEqual(['text-shape 5'])
  })

  it('when rows have eight and ten values', () => {
    const values = rows(A).map((row) => [...row])
    const shifted = [...values.slice(0, 3), values[3]!.slice(1), [...values[4]!, '1'], ...values.slice(5)]
    for (const separator of [',', ' ', ';', '\t']) {
      expect(faultOf(text(shifted.map((row) => row.join(separator))))).toMatch(/Line 4.*found 8/)
    }
    expect(faultOf(JSON.stringify(shifted.map((row) => row.map(Number))))).toMatch(
      /row 4 of the list with 8 values/,
    )
  })
})

describe('labels', () => {
  const header = '  1 2 3 4 5 6 7 8 9'
  it.each([
    ['a header and row numbers', [header, ...rows(A).map((row, r) => `${r + 1} ${[...row].join(' ')}`)]],
    ['letters before rows', rows(A).map((row, r) => `${'ABCDEFGHI'[r]} ${row}`)],
    ['numbers with a mark before rows', rows(A).map((row, r) => `${r + 1}: ${row}`)],
    ['row names', rows(A).map((row, r) => `row ${r + 1}: ${row}`)],
    [
      'values with a header',
      [',0,1,2,3,4,5,6,7,8', ...rows(A).map((row, r) => `${r},${[...row].join(',')}`)],
    ],
    ['column names alone', ['A,B,C,D,E,F,G,H,I', ...rows(A).map((row) => [...row].join(','))]],
  ])('%s are left out', async (_, lines) => {
    expect(parsePuzzle(text(lines)).givens.join('')).toBe(A)
    expect(await read(text([...lines, '', ...lines]))).toEqual([A, A])
  })

  it('of columns may be digits alone, unless a row is too many', async () => {
    const values = rows(A).map((row) => [...row].join(','))
    expect(parsePuzzle(text(['123456789', ...rows(A)])).givens.join('')).toBe(A)
    expect(await read(text(['1,2,3,4,5,6,7,8,9', ...values, '', ...values]))).toEqual([A, A])
    expect(faultOf(text(['123456789', ...rows(A).with(8, rows(A)[7]!)]))).toMatch(/10 lines of 9 cells/)
    expect(faultOf(text(['123456788', ...rows(A)]))).toMatch(/10 lines of 9 cells/)
  })

  it('of eight rows make no nine', () => {
    const eight = Array.from({ length: 8 }, () => '0,0,0,0,0,0,0,0')
    const labelled = [',1,2,3,4,5,6,7,8', ...eight.map((row, r) => `${r + 1},${row}`)]
    expect(faultOf(text(labelled))).toMatch(/8×8.*2x4 or 4x2/)
  })
})

describe('lines that are no grid', () => {
  it.each(['*', '_', '-', '=', 'x'])('drawn with %s make none', async (symbol) => {
    for (const length of [9, 16, 36, 81]) {
      const ruler = symbol.repeat(length)
      expect((await read(text([A, ruler, B]))).filter((entry) => !/^text/.test(entry))).toEqual([A, B])
      expect(
        (await read(text([...rows(A), ruler, ...rows(B)]))).filter((entry) => !/^text/.test(entry)),
      ).toEqual([A, B])
      expect(safeParsePuzzle(ruler).ok).toBe(false)
    }
  })

  it('such as numbers of sixteen digits are told apart from grids', async () => {
    const id = '1020304010203040'
    expect(await read(`${id} ${A}`)).toEqual([A])
    expect(await read(`${A},${id}`)).toEqual([A])
    expect(faultOf(`${id} ${A.slice(1)}`)).toMatch(/80/)
    expect(await read(text([id, ...rows(A), '', id, ...rows(B)]))).toEqual([
      'text-shape 1',
      A,
      'text-shape 12',
      B,
    ])
  })

  it('such as a solution are not taken for the damaged puzzle', () => {
    const solution = '483921657967345821251876493548132976729564138136798245372689514814253769695417382'
    expect(parsePuzzle(`${A},${solution}`).givens.join('')).toBe(A)
    expect(faultOf(`${A.slice(1)},${solution}`)).toMatch(/found 80 characters/)
    expect(faultOf(`${A.slice(0, 12)},${solution}`)).toMatch(/found 12 characters/)
    expect(faultOf(`${A.slice(0, 5)}k${A.slice(6)},${solution}`)).toMatch(/found "k"/)
  })
})

describe('JSON', () => {
  const small = [1, 0, 0, 0, 0, 0, 2, 0, 0, 3, 0, 0, 0, 0, 0, 4]
  it('may be a list of grids, one record each', async () => {
    expect(await read(JSON.stringify([small, small, small, small]))).toEqual(
      new Array(4).fill(small.join('')),
    )
    expect(faultOf(JSON.stringify([small, small, small, small]))).toMatch(/4 grids/)
    expect(await read(JSON.stringify([A, B, 'x'], undefined, 1))).toEqual([A, B, 'json-shape 1'])
    const saved = [A, B].map((line) => formatPuzzle(parsePuzzle(line), { style: 'json' }))
    expect(await read(`[\n${saved.join(',\n')}\n]`)).toEqual([A, B])
  })

  it('broken off costs its own line', async () => {
    const saved = [A, B, C].map((line) => formatPuzzle(parsePuzzle(line), { style: 'json' }))
    expect(await read(text([saved[0]!, saved[1]!.slice(0, 60), saved[2]!, A]))).toEqual([
      A,
      'json-shape 2',
      C,
      A,
    ])
    expect(await read(text(['[[1,2,', A, B]))).toEqual(['json-shape 1', A, B])
  })

  it('is refused when it is too deep', async () => {
    for (const unit of ['[', '{"a":', '[{"a":']) {
      expect(await read(text([unit.repeat(5000), A]))).toEqual(['json-shape 1', A])
      expect(faultOf(unit.repeat(5000))).toMatch(/more than 32 deep/)
    }
    let deep: unknown = 1
    for (let i = 0; i < 20_000; i++) deep = [deep]
    expect(() => puzzleFromJson(deep)).toThrow(/Saved puzzle/)
    expect(() => puzzleFromJson({ type: 'puzzle', geometry: deep, givens: deep })).toThrow(/Saved puzzle/)
  })
})

describe('files of other kinds', () => {
  const utf16 = (input: string, big: boolean, mark: boolean) => {
    const codes = [...(mark ? `\ufeff${input}` : input)].map((c) => c.charCodeAt(0))
    return Uint8Array.from(codes.flatMap((code) => (big ? [code >> 8, code & 255] : [code & 255, code >> 8])))
  }
  const bytes = (...start: (number | string)[]) =>
    Uint8Array.from([
      ...start.flatMap((part) => (typeof part === 'number' ? [part] : [...part].map((c) => c.charCodeAt(0)))),
      ...Array.from({ length: 3000 }, (_, i) => (i * 151 + (i >> 3)) & 255),
    ])
  const FILES: [string, Uint8Array, RegExp][] = [
    ['UTF-16', utf16(`${A}\n${B}`, false, true), /UTF-16/],
    ['UTF-16, big end first', utf16(`${A}\n${B}`, true, true), /UTF-16/],
    ['UTF-16 without a mark', utf16(`${A}\n${B}`, false, false), /UTF-16/],
    ['UTF-16 without a mark, big end first', utf16(`${A}\n${B}`, true, false), /UTF-16/],
    ['gzip', bytes(0x1f, 0x8b, 8, 0), /gzip/],
    ['zip', bytes('PK', 3, 4), /zip archive/],
    ['PNG', bytes(0x89, 'PNG\r\n', 0x1a, '\n'), /PNG picture.*photo/],
    ['JPEG', bytes(0xff, 0xd8, 0xff, 0xe0, 0, 16, 'JFIF'), /JPEG/],
    ['GIF', bytes('GIF89a'), /GIF/],
    ['WebP', bytes('RIFF', 1, 2, 3, 4, 'WEBP'), /WebP/],
    ['HEIC', bytes(0, 0, 0, 24, 'ftypheic'), /HEIC/],
    ['PDF', bytes('%PDF-1.7\n'), /PDF/],
    ['SVG', bytes('<svg xmlns="x">'), /SVG/],
  ]
  it.each(FILES)('%s is named once', async (_, file, name) => {
    const decoded = [new TextDecoder().decode(file), String.fromCharCode(...file)]
    for (const input of [file, ...decoded]) {
      const entries = []
      for await (const entry of readPuzzles([input, '\nmore\n1\n'])) entries.push(entry)
      expect(entries).toHaveLength(1)
      expect(entries[0]!.ok ? '' : entries[0]!.error.message).toMatch(name)
    }
    for (const input of decoded) expect(faultOf(input)).toMatch(name)
  })
})

describe('the geometry line', () => {
  const shapes: Geometry[] = [
    ...[boxedGeometry(3, 2), boxedGeometry(2, 6), boxedGeometry(1, 9), JIGSAW, DIAGONAL],
    regionGeometry('both', regionsOf(JIGSAW), { diagonals: true }),
    regionGeometry(
      'scattered',
      Array.from({ length: 36 }, (_, cell) => (cell * 5 + Math.floor(cell / 6)) % 6),
    ),
  ]
  it.each(shapes.map((geometry) => [geometry.name, geometry] as const))('says %s', (_, geometry) => {
    const puzzle = makePuzzle(
      Array.from({ length: geometry.cellCount }, (_, cell) => (cell % 3 ? 0 : (cell % geometry.order) + 1)),
      geometry,
    )
    for (const style of ['line', 'rows', 'separated', 'ruled', 'marks', 'json'] as const) {
      const result = safeParsePuzzle(formatPuzzle(puzzle, { style }))
      expect(result.ok ? '' : `${style}: ${result.error.message}`).toBe('')
      if (!result.ok) continue
      expect(result.puzzle.givens).toEqual(puzzle.givens)
      expect(sameRules(result.puzzle.geometry, geometry)).toBe(true)
    }
    const plain = formatPuzzle(puzzle, { geometryLine: false })
    expect(plain).not.toContain('\n')
    expect(parsePuzzle(plain, { geometry }).geometry).toBe(geometry)
  })

  it('holds for the grid below it alone', async () => {
    const six = '1....................................'.slice(0, 36)
    expect(await read(text(['# geometry: 3x2', six, six]))).toEqual([
      six.replaceAll('.', '0'),
      'geometry-ambiguous 3',
    ])
    expect(await read(text(['# geometry: 3x3 diagonals', '', '# easy', A, B]))).toEqual([A, B])
    expect(await read(text(['# geometry: 3x2', '# geometry: 2x3', six, '# geometry: 2x2']))).toEqual([
      ...['text-shape 1', six.replaceAll('.', '0'), 'text-shape 4'],
    ])
  })

  it.each([
    '',
    '3',
    '3x',
    '3x9',
    'regions 12/34',
    'regions 111/222/333',
    '3x3 diagonal',
    '0x9',
    '3x3 diagonals 4x4',
  ])('is refused when it says "%s"', async (said) => {
    expect(await read(text([`# geometry: ${said}`, A, B]))).toEqual(['geometry-shape 1', B])
    expect(safeParsePuzzle(text([`# geometry: ${said}`, A]), { format: 'line' }).ok).toBe(false)
  })

  it('must agree with the caller and with the drawing', () => {
    expect(() => parsePuzzle(`# geometry: 3x3 diagonals\n${A}`, { geometry: boxedGeometry(3, 3) })).toThrow(
      /"3x3", the geometry asked for/,
    )
    const drawn = formatPuzzle(parsePuzzle(A), { style: 'ruled' })
    expect(() => parsePuzzle(`# geometry: 1x9\n${drawn}`)).toThrow(/a drawing of boxes 3 high and 3 wide/)
  })

  it('refuses rules that it has no words for', () => {
    const further = withFurtherPeers(boxedGeometry(3, 3), 'further peers', [[0, 80]])
    expect(() => geometryLine(further)).toThrow(/would be lost in writing/)
  })
})

describe('orders with several shapes of boxes', () => {
  it.each([
    [6, '2x3 or 3x2'],
    [8, '2x4 or 4x2'],
    [10, '2x5 or 5x2'],
    [12, '2x6, 3x4, 4x3 or 6x2'],
    [14, '2x7 or 7x2'],
    [15, '3x5 or 5x3'],
  ])('ask: %i', async (order, shapes) => {
    const row = `1${'.'.repeat(order - 1)}`
    for (const input of ['1'.padEnd(order * order, '.'), text(new Array(order).fill(row))]) {
      expect(faultOf(input)).toContain(`boxes of ${shapes} (height x width)`)
      expect(await read(input)).toEqual(['geometry-ambiguous 1'])
    }
  })

  it('but 4, 9 and 16 do not', () => {
    for (const [order, name] of [
      [4, '2x2'],
      [9, '3x3'],
      [16, '4x4'],
    ] as const) {
      expect(parsePuzzle('1'.padEnd(order * order, '.')).geometry.name).toBe(name)
    }
  })
})

describe('digits that have run together', () => {
  it.each([',', ';', ' ', '\t'])('with "%s" between values are no pencil marks', (separator) => {
    const values = rows(A).map((row) => [...row].join(separator))
    const damaged = values.with(2, values[2]!.replace('1', '18'))
    expect(faultOf(text(damaged))).toMatch(/^Line 3/)
    expect(faultOf(text(values.with(2, values[2]!.replace('1', '1?'))))).toMatch(/^Line 3/)
  })

  it('in a drawing are no pencil marks either', () => {
    const drawn = formatPuzzle(parsePuzzle(A), { style: 'ruled' })
    expect(faultOf(drawn.replace('| 9', '| 29'))).toMatch(/^Line 3/)
  })

  it('and digits that are gone make no blank cell', () => {
    const blanks = formatPuzzle(parsePuzzle(A), { style: 'ruled' }).replaceAll('.', ' ')
    expect(parsePuzzle(blanks).givens.join('')).toBe(A)
    const lines = blanks.split('\n')
    const lost = lines.with(6, lines[6]!.replace('8 |', ' |'))
    expect(lost).not.toEqual(lines)
    expect(faultOf(text(lost))).toMatch(/^Line/)
    expect(faultOf(text(['12|34', '34|1', '21|43', '43|21']))).toMatch(/^Line/)
  })
})

describe('framed grids with blanks for empty cells', () => {
  const rows = (...lines: string[]) => `+-----+-----+\n${lines.join('\n')}\n+-----+-----+`
  const blank = '|     |     |'

  it('counts rows of blanks alone', async () => {
    const one = rows('| 4   |   3 |', blank, '+-----+-----+', blank, '|     | 1   |')
    const other = rows(blank, blank, '+-----+-----+', '| 1   |   4 |', '|   4 |     |')
    const found: string[] = []
    for await (const entry of readPuzzles([`${one}\n\n\n${other}`]))
      found.push(entry.ok ? entry.puzzle.givens.join('') : entry.error.code)
    expect(found).toEqual(['4003000000000010', '0000000010040400'])
  })

  it('takes no digit for a grid line, so that the end of a larger grid is no smaller grid', () => {
    const lines = ['| 4     |     1 | 3 9   |', '|       |       |       |', '| 3     |       |   7 1 |']
    const end = ['|     5 |       |     4 |', '|       |       |     5 |', '|       |   6   |       |']
    const rule = '+-------+-------+-------+'
    expect(safeParsePuzzle([...lines, rule, ...end, rule].join('\n')).ok).toBe(false)
  })
})

describe('lines of one symbol, and lines that only draw, among rows', () => {
  const A = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'
  const rows = A.match(/.{9}/g)!
  const read = async (text: string) => {
    const found: string[] = []
    for await (const entry of readPuzzles([text]))
      found.push(entry.ok ? entry.puzzle.givens.join('') : entry.error.code)
    return found
  }

  it('takes no line of dots for a row where zeros are the empty cells', async () => {
    for (const first of [0, 1]) {
      const text = [...rows.slice(first, 3), '.........', ...rows.slice(3)].join('\n')
      for (const entry of await read(text)) expect(entry).toBe('text-shape')
    }
  })

  it('does not let a grid that lost a row take one from across a drawn line', async () => {
    const ruler = '-'.repeat(40)
    const lost = [...rows, rows[8]!, ruler, ...rows.slice(1)].join('\n')
    for (const entry of await read(lost)) expect(entry === A || entry === 'text-shape').toBe(true)
    expect(await read([...rows, ruler, ...rows].join('\n'))).toEqual([A, A])
  })

  it('takes two rows run together for two, however their values are parted', async () => {
    const values = rows.map((row) => [...row].join(','))
    const text = [...values.slice(0, 7), values[7]! + values[8]!, ...values].join('\n')
    const found = await read(text)
    expect(found.at(-1)).toBe(A)
    for (const other of found.slice(0, -1)) expect(other).toBe('text-shape')
  })

  it('makes no grid of rows that are parted in two ways', async () => {
    const tight = rows.map((row) => [...row].join(','))
    const wide = rows.map((row) => [...row].join(', '))
    const split = [tight[0]!.slice(0, 9), tight[0]!.slice(9), ...tight.slice(1), ...wide.slice(1)].join('\n')
    for (const entry of await read(split)) expect(entry).toBe('text-shape')
    expect(await read([...tight, ...wide].join('\n'))).toEqual([A, A])
  })

  it('takes many lines that only draw in a time that grows with their number', () => {
    const begin = process.cpuUsage()
    expect(safeParsePuzzle('\n-'.repeat(30_000)).ok).toBe(false)
    expect(process.cpuUsage(begin).user / 1000).toBeLessThan(2000)
  })
})
