import { describe, expect, it } from 'vitest'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { A, B, C, faultOf, read, rows, text, values } from './reading.js'

const isError = expect.stringMatching(/^Line \d+/)
/** Without the first row. */
const lost = (lines: readonly string[]) => lines.slice(1)
const doubled = (lines: readonly string[], at = 4) => lines.toSpliced(at, 0, lines[at]!)

describe('rows whose number comes out by luck', () => {
  it.each([
    ['rows', rows],
    ['values', (line: string) => values(line, ',')],
    ['spaced rows', (line: string) => values(line, ' ', '.')],
  ])('a row lost and another doubled: %s', async (_, write) => {
    const found = await read(text(write(C), lost(write(A)), doubled(write(B)), write(C)))
    expect(found).toEqual([C, isError, isError, C])
    expect(found[1]).toMatch(/twice in (row|column|box) \d, among rows of which some are lost or added/)
  })

  it('a row lost and another split', async () => {
    for (const separator of [',', ' ', '\t']) {
      const [first, ...others] = values(B, separator)
      for (const at of [3, 7, 8, 9, 10, 14]) {
        const split = [first!.slice(0, at), first!.slice(at), ...others]
        for (const entry of await read(text(lost(values(A, separator)), split)))
          expect(entry).toEqual(isError)
        expect(await read(text(values(A, separator), split, values(C, separator)))).toEqual([A, isError, C])
        expect(
          await read(text(values(A, separator), others, split.slice(0, 2), values(C, separator))),
        ).toEqual([...[A, isError, C]])
      }
    }
  })

  it('a row lost before grids that are shifted, up to one with a row too many', async () => {
    const shifted = text(lost(rows(A)), rows(B), rows(C), rows(A), doubled(rows(B)))
    expect(await read(shifted)).toEqual([isError, isError, isError, isError, isError])
  })

  it('but a puzzle with a wrong digit among sound ones comes out', async () => {
    const wrong = `${B.slice(0, 1)}2${B.slice(2)}`
    expect(await read(text(rows(A), rows(wrong), rows(C)))).toEqual([A, wrong, C])
    expect(await read(text(rows(wrong)))).toEqual([wrong])
  })

  it('where the mark for empty cells changes within a grid', async () => {
    const mixed = text(lost(rows(A, '.')), rows(B, '0').slice(0, 1), lost(rows(B, '0')), rows(C, '0')[0]!)
    for (const entry of await read(mixed)) expect(entry).toEqual(isError)
    expect(faultOf(text(rows(A, '.').slice(0, 5), rows(A, '0').slice(5)))).toMatch(
      /^Line 6: found a row with another separator, or another mark/,
    )
    expect(await read(text(rows(A, '.'), rows(B, '0'), rows(C, 'x')))).toEqual([A, B, C])
  })

  it('a row doubled in a drawing with blanks for empty cells', async () => {
    const drawn = ['| 2 6 | 5   | 3 4 |', '|     | 3   | 2   |', '|     | 2   |   1 |', '|     |     | 6   |']
    const last = ['|     |     | 1   |', '| 1   |     |     |']
    const six = boxedGeometry(3, 2)
    expect(await read(text(drawn, last), six)).toEqual(['265034003020002001000060000010100000'])
    expect(await read(text(drawn[0]!, drawn, last[0]!), six)).toEqual([isError])
  })

  it('a row put in above that counts up as column labels do', async () => {
    const rows = ['123456', '345612', '561234', '234561', '123456', '456123', '612345']
    const six = boxedGeometry(3, 2)
    for (const entry of await read(text(rows), six)) expect(entry).toEqual(isError)
    expect(await read(text(rows.toSpliced(4, 1)), six)).toEqual([rows.toSpliced(4, 1).join('')])
  })

  it('where bands wait and drawn lines part grids', async () => {
    const geometry = boxedGeometry(3, 2)
    const bands = ['64 32 51', '32 51 64', '51 64 32', '', '43 25 16', '25 16 43', '16 43 25']
    const whole = bands.join('').replaceAll(' ', '')
    const joined = [`${bands[0]} ${bands[1]}`, ...bands.slice(2)]
    expect(await read(text(bands, '_________', bands), geometry)).toEqual([whole, whole])
    expect(await read(text(joined, '_________', bands), geometry)).toEqual([isError, whole])
  })

  it('where a blank line follows what a drawn line parts from broken rows', async () => {
    const broken = ['00 20', 'x1 x4', '2x x1']
    const below = ['1x x3', 'xx xx']
    const found = await read(text(broken, '-----', below, '', 'xx xx', 'xx xx', 'xx oxx', 'xx xx'))
    expect(found.every((entry) => entry !== '1003000000000000')).toBe(true)
    expect(found).toEqual(found.map(() => isError))
  })
})

