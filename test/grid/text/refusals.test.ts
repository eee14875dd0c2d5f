import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InputError } from '../../../src/errors.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { boardFromJson, puzzleFromJson } from '../../../src/grid/json.js'
import { TEXT_FORMATS } from '../../../src/grid/text/formats.js'
import { parseBoard, parsePuzzle, safeParseBoard, safeParsePuzzle } from '../../../src/grid/text/parse.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'
import { anyBoard, anyPuzzle, JIGSAW, SEED } from '../arbitraries.js'

const LINE = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'
const ROWS = LINE.match(/.{9}/g)!
const property = { seed: SEED, numRuns: 250 }
const STYLES = TEXT_FORMATS.map((format) => format.name)

const with_ = (text: string, at: number, character: string) =>
  text.slice(0, at) + character + text.slice(at + 1)

describe('bad text gets a code, a place, what was found and what was expected', () => {
  it.each<[string, string, string, number, number | undefined, RegExp]>([
    ['nothing', '', 'text-empty', 1, undefined, /81 characters/],
    ['only comments', '# one\n\n# two', 'text-empty', 1, undefined, /81 characters/],
    ['a character too few', LINE.slice(1), 'text-shape', 1, 1, /found 80 characters; expected 81/],
    ['a character too many', `${LINE}0`, 'text-shape', 1, 1, /found 82 characters; expected 81/],
    ['a letter among digits', with_(LINE, 40, 'x'), 'text-symbol', 1, 41, /found "x"; expected 1 to 9/],
    [
      'a letter in nine lines',
      ROWS.map((row, r) => (r === 4 ? with_(row, 2, 'k') : row)).join('\n'),
      'text-symbol',
      5,
      3,
      /found "k"/,
    ],
    ['a digit out of range', '1234341221434351', 'text-symbol', 1, 15, /found "5"; expected 1 to 4/],
    ['a hidden character', with_(LINE, 3, '\u200b'), 'text-symbol', 1, 4, /found "<U\+200B>"/],
    [
      'spaces for empty cells, lost at the ends',
      LINE.replaceAll('0', ' ').trim(),
      'text-shape',
      1,
      19,
      /not a space/,
    ],
    [
      'a line too few',
      ROWS.slice(1).join('\n'),
      'text-shape',
      8,
      undefined,
      /found 8 lines of 9 cells; expected 9/,
    ],
    [
      'a cell too few on a line',
      ROWS.map((row, r) => (r === 6 ? row.slice(1) : row)).join('\n'),
      'text-shape',
      7,
      9,
      /found 8 cells; expected 9/,
    ],
    ['two grids', `${LINE}\n${LINE}`, 'text-shape', 2, undefined, /readPuzzles/],
    ['two grids of nine lines', [...ROWS, ...ROWS].join('\n'), 'text-shape', 10, undefined, /readPuzzles/],
    ['two grids on a line', `${LINE} ${LINE}`, 'text-shape', 1, 83, /second grid/],
    [
      'groups that differ',
      ROWS.map((row, r) =>
        r === 5 ? `${row.slice(0, 4)} ${row.slice(4)}` : `${row.slice(0, 3)} ${row.slice(3)}`,
      ).join('\n'),
      'text-shape',
      6,
      undefined,
      /groups of 4 5 cells; expected groups of 3 6/,
    ],
    [
      'a value too few',
      ROWS.map((row, r) => (r === 2 ? [...row].slice(1) : [...row]).join(',')).join('\n'),
      'text-shape',
      3,
      15,
      /8 values with "," between; expected 9/,
    ],
    [
      'a value out of range',
      ROWS.map((row) => [...row].join(';'))
        .join('\n')
        .replace('9;5', '10;5'),
      'text-symbol',
      7,
      11,
      /found "10"; expected 1 to 9/,
    ],
    [
      'rules that differ',
      ['12|34', '..|..', '..|..', '1.|.|.'].join('\n'),
      'text-shape',
      4,
      undefined,
      /found 2 vertical rules; expected 1/,
    ],
    [
      'digits in no columns',
      ['| 1 2 |     |', '|     |  3  |', '|     | 4   |', '|1    |   2 |'].join('\n'),
      'text-shape',
      1,
      undefined,
      /even columns/,
    ],
    ['5×5 without a geometry', '.'.repeat(25), 'geometry-shape', 1, undefined, /regionGeometry/],
    [
      '0 as a digit of sixteen',
      with_('.'.repeat(256), 7, '0'),
      'text-symbol',
      1,
      8,
      /one mark for empty cells/,
    ],
    ['broken JSON', '{"type":"puzzle"\n"geometry":1}', 'json-shape', 2, 1, /a comma or \}/],
    ['JSON of another kind', '{"a":1}', 'json-shape', 1, undefined, /puzzle/],
    ['prose', 'hello there', 'text-shape', 1, 1, /no grid is recognised/],
  ])('%s', (_, text, code, line, column, message) => {
    const result = safeParsePuzzle(text)
    expect(result.ok).toBe(false)
    if (result.ok) return
    const { error } = result
    expect(error).toBeInstanceOf(InputError)
    expect(error.message).toMatch(message)
    expect({ code: error.code, ...error.place }).toEqual({
      code,
      line,
      ...(column === undefined ? {} : { column }),
    })
    expect(error.found).toBeTruthy()
    expect(error.expected).toBeTruthy()
  })
})

describe('a geometry asked for', () => {
  it('must have as many cells as the text', () => {
    for (const text of [LINE, ROWS.join('\n'), formatPuzzle(parsePuzzle(LINE), { style: 'ruled' })]) {
      const result = safeParsePuzzle(text, { geometry: boxedGeometry(2, 3) })
      expect(result.ok ? '' : result.error.code).toBe('text-shape')
    }
    const saved = formatPuzzle(parsePuzzle(LINE), { style: 'json' })
    expect(() => parsePuzzle(saved, { geometry: JIGSAW })).toThrow(/as the geometry|pieces of the geometry/)
  })
})

