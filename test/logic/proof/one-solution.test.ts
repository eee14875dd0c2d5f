import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { solutionsOf } from '../../../src/count/count-solutions.js'
import { applyTo } from '../../../src/grid/board/edit.js'
import { boardFromMarks } from '../../../src/grid/board/make.js'
import type { Candidate } from '../../../src/grid/board.js'
import { digitBit } from '../../../src/grid/digits.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { makePuzzle } from '../../../src/grid/puzzle.js'
import { cellPremise } from '../../../src/logic/proof/premise-holds.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import type { Pattern, Step } from '../../../src/logic/steps/step.js'
import { JIGSAW_5 } from '../../count/geometries.js'
import { boardOf, boardWithMarks } from '../../support/boards.js'
import { withKings, withKnights } from '../../support/further-peers.js'
import { at } from '../../support/steps.js'

const exchange = (names: readonly string[]) =>
  ({
    shape: 'exchange',
    cells: names.map((name) => at(name)),
    digits: [1, 2],
    extras: [],
    links: [],
  }) as const

const CORNERS = ['r1c1', 'r1c4', 'r2c1', 'r2c4']
/** Three corners hold 1 or 2 only; the fourth has a 3, too, and must take it. */
const board = boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '123' })
const rectangle: Step = {
  technique: 'unique-rectangle-type-1',
  level: 'pattern',
  placements: [],
  removals: [{ cell: at('r2c4'), digit: 1 }],
  premises: CORNERS.slice(0, 3).map((name) => cellPremise(board, at(name))),
  assumes: 'one-solution',
  pattern: exchange(CORNERS),
}
const because = (change: Partial<Step>, on = board, options = {}) => {
  const verdict = verifyStep(on, { ...rectangle, ...change }, options)
  return verdict.proven ? 'proven' : verdict.because
}

describe('a step that assumes one solution', () => {
  it('is proven when all that denies it could be exchanged', () => {
    expect(because({})).toBe('proven')
    expect(
      because({ removals: [], placements: [{ cell: at('r2c4'), digit: 3 }], premises: [] }),
    ).toMatchObject({
      kind: 'not-exchangeable',
    })
    const placed = CORNERS.map((name) => cellPremise(board, at(name)))
    expect(because({ removals: [], placements: [{ cell: at('r2c4'), digit: 3 }], premises: placed })).toBe(
      'proven',
    )
  })

  it('is not when a printed digit stands in its pattern, exchangeable or not', () => {
    // r1c1 is printed: 1 and 2 could change places in the four cells, were it not for that
    const printed = applyTo(boardOf(`1${'.'.repeat(80)}`), {
      placements: [],
      removals: [3, 4, 5, 6, 7, 8, 9].flatMap((digit) =>
        ['r1c4', 'r2c1'].map((name) => ({ cell: at(name), digit })),
      ),
    })
    const premises = CORNERS.slice(0, 3).map((name) => cellPremise(printed, at(name)))
    expect(because({ premises }, printed)).toEqual({ kind: 'given-in-exchange', cell: at('r1c1') })
    // written by the player and not printed, it may be exchanged
    const written = applyTo(boardWithMarks({ r1c4: '2', r2c1: '2' }), {
      placements: [{ cell: at('r1c1'), digit: 1 }],
      removals: [],
    })
    expect(because({ premises }, written)).toBe('proven')
  })

  it.each<[string, unknown]>([
    ['none', undefined],
    ['another shape', { shape: 'single', cell: 0, digit: 1 }],
    ['no list of cells', { ...exchange(CORNERS), cells: 'r1c1' }],
    ['a cell outside', { ...exchange(CORNERS), cells: [0, 3, 9, 81] }],
    ['a cell below the first', { ...exchange(CORNERS), cells: [-1, 3, 9, 12] }],
    ['half a cell', { ...exchange(CORNERS), cells: [0, 3, 9, 12.5] }],
    ['a cell twice', { ...exchange(CORNERS), cells: [0, 3, 9, 9] }],
  ])('is not when its pattern is no exchange: %s', (_, pattern) => {
    expect(because({ pattern: pattern as Pattern })).toEqual({ kind: 'no-exchange' })
  })

  it('is not when its pattern has no cells', () => {
    expect(because({ pattern: exchange([]) })).toMatchObject({ kind: 'not-exchangeable' })
  })

  it('is not when a cell of its pattern may be left open, though the others could be exchanged', () => {
    expect(because({ pattern: exchange([...CORNERS, 'r9c9']) })).toMatchObject({ kind: 'not-exchangeable' })
    expect(because({ pattern: exchange(['r9c9', ...CORNERS]) })).toMatchObject({ kind: 'not-exchangeable' })
  })

  it('shows the assignment in which the cells are stuck, and the claim', () => {
    expect(because({ premises: rectangle.premises.slice(1) })).toEqual({
      kind: 'not-exchangeable',
      claim: { kind: 'removal', candidate: { cell: at('r2c4'), digit: 1 } },
      assignment: expect.arrayContaining([
        { cell: at('r2c4'), digit: 1 },
        { cell: at('r1c4'), digit: 2 },
      ]),
    })
  })

  it('has every claim checked, and each within the budget', () => {
    const both = [1, 4].map((digit) => ({ cell: at('r2c4'), digit }))
    const wide = boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '1234' })
    expect(because({ removals: both }, wide)).toMatchObject({
      kind: 'not-exchangeable',
      claim: { candidate: both[1] },
    })
    const free = boardWithMarks({ r1c1: '123', r1c4: '123', r2c1: '123', r2c4: '123' })
    const premises = CORNERS.map((name) => cellPremise(free, at(name)))
    expect(because({ premises }, free, { budget: 0 })).toEqual({
      kind: 'budget-spent',
      claim: { kind: 'removal', candidate: { cell: at('r2c4'), digit: 1 } },
    })
  })
})