describe('rows cut at the wrong places', () => {
  /** Few digits, so that rows of two grids hardly ever have one twice. */
  const sparse = (line: string, mark: string) => rows(line.replace(/[1-79]/g, '0'), mark)
  const isShifted = expect.stringMatching(
    /^Line \d+: found a grid beside one that is cut at the wrong place, among rows/,
  )

  it('are known by a change of marks within a grid, up to where marks change between grids', async () => {
    const shifted = text(
      ...[sparse(A, '.'), sparse(B, '_'), sparse(C, '_').slice(1)],
      ...[sparse(A, '*'), sparse(B, '*'), ['********8'], sparse(C, 'x')],
    )
    const found = await read(shifted)
    expect(found).toHaveLength(6)
    expect([found[0], found[5]]).toEqual([A, C].map((line) => line.replace(/[1-79]/g, '0')))
    expect(found[2]).toMatch(/^Line 27: found a row with another separator, or another mark/)
    expect([found[1], found[3], found[4]]).toEqual([isShifted, isShifted, isError])
  })

  it('are known by a row that stands twice', async () => {
    const few = rows(A.replace(/[1-689]/g, '0')).map((row, r) => (r === 4 ? '800000009' : row))
    const others = rows(C.replace(/[1-689]/g, '0'))
    expect(await read(text(few, others))).toEqual([few.join(''), others.join('')])
    expect(await read(text(few.toSpliced(4, 0, few[4]!), others.slice(1)))).toEqual([isError, isShifted])
  })

  it('beside a fault are known by empty rows that stand twice', async () => {
    const few = ['200000000', '000000000', '000000000', ...rows(A).slice(3)]
    expect(await read(text(few, rows(B)))).toEqual([few.join(''), B])
    expect(await read(text('1234567', few, '', rows(B)))).toEqual([
      expect.stringMatching(/^Line 1: found "1234567"/),
      expect.stringMatching(/^Line 2: found a grid with two equal rows, one below the other/),
      B,
    ])
  })

  it('are known by a fault in another grid where a line was left out', async () => {
    const few = [A, B, C].map((line) => rows(line.replace(/[1-79]/g, '0')))
    const faulty = few[0]!.with(3, 'k01806400')
    expect(await read(text(faulty, few[1]!, '12345678', few[2]!))).toEqual([
      ...[isError, isShifted, expect.stringMatching(/^Line 19: found "12345678"/), isShifted],
    ])
    expect(await read(text(rows(A), '12345678', rows(C)))).toEqual([A, isError, C])
  })

  it('may be those below bands with the same break between them', async () => {
    const band = ['1 . . .', '. . 2 .']
    const grid = ['. 3 . .', '. . . 1', '2 . . .', '. . 4 .']
    const givens = grid.join('').replaceAll(' ', '').replaceAll('.', '0')
    expect(await read(text(band, '', grid, '', grid, '', band))).toEqual([
      isError,
      isShifted,
      isShifted,
      isError,
    ])
    expect(await read(text(band, '', grid, '', band, '', band))).toEqual([isError, isShifted, isError])
    expect(await read(text(band, '# next', grid, '', grid))).toEqual([isError, givens, givens])
    expect(await read(text(grid.slice(1), '', grid, '', grid))).toEqual([isError, givens, givens])
  })

  it('are not made of rows around a bracket', async () => {
    for (const bracket of ['{', '[1,2', ']']) {
      const found = await read(text(rows(A), bracket, rows(A).slice(4)))
      expect(found.at(-1)).toEqual(isError)
      expect(await read(text(rows(A).toSpliced(4, 0, bracket), rows(B)))).not.toContain(A)
      expect(await read(text(rows(A), bracket, rows(B)))).toEqual([A, isError, B])
    }
  })
})

