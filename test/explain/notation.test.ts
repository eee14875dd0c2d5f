import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cellGroups, conclusionNotation, linkNotation } from '../../src/explain/notation.js'
import { boxedGeometry, cellName, STANDARD } from '../../src/grid/geometry.js'
import type { ChainLink, ChainNode } from '../../src/logic/step.js'
import { cellAt } from '../support/boards.js'

const cells = (...names: string[]) => names.map((name) => cellAt(name))
const node = (digit: number, ...names: string[]): ChainNode => ({ digit, cells: cells(...names) })
const link = (kind: 'strong' | 'weak', from: ChainNode, to: ChainNode): ChainLink => ({
  kind,
  from,
  to,
  by: { kind: 'premises' },
})

/** Writes a group out again: `r12c3` -> r1c3, r2c3. */
function expand(group: string): string[] {
  const match = /^r(\d|\(?[\d,]+\)?|\d+)c(\d+|\([\d,]+\))$/.exec(group)
  if (!match) throw new Error(`${group} is no group`)
  const numbers = (text: string) =>
    text.startsWith('(')
      ? text.slice(1, -1).split(',')
      : /^1\d$/.test(text) && group.length > 5
        ? [text]
        : [...text]
  const [, rows, columns] = match
  return numbers(rows!).flatMap((row) => numbers(columns!).map((column) => `r${row}c${column}`))
}

describe('cellGroups', () => {
  it('writes cells of a line together, as is common practice', () => {
    expect(cellGroups(STANDARD, cells('r4c5', 'r4c6'))).toEqual(['r4c56'])
    expect(cellGroups(STANDARD, cells('r3c4', 'r1c4', 'r2c4'))).toEqual(['r123c4'])
    expect(cellGroups(STANDARD, cells('r1c1', 'r1c2', 'r2c1', 'r2c2', 'r9c9'))).toEqual(['r12c12', 'r9c9'])
    expect(cellGroups(STANDARD, [])).toEqual([])
  })

  it('parts numbers past nine', () => {
    const geometry = boxedGeometry(3, 4)
    expect(cellGroups(geometry, [3 * 12 + 4, 3 * 12 + 9])).toEqual(['r4c(5,10)'])
    expect(cellGroups(geometry, [11 * 12 + 11])).toEqual(['r12c12'])
  })

  it('names exactly the cells given, each once', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 80 }), { maxLength: 20 }), (set) => {
        const written = cellGroups(STANDARD, set).flatMap(expand).sort()
        expect(written).toEqual(set.map((cell) => cellName(STANDARD, cell)).sort())
      }),
      { seed: 41 },
    )
  })
})

describe('linkNotation', () => {
  it('writes an XY-wing as the chain it is', () => {
    const links = [
      link('strong', node(3, 'r1c1'), node(7, 'r1c1')),
      link('weak', node(7, 'r1c1'), node(7, 'r1c5')),
      link('strong', node(7, 'r1c5'), node(2, 'r1c5')),
      link('weak', node(2, 'r1c5'), node(2, 'r4c5')),
      link('strong', node(2, 'r4c5'), node(3, 'r4c5')),
    ]
    expect(linkNotation(STANDARD, links)).toBe('(3=7)r1c1-(7=2)r1c5-(2=3)r4c5')
  })

  it('writes grouped nodes and links within houses', () => {
    const links = [
      link('strong', node(5, 'r1c1'), node(5, 'r1c5', 'r1c6')),
      link('weak', node(5, 'r1c5', 'r1c6'), node(5, 'r3c4')),
      link('strong', node(5, 'r3c4'), node(5, 'r9c4')),
    ]
    expect(linkNotation(STANDARD, links)).toBe('(5)r1c1=(5)r1c56-(5)r3c4=(5)r9c4')
    expect(linkNotation(STANDARD, links, true)).toBe('(5)r1c1=(5)r1c56-(5)r3c4=(5)r9c4 loop')
  })

  it('parts links that do not join', () => {
    const links = [
      link('strong', node(3, 'r7c1'), node(3, 'r7c9')),
      link('strong', node(3, 'r1c3'), node(3, 'r9c3')),
    ]
    expect(linkNotation(STANDARD, links)).toBe('(3)r7c1=(3)r7c9; (3)r1c3=(3)r9c3')
  })
})

describe('conclusionNotation', () => {
  it('gathers cells by digit', () => {
    const removals = [
      { cell: cellAt('r1c5'), digit: 3 },
      { cell: cellAt('r1c7'), digit: 3 },
      { cell: cellAt('r2c2'), digit: 9 },
    ]
    expect(conclusionNotation(STANDARD, [{ cell: 0, digit: 4 }], removals)).toBe('r1c1=4, r1c57<>3, r2c2<>9')
  })
})
