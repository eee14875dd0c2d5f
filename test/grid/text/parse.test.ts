import { describe, expect, it } from 'vitest'
import { InputError } from '../../../src/errors.js'
import { parsePuzzle, safeParsePuzzle } from '../../../src/grid/text/parse.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'

const LINE = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'

describe('parsePuzzle', () => {
  it('reads 81 characters, nine lines and separated values as the same puzzle', () => {
    const puzzle = parsePuzzle(LINE)
    expect(puzzle.geometry.name).toBe('3x3')
    expect(puzzle.givens.join('')).toBe(LINE)
    const rows = LINE.match(/.{9}/g)!
    for (const text of [
      rows.join('\n'),
      rows.join('\r\n'),
      `\ufeff${rows.join('\r')}\r`,
      rows.map((row) => row.replace(/(...)(...)/, '$1 $2 ')).join('\n'),
      rows.map((row) => [...row].join(' ')).join('\n'),
      rows.map((row) => [...row].join(',').replaceAll('0', '')).join('\n'),
      rows.map((row) => [...row].join('\t').replaceAll('0', '')).join('\n'),
      rows.map((row) => [...row].join('; ')).join('\n'),
      [...LINE].join(','),
      `# a comment\nGrid 01\n${rows.join('\n')}\n`,
      LINE.replaceAll('0', '*'),
    ]) {
      expect(parsePuzzle(text).givens, text).toEqual(puzzle.givens)
    }
    for (const style of ['line', 'rows', 'separated'] as const) {
      expect(parsePuzzle(formatPuzzle(puzzle, { style })).givens).toEqual(puzzle.givens)
    }
  })

  it.each([
    ['', 'text-empty', 1, undefined],
    ['\n# only words\n', 'text-empty', 1, undefined],
    [LINE.slice(1), 'text-shape', 1, 1],
    [`${LINE.slice(0, 40)}x${LINE.slice(41)}`, 'text-symbol', 1, 41],
    [`${LINE} ${LINE}`, 'text-shape', 1, 83],
    [`${LINE.match(/.{9}/g)!.slice(0, 8).join('\n')}`, 'text-shape', 8, undefined],
  ])('refuses %j', (text, code, line, column) => {
    const result = safeParsePuzzle(text)
    expect(result.ok).toBe(false)
    if (result.ok) return
    expect(result.error).toBeInstanceOf(InputError)
    expect(result.error.code).toBe(code)
    expect(result.error.place.line).toBe(line)
    expect(result.error.place.column).toBe(column)
    expect(result.error.expected).toBeTruthy()
  })
})