describe('a line beside rows that may be one of them', () => {
  const small = boxedGeometry(3, 2)
  const sparse = ['. . . . . 4', '5 . . 2 . .', '. . . . . 1', '4 . 2 3 . .', '. 5 . 1 . .', '. . . . . .']
  const isBeside = expect.stringMatching(/found a grid beside a line that may be one of its rows/)

  it('makes the grid doubtful, as long as it could be', async () => {
    for (const line of ['. 5 . .', '. 5 . . 3 . 1', '. 5 . . 3 [ .']) {
      expect(await read(text(line, sparse), small)).toEqual([isError, isBeside])
      expect(await read(text(sparse.toReversed(), line), small)).toEqual([isBeside, isError])
    }
  })

  it('be it split in two, or a line of one sign further off', async () => {
    const grid = [
      '_________',
      '__8__3__2',
      '__39__4__',
      '____6__73',
      '___7___24',
      '____2_6__',
      '___6_1___',
      '__7____46',
      '______8__',
    ]
    expect(await read(text(grid))).toHaveLength(1)
    for (const lines of [
      ['____', '_7395'],
      ['____', '_7395____'],
    ])
      for (const entry of await read(text(grid, lines))) expect(entry).toEqual(isError)
  })

  it('but not where the rows cannot have moved, or where it is written in another way', async () => {
    const whole = sparse.join('').replaceAll(' ', '').replaceAll('.', '0')
    for (const line of ['.5..', '0 5 0 0', '1 2', '_ _ _ _', '*****'])
      expect(await read(text(line, sparse), small)).toContain(whole)
    expect(await read(text('20008030', rows(C), '00308030', rows(C)))).toEqual([isError, C, isError, C])
  })

  it('may be hidden by a line that is a grid, put in among the rows', async () => {
    const grid = ['1..2', '....', '..3.', '.4..']
    const line = '1020304010203040'
    expect(await read(text(grid.slice(0, 3), line, grid), boxedGeometry(2, 2))).toEqual([
      ...[isError, line.replaceAll('.', '0'), isError],
    ])
    expect(await read(text(grid, line, grid), boxedGeometry(2, 2))).toEqual([
      ...['1002000000300400', line, '1002000000300400'],
    ])
  })
})

describe('drawn lines that are no longer than rows', () => {
  it('may cut half of a grid and half of the next', async () => {
    const halves = [
      '13 42',
      '42 13',
      '=====',
      '34 21',
      '21 34',
      '1. .3',
      '.3 ..',
      '-----',
      '.2 ..',
      '3. ..',
      '.. 1.',
    ]
    for (const entry of await read(text(halves), boxedGeometry(2, 2))) expect(entry).toEqual(isError)
  })

  it('but no half of a grid with three bands', async () => {
    const found = await read(text(rows(A).slice(1), '---------', rows(B), '---------', rows(C)))
    expect(found).toEqual([isError, B, C])
  })
})

