import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InputError } from '../../src/errors.js'
import { cellGroups, cellsNotation, parseCells } from '../../src/explain/cell-names.js'
import { boxedGeometry, cellName, type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { ALL_ORDERS, slantedGeometry } from '../support/any-geometry.js'
import { cellAt } from '../support/boards.js'

const SIXTEEN = boxedGeometry(4, 4)
const cells = (names: readonly string[], geometry: Geometry = STANDARD) =>
  names.map((name) => cellAt(name, geometry))
const anyCells = (geometry: Geometry, maxLength: number) =>
  fc.uniqueArray(fc.integer({ min: 0, max: geometry.cellCount - 1 }), { minLength: 1, maxLength })
const ascending = (numbers: readonly number[]) => [...numbers].sort((a, b) => a - b)

describe('cellGroups', () => {
  it('writes cells of a line together, as is common practice', () => {
    expect(cellGroups(STANDARD, cells(['r4c5', 'r4c6']))).toEqual(['r4c56'])
    expect(cellGroups(STANDARD, cells(['r3c4', 'r1c4', 'r2c4']))).toEqual(['r123c4'])
    expect(cellGroups(STANDARD, cells(['r1c1', 'r1c2', 'r2c1', 'r2c2', 'r9c9']))).toEqual(['r12c12', 'r9c9'])
    expect(cellGroups(STANDARD, [])).toEqual([])
  })

  it('parts numbers by commas above order nine, those below ten as well', () => {
    expect(cellGroups(SIXTEEN, cells(['r14c11'], SIXTEEN))).toEqual(['r14c11'])
    expect(cellGroups(SIXTEEN, cells(['r1c11', 'r4c11'], SIXTEEN))).toEqual(['r1,4c11'])
    expect(cellGroups(SIXTEEN, cells(['r4c5', 'r4c10', 'r1c1'], SIXTEEN))).toEqual(['r1c1', 'r4c5,10'])
    expect(cellGroups(SIXTEEN, [0, 1, 16, 17])).toEqual(['r1,2c1,2'])
  })

  it('counts a cell named twice once, and refuses one that is not there', () => {
    expect(cellGroups(STANDARD, [0, 0])).toEqual(['r1c1'])
    expect(() => cellGroups(STANDARD, [0, 81])).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(() => cellGroups(STANDARD, [-1])).toThrow(expect.objectContaining({ code: 'argument' }))
  })
})

describe.each(ALL_ORDERS)('names of cells of order %i', (order) => {
  const geometry = slantedGeometry(order)

  it('are as many as there are cells, and read back', () => {
    const names = Array.from({ length: geometry.cellCount }, (_, cell) => cellName(geometry, cell))
    expect(new Set(names).size).toBe(geometry.cellCount)
    names.forEach((name, cell) => {
      expect(parseCells(geometry, name)).toEqual([cell])
    })
  })

  it('name exactly the cells given, in one word and as separate groups', () => {
    fc.assert(
      fc.property(anyCells(geometry, 2 * order), (set) => {
        expect(parseCells(geometry, cellsNotation(geometry, set))).toEqual(ascending(set))
        const groups = cellGroups(geometry, set).map((group) => parseCells(geometry, group))
        expect(ascending(groups.flat())).toEqual(ascending(set))
      }),
      { seed: 41 },
    )
  })

  it('are different for different cells: every pair of cells, and every rectangle', () => {
    const seen = new Map<string, string>()
    const note = (set: readonly number[]) => {
      const name = cellsNotation(geometry, set)
      const key = ascending(set).join()
      if ((seen.get(name) ?? key) !== key) throw new Error(`${name} names ${key} and ${seen.get(name)}`)
      seen.set(name, key)
    }
    for (let a = 0; a < geometry.cellCount; a++) {
      note([a])
      for (let b = a + 1; b < geometry.cellCount; b++) {
        note([a, b])
        const corner = Math.floor(a / order) * order + (b % order)
        if (corner > a && corner < b) note([a, b, corner, Math.floor(b / order) * order + (a % order)])
      }
    }
  })
})

describe('parseCells', () => {
  it('takes one group or several, in any order, and nothing for no cells', () => {
    expect(parseCells(STANDARD, 'r9c9, r14c2')).toEqual([1, 28, 80])
    expect(parseCells(SIXTEEN, 'r14c11')).toEqual([218])
    expect(parseCells(SIXTEEN, 'r1,4c11')).toEqual([10, 58])
    expect(parseCells(SIXTEEN, 'r1,4c11,r16c2,3')).toEqual([10, 58, 241, 242])
    expect(parseCells(STANDARD, ' ')).toEqual([])
  })

  it.each([
    [STANDARD, 'r0c1'],
    [STANDARD, 'r10c1'],
    [STANDARD, 'r1,4c1'],
    [STANDARD, 'r11c1'],
    [STANDARD, 'c1r1'],
    [STANDARD, 'r1c'],
    [STANDARD, 'r1c1 r2c2'],
    [STANDARD, 'r1c1,'],
    [STANDARD, 'R1C1'],
    [boxedGeometry(2, 3), 'r7c1'],
    [SIXTEEN, 'r17c1'],
    [SIXTEEN, 'r4c(5,10)'],
    [SIXTEEN, 'r1,,4c1'],
    [SIXTEEN, 'r01c1'],
    [SIXTEEN, 'r4,4c1'],
    [SIXTEEN, 'r100c1'],
  ])('on %$ refuses %s', (geometry, text) => {
    expect(() => parseCells(geometry, text)).toThrow(InputError)
  })

  it('says what it takes', () => {
    expect(() => parseCells(SIXTEEN, 'r1-4c11')).toThrow(/"r1-4c11" names no cells here; expected .*r1,4c12/)
  })
})
