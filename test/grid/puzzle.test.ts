import { describe, expect, it } from 'vitest'
import { boxedGeometry, checkGeometry, STANDARD } from '../../src/grid/geometry.js'
import { checkPuzzle, findClashes, makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'

const argument = (message: RegExp) =>
  expect.objectContaining({ name: 'InputError', code: 'argument', message: expect.stringMatching(message) })

describe('the bridge to a puzzle', () => {
  it('makes a value that cannot be changed afterwards', () => {
    const puzzle = makePuzzle(new Array(81).fill(0)) as { givens: readonly number[] }
    expect(() => {
      puzzle.givens = [1]
    }).toThrow(TypeError)
    expect(() => (puzzle.givens as number[]).push(1)).toThrow(TypeError)
  })

  it('refuses what is no list, no geometry, of another size or out of range', () => {
    expect(() => makePuzzle(undefined as never)).toThrow(argument(/`givens` must be a list, not undefined/))
    expect(() => makePuzzle([], { ...STANDARD, order: 4 })).toThrow(argument(/`geometry` must be a geometry/))
    expect(() => makePuzzle([1])).toThrow(expect.objectContaining({ code: 'text-shape' }))
    expect(() => makePuzzle(new Array(16).fill(5), boxedGeometry(2, 2))).toThrow(
      expect.objectContaining({ code: 'text-symbol' }),
    )
    expect(() => findClashes(STANDARD, undefined as never)).toThrow(argument(/`digits` must be a list/))
  })
})

describe('the shape of what is handed in as a puzzle', () => {
  const check = (value: unknown) => () => checkPuzzle(value)
  const open: readonly number[] = new Array(81).fill(0)

  it('is right for what the bridge made and for plain data of the same shape', () => {
    const puzzle: Puzzle = makePuzzle(open)
    expect(check(puzzle)).not.toThrow()
    expect(check({ geometry: STANDARD, givens: [...open] })).not.toThrow()
  })

  it.each([undefined, null, 9, 'puzzle', [], {}, open, () => {}])('is none of %o', (value) => {
    expect(check(value)).toThrow(argument(/`puzzle` must be a puzzle.*makePuzzle/))
  })

  it('counts cells and looks at each', () => {
    for (const givens of [[1], undefined, null, 'x'.repeat(81), { length: 81 }])
      expect(check({ geometry: STANDARD, givens })).toThrow(argument(/`puzzle.givens` must be a list of 81/))
    for (const digit of [10, -1, 0.5, Number.NaN, '1', null, undefined])
      expect(check({ geometry: STANDARD, givens: open.with(80, digit as number) })).toThrow(
        argument(/`puzzle.givens\[80\]` must be a digit from 0 to 9/),
      )
    const holes = new Array(81)
    expect(check({ geometry: STANDARD, givens: holes })).toThrow(argument(/not undefined/))
  })

  it('is right with a copy of a geometry, and wrong with what is none', () => {
    const copy = JSON.parse(JSON.stringify(STANDARD))
    for (const geometry of [copy, { ...STANDARD }, structuredClone(STANDARD)])
      expect(check({ geometry, givens: open })).not.toThrow()
    for (const value of [undefined, null, 9, '3x3', {}, [], { ...copy, order: 4 }, Object.create(STANDARD)])
      expect(() => checkGeometry(value)).toThrow(argument(/`geometry` must be a geometry.*boxedGeometry/))
  })
})