describe('lines of one symbol', () => {
  it('are drawn where rows have another mark, whatever their length', async () => {
    for (const symbol of ['.', '*', '_', '-', '=', '~', 'x', '?'])
      for (const length of [5, 9, 11])
        expect(await read(text(rows(A), symbol.repeat(length), rows(B)))).toEqual([A, B])
    expect(await read(text(rows(A, '.'), '_ _ _ _ _ _ _ _ _', rows(B, '.')))).toEqual([A, B])
  })

  it('are rows at either end of a drawing whose bars they have', async () => {
    const drawn = ['12|43', '**|*4', '--+--', '*2|**', '31|4*']
    const small = boxedGeometry(2, 2)
    expect(await read(text(drawn), small)).toEqual(['1243000402003140'])
    for (const lines of [
      ['__|__', ...drawn],
      [...drawn, 'xx|xx'],
    ])
      expect(await read(text(lines), small)).toEqual([isError])
  })

  it('are rows where full rows have their blanks in the same places', async () => {
    const small = boxedGeometry(2, 2)
    const lines = ['2 3  1 4', '1 4  2 3', '- -  - -', '- -  - -']
    expect(await read(text(lines), small)).toEqual(['2314142300000000'])
    expect(
      await read(
        text('3 1  4 2', '', lines.slice(0, 2), '_________', lines.slice(2), '', '4 -  - 1', '3 -  - -'),
        small,
      ),
    ).not.toContain('2314142340013000')
    const dashed = values(A, ' ', '.').flatMap((row, r) =>
      r === 3 || r === 6 ? ['- - - - - - - - -', row] : [row],
    )
    expect(await read(text(dashed))).toEqual([A])
  })

  it('are no rulers where rows have the same mark, unless they are longer', async () => {
    for (const mark of ['*', '_', '-', 'x', '?']) {
      expect(await read(text(rows(A, mark), mark.repeat(11), rows(B, mark)))).toEqual([A, B])
      expect(await read(text(rows(A, mark), mark.repeat(5), rows(B, mark)))).toEqual([A, isError, B])
      const blank = `${A.slice(0, 36)}000000000${A.slice(45)}`
      expect(await read(text(rows(blank, mark)))).toEqual([blank])
    }
  })

  it('are rows of empty cells where they are dots or zeros, as those around them', async () => {
    const blank = `${A.slice(0, 36)}000000000${A.slice(45)}`
    for (const mark of ['.', '0']) {
      expect(await read(text(rows(blank, mark), rows(B, mark)))).toEqual([blank, B])
      expect(await read(text(values(blank, ' ', mark), values(B, ' ', mark)))).toEqual([blank, B])
    }
    const apart = await read(text(rows(A, '.'), 'x x x', rows(B, '.')))
    expect(apart).toEqual([A, expect.stringMatching(/^Line 10: found "x x x"/), B])
    for (const entry of await read(text(rows(A, '.').with(4, '000000000')))) expect(entry).toEqual(isError)
    for (const entry of await read(text(rows(A, '.').with(4, 'x x x x x x x x x'))))
      expect(entry).toEqual(isError)
  })
})

describe('drawings that have lost rows', () => {
  const rule = '+-------+-------+-------+'
  it('are no smaller grid with its digits further apart', async () => {
    const lines = [
      ...[rule, '|       |     1 |     6 |', '|       |       |       |', '|     6 |       |       |'],
      ...[rule, '|       |       |       |', '|       |       |       |', '| 2     |     5 |       |', rule],
    ]
    for (const entry of await read(text(lines))) expect(entry).toEqual(isError)
  })

  it('are no grid where a drawn line stands below the first row alone', async () => {
    const lines = ['..|3.', '--+--', '..|1.', '.1|..', '3.|.1']
    for (const entry of await read(text(lines))) expect(entry).toEqual(isError)
  })
})

describe('grid lines between rows', () => {
  const small = ['..|3.', '..|1.', '--+--', '.1|..', '3.|.1']
  const givens = '0030001001003001'
  it('show where rows are lost in one grid and added in another', async () => {
    expect(await read(text(small, small, small))).toEqual([givens, givens, givens])
    const uneven = [small[0]!, ...small.slice(1, 2), ...small.slice(1), ...small.slice(0, 3), small[4]!]
    for (const entry of await read(text(uneven))) expect(entry).toEqual(isError)
  })

  it('are not passed over in the only grid of a text either', () => {
    const [a, b, c] = [rows(A).slice(0, 3), rows(A).slice(3, 5), rows(A).slice(5)]
    expect(faultOf(text(a, '-----------', b, '-----------', c))).toMatch(/3, 2 and 4 rows with breaks/)
    expect(faultOf(text(a, '', b, '# half', c))).toBe(`read as ${A}`)
  })

  it('of one symbol among grids on a line are said where they could be one', async () => {
    const blank = [A, B].map((line) => line.replaceAll('0', ' '))
    for (const ruler of ['*'.repeat(16), 'x'.repeat(81)]) {
      expect(await read(text(blank[0]!, ruler, blank[1]!))).toEqual([
        ...[A, expect.stringMatching(/^Line 2: found .*, a line of one symbol/), B],
      ])
    }
    expect(await read(text(blank[0]!, '~'.repeat(40), blank[1]!))).toEqual([A, B])
    for (const entry of await read(`${'-'.repeat(16)}   192   3`)) expect(entry).toEqual(isError)
  })
})

