import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { conclusionNotation, linkNotation } from '../../src/explain/notation.js'
import { parseLinkNotation } from '../../src/explain/parse-notation.js'
import { DIGIT_STYLES, digitName } from '../../src/grid/digit-names.js'
import { boxedGeometry, STANDARD } from '../../src/grid/geometry.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { ChainLink, ChainNode } from '../../src/logic/steps/step.js'
import type { TechniqueName } from '../../src/logic/technique-names.js'
import { ALL_ORDERS, slantedGeometry } from '../support/any-geometry.js'
import { cellAt } from '../support/boards.js'
import { randomPuzzle } from '../support/random-boards.js'
import { inOrder, readConclusion, readLinks } from '../support/read-names.js'

const cells = (...names: string[]) => names.map((name) => cellAt(name))
const node = (digit: number, ...names: string[]): ChainNode => ({ digit, cells: cells(...names) })
const link = (kind: 'strong' | 'weak', from: ChainNode, to: ChainNode): ChainLink => ({
  kind,
  from,
  to,
  by: { kind: 'premises' },
})

const CHAINS: readonly TechniqueName[] = [
  'skyscraper',
  'two-string-kite',
  'turbot-fish',
  'empty-rectangle',
  'w-wing',
  'remote-pairs',
  'x-chain',
  'xy-chain',
  'alternating-inference-chain',
  'grouped-alternating-inference-chain',
  'continuous-loop',
  'alternating-inference-chain-with-sets',
  'finned-chain',
]

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

describe.each(ALL_ORDERS)('notation of order %i', (order) => {
  const geometry = slantedGeometry(order)
  const digit = fc.integer({ min: 1, max: order })
  const cellSet = fc
    .uniqueArray(fc.integer({ min: 0, max: geometry.cellCount - 1 }), { minLength: 1, maxLength: 4 })
    .map((set) => set.sort((a, b) => a - b))
  const anyNode = fc.record({ digit, cells: cellSet })
  const style = fc.constantFrom(...DIGIT_STYLES)
  const kind = fc.constantFrom('strong' as const, 'weak' as const)
  /** A link goes on from the last node, now and then with another digit of the same cells, or begins anew. */
  const manner = fc.constantFrom('on', 'on', 'within', 'anew')
  const moves = fc.array(fc.tuple(anyNode, anyNode, kind, manner), { minLength: 1, maxLength: 8 })

  it('of links can be read in one way only', () => {
    fc.assert(
      fc.property(moves, fc.boolean(), style, (list, loop, digits) => {
        const links: ChainLink[] = []
        for (const [start, end, kind, manner] of list) {
          const from = manner === 'anew' ? start : (links.at(-1)?.to ?? start)
          const to = manner === 'within' ? { ...end, cells: from.cells } : end
          links.push({ kind, from, to, by: { kind: 'premises' } })
        }
        const written = linkNotation(geometry, links, loop, digits)
        const read = readLinks(geometry, written)
        expect(parseLinkNotation(geometry, written)).toEqual(read)
        expect(read.loop).toBe(loop)
        expect(read.links).toEqual(links.map(({ kind, from, to }) => ({ kind, from, to })))
      }),
      { seed: 43 },
    )
  })

  it('of conclusions can be read in one way only', () => {
    const candidates = fc.uniqueArray(
      fc.record({ cell: fc.integer({ min: 0, max: geometry.cellCount - 1 }), digit }),
      { maxLength: 8, selector: (candidate) => candidate.cell * 17 + candidate.digit },
    )
    fc.assert(
      fc.property(candidates, candidates, style, (placements, removals, digits) => {
        fc.pre(placements.length + removals.length > 0)
        const written = conclusionNotation(geometry, placements, removals, digits)
        const read = readConclusion(geometry, written)
        expect(read).toEqual({ placements: inOrder(placements), removals: inOrder(removals) })
      }),
      { seed: 44 },
    )
  })
})

describe('digits above nine', () => {
  const geometry = boxedGeometry(4, 4)
  const at = (cell: number, digit: number): ChainNode => ({ digit, cells: [cell] })
  const links = [link('strong', at(218, 3), at(218, 11)), link('weak', at(218, 11), at(10, 11))]

  it('are letters, or numbers when asked for', () => {
    expect(linkNotation(geometry, links)).toBe('(3=B)r14c11-(B)r1c11')
    expect(linkNotation(geometry, links, false, 'numbers')).toBe('(3=11)r14c11-(11)r1c11')
    expect(conclusionNotation(geometry, [], [{ cell: 10, digit: 16 }], 'numbers')).toBe('r1c11<>16')
  })

  it('are digits of the grid, in a style that exists', () => {
    for (const digit of [0, 17, 1.5, '7'])
      expect(() => digitName(digit as number)).toThrow(/`digit` must be a whole number from 1 to 16/)
    expect(() => digitName(11, 'roman' as never)).toThrow(/`digits` must be one of letters, numbers/)
  })
})

describe('parseLinkNotation', () => {
  const inOrderOf = ({ digit, cells }: ChainNode) => ({ digit, cells: [...cells].sort((a, b) => a - b) })
  const ends = ({ kind, from, to }: Pick<ChainLink, 'kind' | 'from' | 'to'>) => ({
    kind,
    from: inOrderOf(from),
    to: inOrderOf(to),
  })

  it('reads the links of every chain that is found', () => {
    const kinds = new Set<string>()
    for (let seed = 2000; seed < 2006; seed++) {
      const { board } = solve(randomPuzzle(seed), { preset: 'mark' })
      for (const technique of CHAINS)
        for (const { pattern, before } of findSteps(board, { techniques: [technique], limit: 20 })) {
          if (pattern.shape !== 'chain') continue
          kinds.add(technique)
          const written = linkNotation(before.geometry, pattern.links, pattern.loop)
          const read = parseLinkNotation(before.geometry, written)
          expect(read).toEqual({ links: pattern.links.map(ends), loop: pattern.loop })
        }
    }
    expect(kinds.size).toBeGreaterThan(8)
  })

  it.each([
    '',
    'r1c1',
    '(3)r1c1',
    '(3=7)r1c1-',
    '(0=3)r1c1',
    '(3=7)r1c1 - (7)r1c5',
    '(3=7)r0c1',
    '(3)r1c1=(3)r1c5;',
  ])('refuses %j', (text) => {
    expect(() => parseLinkNotation(STANDARD, text)).toThrow(expect.objectContaining({ code: 'text-symbol' }))
  })
})