describe('mistakes of a program', () => {
  it('throw at once and by name', () => {
    expect(() => parsePuzzle(LINE, { format: 'picture' as 'line' })).toThrow(
      /must be one of json, line.* not "picture"/,
    )
    expect(() => formatPuzzle(parsePuzzle(LINE), { style: 'picture' as 'line' })).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
    expect(() => parsePuzzle(81 as unknown as string)).toThrow(expect.objectContaining({ code: 'argument' }))
  })
})

describe('any text at all', () => {
  const isAnswer = (text: string) => {
    for (const parse of [safeParsePuzzle, safeParseBoard]) {
      const result = parse(text)
      if (!result.ok) expect(result.error.message.length).toBeLessThan(600)
    }
    for (const format of STYLES) safeParsePuzzle(text, { format })
    for (const geometry of [boxedGeometry(3, 3), boxedGeometry(4, 4), JIGSAW])
      safeParseBoard(text, { geometry })
  }

  it('is a puzzle or an InputError', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 300 }), isAnswer), property)
    const grid = fc.constantFrom(...'0123456789ABCDEFG._*|+-= ,;\t\n#!?[]{}"│─┼║═'.split(''))
    fc.assert(fc.property(fc.string({ unit: grid, maxLength: 400 }), isAnswer), property)
  })

  it('made from a good one by cutting, repeating and swapping is a puzzle or an InputError', () => {
    const edit = fc.tuple(fc.nat(2000), fc.nat(40), fc.constantFrom('cut', 'repeat', 'swap'))
    fc.assert(
      fc.property(
        anyBoard(boxedGeometry(3, 3)),
        fc.constantFrom(...STYLES),
        fc.array(edit, { minLength: 1, maxLength: 4 }),
        (board, style, edits) => {
          let text = formatPuzzle(board, { style })
          for (const [at, length, kind] of edits) {
            const from = at % text.length
            const piece = text.slice(from, from + length)
            const middle = { cut: '', repeat: piece + piece, swap: [...piece].reverse().join('') }[kind]
            text = text.slice(0, from) + middle + text.slice(from + length)
          }
          isAnswer(text)
        },
      ),
      property,
    )
  })

  it('of great length is refused without a hang', () => {
    for (const unit of ['1', '1 ', '1,', '| ', '-+', '\n', '[', '{"a":', ' #', 'x']) {
      isAnswer(unit.repeat(Math.floor(50_000 / unit.length)))
    }
    expect(() => parseBoard('1'.repeat(300_000))).toThrow(/too many for one grid/)
  })
})

describe('a puzzle with one character lost', () => {
  it('never comes out with a digit that was not there', () => {
    fc.assert(
      fc.property(
        anyPuzzle(boxedGeometry(3, 3)),
        fc.constantFrom(...STYLES),
        fc.constantFrom('.' as const, '0' as const),
        fc.nat(),
        (puzzle, style, empty, at) => {
          const text = formatPuzzle(puzzle, { style, empty })
          const from = at % text.length
          const result = safeParsePuzzle(text.slice(0, from) + text.slice(from + 1))
          if (!result.ok) return
          result.puzzle.givens.forEach((digit, cell) => {
            if (digit !== 0) expect(digit).toBe(puzzle.givens[cell])
          })
        },
      ),
      property,
    )
  })
})

describe('saved data', () => {
  it('of any shape is a puzzle, a board or an InputError', () => {
    const geometry = fc.oneof(
      fc.record({
        kind: fc.constant('boxes'),
        rows: fc.integer({ min: -1, max: 9 }),
        columns: fc.integer({ min: -1, max: 9 }),
      }),
      fc.record({
        kind: fc.constant('regions'),
        name: fc.string(),
        regions: fc.array(fc.nat(5)),
        diagonals: fc.boolean(),
      }),
      fc.anything(),
    )
    const numbers = fc.oneof(
      fc.array(fc.integer({ min: -1, max: 17 }), { minLength: 16, maxLength: 16 }),
      fc.anything(),
    )
    const data = fc.record(
      {
        type: fc.constantFrom('puzzle', 'board', 'other'),
        geometry,
        givens: numbers,
        placed: numbers,
        candidates: fc.oneof(
          fc.array(fc.array(fc.integer({ min: 0, max: 5 })), { minLength: 16, maxLength: 16 }),
          fc.anything(),
        ),
      },
      { requiredKeys: [] },
    )
    fc.assert(
      fc.property(data, (value) => {
        for (const read of [puzzleFromJson, boardFromJson]) {
          try {
            read(value)
          } catch (error) {
            expect(error).toBeInstanceOf(InputError)
          }
        }
      }),
      property,
    )
  })

  it('says which entry is wrong', () => {
    const saved = JSON.parse(
      formatPuzzle(parseBoard('1 2? . .\n. . . .\n. . . .\n. . . .'), { style: 'json' }),
    )
    expect(saved.type).toBe('board')
    expect(() => boardFromJson({ ...saved, candidates: saved.candidates.with(1, [2, 2]) })).toThrow(
      /candidates\.1/,
    )
    expect(() => boardFromJson({ ...saved, placed: saved.placed.with(0, 3) })).toThrow(/cell has a given/)
    expect(() => boardFromJson({ ...saved, placed: [] })).toThrow(/"placed": found 0 cells; expected 16/)
    expect(() => boardFromJson({ ...saved, extra: 1 })).toThrow(InputError)
    expect(() => puzzleFromJson(null)).toThrow(InputError)
  })
})