describe('the budget of an exchange', () => {
  // three digits that go round in two rows: the other fillings take a search, not a swap
  const names = ['r1c1', 'r1c4', 'r1c7', 'r2c1', 'r2c4', 'r2c7']
  const marks = Object.fromEntries(names.map((name) => [name, name === 'r2c7' ? '1234' : '123']))
  const wide = boardWithMarks(marks)
  const step = {
    pattern: exchange(names),
    premises: names.map((name) => cellPremise(wide, at(name))),
    placements: [],
    removals: [1, 2, 3].map((digit) => ({ cell: at('r2c7'), digit })),
  }
  const least = (removals: Step['removals']): number => {
    for (let budget = 0; ; budget++)
      if (because({ ...step, removals }, wide, { budget }) === 'proven') return budget
  }

  it('is for all claims together, and for the other fillings of each', () => {
    const each = step.removals.map((removal) => least([removal]))
    const all = least(step.removals)
    expect(Math.min(...each)).toBeGreaterThan(0)
    expect(all).toBe(each.reduce((sum, own) => sum + own))
    expect(because(step, wide, { budget: all - 1 })).toEqual({
      kind: 'budget-spent',
      claim: { kind: 'removal', candidate: step.removals[2] },
    })
  })

  it('is not charged where two digits change places, whatever else is in the pattern', () => {
    const cells = 'r1c1 r1c4 r2c1 r2c4 r4c1 r4c4 r5c1 r5c4'.split(' ').map((name) => at(name))
    const digits = [1, 2, 2, 1, 3, 4, 4, 3]
    const sure = boardWithMarks(Object.fromEntries(cells.map((cell, i) => [nameOf(cell), `${digits[i]}`])))
    const filled = {
      pattern: { ...exchange([]), cells },
      premises: cells.slice(1).map((cell) => cellPremise(sure, cell)),
      removals: [{ cell: cells[0]!, digit: 1 }],
    }
    expect(because(filled, sure, { budget: 0 })).toBe('proven')
  })

  it('is charged for every other filling that is looked for', () => {
    // nothing can be done about the first cell, and with one rectangle filled another way the other is still open
    const cells = 'r9c9 r1c1 r1c4 r2c1 r2c4 r4c1 r4c4 r5c1 r5c4'.split(' ').map((name) => at(name))
    const trues = [5, 1, 2, 2, 1, 3, 4, 4, 3].map((digit, i) => ({ cell: cells[i]!, digit }))
    const sure = boardWithMarks(
      Object.fromEntries(trues.map(({ cell, digit }) => [nameOf(cell), `${digit}`])),
    )
    const filled = {
      pattern: { ...exchange([]), cells },
      premises: cells.slice(1).map((cell) => cellPremise(sure, cell)),
      removals: trues.slice(0, 1),
    }
    expect(because(filled, sure, { budget: 0 })).toMatchObject({ kind: 'budget-spent' })
    expect(because(filled, sure)).toBe('proven')
  })
})