describe('lines of sixteen symbols', () => {
  it('with marks for empty cells, or apart, are grids unless rows as long stand beside them', async () => {
    // a sound puzzle with as many digits is no row and no number
    const small = '1........2......'
    for (const drawn of ['_4______________', '........2.......'])
      expect(await read(text(rows(A), drawn, '', rows(B)))).not.toContain(drawn.replace(/\D/g, '0'))
    const givens = small.replaceAll('.', '0')
    const lone = [
      small,
      [...small].join(','),
      small.match(/..../g)!.join(' '),
      `${small} easy`,
      `12,${small},3.5`,
    ]
    for (const line of lone) {
      expect(await read(text(line, '', rows(A)))).toEqual([givens, A])
      expect(await read(text(rows(A), '', line))).toEqual([A, givens])
      const long = ['FEDCBA9876543210'.replace('0', 'G'), '56789ABCDEFG1234']
      for (const lines of [text(long, '', line), text(line, '', long)])
        expect(await read(lines)).toEqual([isError, isError])
    }
    expect(await read(`${small} 2.4.3.1`)).toEqual([isError])
    expect(await read(text(`${small} 1234341242312143`, A))).toEqual([givens, A])
  })

  const id = '1020304010203040'
  const isUnclear = expect.stringMatching(/^Line \d+: found a line of 16 symbols among larger grids/)
  it('are numbers among larger grids, before or after them', async () => {
    expect(await read(text(id, '', rows(A), '', id, id, '', B, id))).toEqual([
      ...[isUnclear, A, isUnclear, isUnclear, B, isUnclear],
    ])
    expect(faultOf(text(id, '', rows(A)))).toMatch(/16 symbols/)
    expect(await read(text(id, '', '12345', '', A))).toEqual([isUnclear, isError, A])
  })

  it('are grids among grids of order 4, alone, where there are many, and where that is said', async () => {
    expect(await read(id)).toEqual([id])
    expect(await read(text(id, '', id))).toEqual([id, id])
    expect(await read(text(A, '', new Array<string>(5).fill(id)))).toEqual([A, ...new Array(5).fill(id)])
    expect(await read(text(A, '# geometry: 2x2', id))).toEqual([A, id])
    expect(await read(text(id, id), boxedGeometry(2, 2))).toEqual([id, id])
  })

  it('that wait are not held for ever', async () => {
    const bad = new Array<string>(60).fill('[5]')
    const entries = await read(text(id, '', bad, A))
    expect([entries[0], entries.length]).toEqual([isUnclear, 62])
    expect(await read(text(A.slice(1), id))).toEqual([isError, isUnclear])
  })

  it('are numbers with other words on their line, and below a geometry of a larger grid', async () => {
    expect(await read(`${id} 00`)).toEqual([isUnclear])
    expect(await read('1000001002000003 easy')).toEqual(['1000001002000003'])
    expect(await read(text('# geometry: 2x3', id, id))).toEqual([isError, isUnclear])
  })

  it('are rows where most of them have large digits, though the first could be a grid', async () => {
    const symbols = 'G123456789ABCDEF'
    const large = Array.from({ length: 16 }, (_, r) =>
      Array.from({ length: 16 }, (_, c) => symbols[(r * 4 + (r >> 2) + c) % 16]!).join(' '),
    )
    const first = `1 2 3 4 ${'X '.repeat(12)}`.trim()
    const grid = [first, ...large.slice(1)]
    const many = Array.from({ length: 5 }, () => grid).flat()
    for (const entry of await read(text(many.toSpliced(3, 0, many[3]!)))) expect(entry.length).not.toBe(16)
  })
})

describe('one way to write', () => {
  it('empty cells: no value between separators where they have a mark', () => {
    const damaged = values(A, ',').with(3, '0,,8,1,0,2,9,0,0')
    expect(faultOf(text(damaged))).toBe(
      'Line 4, column 3: found no value, and "0" for an empty cell on line 1; expected one way to write an empty cell.',
    )
    expect(faultOf(text(values(A, ';', '')))).toBe(`read as ${A}`)
    expect(faultOf(text(values(A, '\t', '')))).toBe(`read as ${A}`)
  })

  it('digits above nine: letters or numbers', () => {
    const geometry = boxedGeometry(3, 4)
    const grid = Array.from({ length: 12 }, (_, r) =>
      Array.from({ length: 12 }, (_, c) => (r === c ? 'ABC1'[r % 4] : '.')).join(' '),
    )
    expect(faultOf(text(grid), geometry)).toMatch(/^read as/)
    expect(faultOf(text(grid.with(5, grid[5]!.replace('B', '11'))), geometry)).toMatch(
      /^Line 6, column 11: found "11" here and "A" elsewhere; expected letters or numbers/,
    )
  })
})
