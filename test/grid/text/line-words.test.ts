import { describe, expect, it } from 'vitest'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { A, B, entriesOf, faultOf, read, rows, text } from './reading.js'

const SMALL = '1000001002000003'
const SOLUTION = '483921657967345821251876493548132976729564138136798245372689514814253769695417382'

describe('a puzzle and its solution on a line', () => {
  it('may stand in either order, with any separator', async () => {
    for (const separator of [',', ' ', '\t', ';', ' = ', ': '])
      for (const pair of [
        [A, SOLUTION],
        [SOLUTION, A],
      ])
        expect(await read(pair.join(separator))).toEqual([A])
  })

  it('are two grids where one does not solve the other', () => {
    const wrong = SOLUTION.replace('483', '481')
    expect(faultOf(`${A} ${wrong}`)).toMatch(/^Line 1, column 83: found a second grid of 81 cells/)
    expect(faultOf(`${A} ${SOLUTION} ${SOLUTION}`)).toMatch(
      /^Line 1, column 83: found a second grid of 81 cells/,
    )
    expect(faultOf(`${A} ${B}`)).toMatch(/^Line 1, column 83: found a second grid/)
    // a solution that lacks a digit
    expect(faultOf(`${A} ${SOLUTION.replace('8', '0')}`)).toMatch(/^Line 1, column 83: found a second grid/)
  })

  it('are told apart where one of them is damaged', () => {
    expect(faultOf(`${A.slice(1)},${SOLUTION}`)).toMatch(/^Line 1, column 1: found 80 characters/)
    expect(faultOf(`${A},${SOLUTION.slice(1)}`)).toMatch(/^Line 1, column 83: found 80 characters/)
    expect(faultOf(`${A.slice(0, 9)},${SOLUTION}`)).toBe(`read as ${SOLUTION}`)
    expect(faultOf(`${A.slice(0, 10)},${SOLUTION}`)).toMatch(/^Line 1, column 1: found 10 characters/)
    expect(faultOf(`${A.slice(0, 40)},${A}`)).toBe(`read as ${A}`)
    expect(faultOf(`${A.slice(0, 41)},${A}`)).toMatch(/^Line 1, column 1: found 41 characters/)
  })
})

describe('words beside a grid', () => {
  it.each([
    ['cabbage', 'cabbage'],
    ['decade-old facade', 'decade-old facade'],
    ['2024-11-30 12:45', '2024-11-30 12 45'],
    ['"a name"', 'a name'],
    ['(3.5)', '3.5'],
    ['[easy]', 'easy'],
    ['[12]', '12'],
    ['123456789012', '123456789012'],
  ])('%s', async (words, title) => {
    const entries = await entriesOf(text(`${words} ${A}`, `${A} ${words}`))
    expect(entries.map((entry) => entry.ok && entry.puzzle.givens.join(''))).toEqual([A, A])
    expect(entries.map((entry) => entry.title)).toEqual([title, title])
  })

  it('are said by their column where they may be cells', () => {
    const piece = '1.3.5.7.9.'.repeat(5)
    expect(faultOf(`${A} ${piece}`)).toMatch(/^Line 1, column 83: found 50 characters/)
    expect(faultOf(`${piece} ${A}`)).toMatch(/^Line 1, column 1: found 50 characters/)
    expect(faultOf(`${SMALL} 1.3.5.7.9`)).toMatch(/^Line 1, column 18: found 9 characters/)
    expect(faultOf(`${SMALL} 12345678`)).toMatch(/^read as/)
  })
})

describe('groups on a line', () => {
  it('have one length and one blank between them', () => {
    const groups = rows(A)
    expect(faultOf(groups.join(' '))).toBe(`read as ${A}`)
    expect(faultOf(`   ${groups.join(' ')}`)).toBe(`read as ${A}`)
    expect(faultOf(A.match(/.{3}/g)!.join(' '))).toBe(`read as ${A}`)
    expect(faultOf(A.match(/.{27}/g)!.join(' '))).toBe(`read as ${A}`)
    expect(faultOf(groups.with(3, `${groups[3]}1`).join(' '))).toMatch(
      /^Line 1, column 31: found 10 characters in a row/,
    )
    expect(faultOf(groups.join('  '))).toMatch(/^Line 1/)
    expect(faultOf(groups.slice(1).join(' '))).toMatch(/^Line 1, column 1: found 72 characters; expected 81/)
  })

  it('of cells with one wrong symbol are said by their column', () => {
    expect(faultOf(`x${A.slice(1).replace('3', 'k')}`)).toMatch(/^Line 1, column 1: found "x"/)
    expect(faultOf(A.replaceAll('0', 'X').replace('X', 'x'))).toBe(`read as ${A}`)
    expect(faultOf(A.replaceAll('0', '-').replace('-', 'o'))).toMatch(/^Line 1, column 2: found "-"/)
  })
})

describe('a line of cells and a geometry', () => {
  it('takes the run of that order', () => {
    const both = `${SMALL} ${A}`
    expect(faultOf(both)).toBe(`read as ${A}`)
    expect(faultOf(both, boxedGeometry(3, 3))).toBe(`read as ${A}`)
    expect(faultOf(A, boxedGeometry(2, 2))).toMatch(/found 81 characters; expected 16 for the geometry "2x2"/)
    expect(faultOf('1'.padEnd(36, '.'), boxedGeometry(3, 2))).toMatch(/^read as 1/)
  })
})