const nameOf = (cell: number): string => `r${Math.floor(cell / 9) + 1}c${(cell % 9) + 1}`

/**
 * Is there another filling in which every house has the digits it had, and no digit a peer of its own? All are tried.
 */
function hasOtherFilling(
  geometry: Geometry,
  filling: readonly Candidate[],
  around: readonly Candidate[] = [],
): boolean {
  const layout = layoutOf(geometry)
  const digitsOfHouses = (some: readonly Candidate[]) =>
    layout.houses
      .map((house) => some.flatMap(({ cell, digit }) => (house.cells.includes(cell) ? [digit] : [])).sort())
      .join(' ')
  const wanted = digitsOfHouses(filling)
  const used = [...new Set(filling.map(({ digit }) => digit))]
  const fill = (next: number, other: readonly Candidate[]): boolean => {
    if (next === filling.length) {
      return other.some(({ digit }, i) => digit !== filling[i]!.digit) && digitsOfHouses(other) === wanted
    }
    const { cell } = filling[next]!
    return used.some(
      (digit) =>
        ![...around, ...other].some((known) => known.digit === digit && layout.arePeers(known.cell, cell)) &&
        fill(next + 1, [...other, { cell, digit }]),
    )
  }
  return fill(0, [])
}

/**
 * Does the rule take these cells for exchangeable when they are filled so, and others around them? Asked with a step
 * whose premises fill all but the last of them, and whose claim, denied, fills that.
 */
function canExchange(
  geometry: Geometry,
  filling: readonly Candidate[],
  around: readonly Candidate[] = [],
): boolean {
  const marks = new Array<number | undefined>(geometry.cellCount).fill(undefined)
  const before = [...filling.slice(0, -1), ...around]
  for (const { cell, digit } of before) marks[cell] = digitBit(digit)
  const puzzle = makePuzzle(new Array(geometry.cellCount).fill(0), geometry)
  const cells = filling.map(({ cell }) => cell)
  const verdict = verifyStep(boardFromMarks(puzzle, puzzle.givens, marks), {
    ...rectangle,
    removals: filling.slice(-1),
    premises: before.map(({ cell, digit }) => ({ kind: 'cell', cell, digits: [digit] })),
    pattern: { ...exchange([]), cells },
  })
  if (!verdict.proven) expect(verdict.because.kind).toBe('not-exchangeable')
  return verdict.proven
}

describe('cells that can be filled in another way', () => {
  it.each([boxedGeometry(2, 2), boxedGeometry(2, 3), JIGSAW_5])(
    'are those in which trying all fillings finds one: $name',
    (geometry) => {
      const { solutions } = solutionsOf(makePuzzle(new Array(geometry.cellCount).fill(0), geometry), {
        limit: 300,
      })
      // the search finds solutions that differ in few cells one after another
      const pair = fc.tuple(fc.nat(solutions.length - 4), fc.integer({ min: 1, max: 3 }))
      const kinds = { can: 0, cannot: 0 }
      fc.assert(
        // the cells in which two filled grids differ can be exchanged; with one cell more or less it is open
        fc.property(pair, fc.option(fc.nat(geometry.cellCount - 1)), ([first, further], flipped) => {
          const one = solutions[first]!
          const other = solutions[first + further]!
          const cells = [...one.keys()].filter((cell) => (one[cell] !== other[cell]) !== (cell === flipped))
          if (cells.length === 0 || cells.length > 9) return
          const filling = cells.map((cell) => ({ cell, digit: one[cell]! }))
          const expected = hasOtherFilling(geometry, filling)
          kinds[expected ? 'can' : 'cannot']++
          expect(canExchange(geometry, filling)).toBe(expected)
        }),
        { seed: 2_012, numRuns: 300 },
      )
      expect(Math.min(kinds.can, kinds.cannot)).toBeGreaterThan(10)
    },
  )

  it.each([withKnights(boxedGeometry(2, 3)), withKings(boxedGeometry(2, 3))])(
    'do not clash with peers that share no house: $name',
    (geometry) => {
      const { solutions } = solutionsOf(makePuzzle(new Array(geometry.cellCount).fill(0), geometry), {
        limit: 300,
      })
      const kinds = { can: 0, cannot: 0, unknown: 0 }
      fc.assert(
        fc.property(fc.nat(solutions.length - 1), fc.gen(), (at, gen) => {
          const one = solutions[at]!
          const [some, other] = gen(fc.shuffledSubarray, [...new Set(one)], { minLength: 2, maxLength: 2 })
          const pair = [...one.keys()].filter((cell) => one[cell] === some || one[cell] === other)
          const rows = gen(fc.subarray, [...Array(geometry.order).keys()], { minLength: 2 })
          const cells = pair.filter((cell) => rows.includes(Math.floor(cell / geometry.order)))
          const all = one.map((digit, cell) => ({ cell, digit }))
          const around = all.filter(({ cell }) => !cells.includes(cell))
          const filling = all.filter(({ cell }) => cells.includes(cell))
          const expected = hasOtherFilling(geometry, filling, around)
          kinds[expected ? 'can' : 'cannot']++
          expect(canExchange(geometry, filling, around)).toBe(expected)
          // of the cells around, those that share no house are all that needs to be known
          const { housesOf, peersOf, positionIn } = layoutOf(geometry)
          const isFurther = (cell: number, peer: number) =>
            peersOf[cell]!.includes(peer) && housesOf[cell]!.every((house) => positionIn(house, peer) < 0)
          const further = around.filter(({ cell: peer }) => cells.some((cell) => isFurther(cell, peer)))
          expect(canExchange(geometry, filling, further)).toBe(expected)
          // what is not known of the cells around counts as against it
          if (canExchange(geometry, filling)) expect(expected).toBe(true)
          else if (expected) kinds.unknown++
        }),
        { seed: 2_013, numRuns: 300 },
      )
      expect(Math.min(kinds.can, kinds.cannot)).toBeGreaterThan(10)
    },
  )

  const filled = (cells: readonly number[], digits: readonly number[]): Candidate[] =>
    cells.map((cell, i) => ({ cell, digit: digits[i]! }))

  it('are two digits that change places, or three that go round', () => {
    const names = (text: string) => text.split(' ').map((name) => at(name))
    const can = (text: string, digits: readonly number[]) =>
      canExchange(STANDARD, filled(names(text), digits))
    expect(can('r1c1 r1c4 r2c1 r2c4', [1, 2, 2, 1])).toBe(true)
    expect(can('r1c1 r1c4 r2c1 r2c4', [1, 2, 2, 3])).toBe(false)
    expect(can('r1c1 r1c4 r4c1 r4c4', [1, 2, 2, 1])).toBe(false)
    expect(can('r1c1 r1c4 r1c7 r2c1 r2c4 r2c7', [1, 2, 3, 2, 3, 1])).toBe(true)
    expect(can('r1c1 r1c4 r1c7 r2c1 r2c4 r2c7', [1, 2, 3, 2, 3, 4])).toBe(false)
    // a rectangle, and a cell that nothing can be done about
    expect(can('r9c9 r1c1 r1c4 r2c1 r2c4', [5, 1, 2, 2, 1])).toBe(true)
    expect(can('r1c1 r1c4 r2c1 r2c4 r9c9', [1, 2, 2, 1, 1])).toBe(true)
    expect(can('r1c1', [1])).toBe(false)
    expect(can('r1c1 r9c9', [1, 2])).toBe(false)
    expect(can('r1c1 r9c9', [1, 1])).toBe(false)
  })
})
