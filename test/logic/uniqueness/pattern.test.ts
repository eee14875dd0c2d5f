import { describe, expect, it } from 'vitest'
import { hasCandidate } from '../../../src/grid/board/ask.js'
import type { Candidate } from '../../../src/grid/board.js'
import { digitSet } from '../../../src/grid/digits.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { cellPremise } from '../../../src/logic/proof/premise-holds.js'
import { candidatesAgainstAll, exchangeStep, extrasOf } from '../../../src/logic/uniqueness/pattern.js'
import { boardWithMarks } from '../../support/boards.js'
import { factsFor } from '../../support/facts.js'
import { at } from '../../support/steps.js'

const CORNERS = ['r1c1', 'r1c4', 'r2c1', 'r2c4'].map((name) => at(name))
const candidate = (name: string, digit: number): Candidate => ({ cell: at(name), digit })
const low = digitSet([1, 2])

describe('the extras of a pattern', () => {
  it('are the candidates of its cells beyond the allowed ones', () => {
    const board = boardWithMarks({ r1c1: '12', r1c4: '129', r2c1: '1', r2c4: '345' })
    expect(extrasOf(board, CORNERS, [low, low, low, low])).toEqual([
      candidate('r1c4', 9),
      candidate('r2c4', 3),
      candidate('r2c4', 4),
      candidate('r2c4', 5),
    ])
    expect(extrasOf(board, CORNERS, [0, digitSet([9]), 1, digitSet([3, 4, 5])])).toEqual([
      candidate('r1c1', 1),
      candidate('r1c1', 2),
      candidate('r1c4', 1),
      candidate('r1c4', 2),
    ])
  })
})

describe('candidates that cannot be true together with any of some', () => {
  /** Every open candidate of the board is tried. */
  const byTrying = (board: ReturnType<typeof boardWithMarks>, some: readonly Candidate[]) =>
    layoutOf(board.geometry).peersOf.flatMap((peers, cell) =>
      [1, 2, 3, 4, 5, 6, 7, 8, 9].flatMap((digit) => {
        const excluded = some.every((other) =>
          other.cell === cell ? other.digit !== digit : other.digit === digit && peers.includes(other.cell),
        )
        return excluded && hasCandidate(board, cell, digit) ? [{ cell, digit }] : []
      }),
    )
  const board = boardWithMarks({ r2c1: '123', r2c4: '123', r2c8: '12', r5c5: '4567' })

  it.each<[string, Candidate[]]>([
    ['one candidate', [candidate('r2c1', 3)]],
    ['two of one digit in a row', [candidate('r2c1', 3), candidate('r2c4', 3)]],
    ['two of one digit in a row and box', [candidate('r4c4', 3), candidate('r4c5', 3)]],
    ['two that do not see each other', [candidate('r2c1', 3), candidate('r5c4', 3)]],
    ['two of one cell', [candidate('r5c5', 4), candidate('r5c5', 5)]],
    ['a chain’s two ends', [candidate('r2c1', 1), candidate('r2c4', 2)]],
    ['three of one digit', [candidate('r4c4', 3), candidate('r4c5', 3), candidate('r6c6', 3)]],
  ])('%s', (_, some) => {
    const sorted = (list: readonly Candidate[]) =>
      [...list].sort((a, b) => a.cell - b.cell || a.digit - b.digit)
    expect(sorted(candidatesAgainstAll(board, some))).toEqual(byTrying(board, some))
  })

  it('are none beside none', () => {
    expect(candidatesAgainstAll(board, [])).toEqual([])
  })
})

describe('a step from a pattern', () => {
  const board = boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '123' })
  const pattern = { cells: CORNERS, allowed: [low, low, low, low], extras: [candidate('r2c4', 3)] }
  const premises = CORNERS.map((cell) => cellPremise(board, cell))
  const placed = { placements: [candidate('r2c4', 3)] }

  it('says all that the pattern says, with the premises it needs', () => {
    const further = cellPremise(board, at('r9c9'))
    expect(
      exchangeStep(factsFor(board), 'hidden-rectangle', pattern, placed, [further, ...premises]),
    ).toEqual({
      technique: 'hidden-rectangle',
      level: 'pattern',
      placements: placed.placements,
      removals: [],
      premises,
      assumes: 'one-solution',
      pattern: { shape: 'exchange', cells: CORNERS, digits: [1, 2], extras: pattern.extras, links: [] },
    })
    const removals = [candidate('r2c4', 1)]
    expect(exchangeStep(factsFor(board), 'hidden-rectangle', pattern, { removals }, premises)).toMatchObject({
      placements: [],
      removals,
      premises: premises.slice(0, 3),
    })
  })

  it('keeps the links that it is given', () => {
    const link = {
      from: { digit: 1, cells: [0] },
      to: { digit: 1, cells: [3] },
      kind: 'strong',
      by: { kind: 'premises' },
    } as const
    const step = exchangeStep(factsFor(board), 'hidden-rectangle', pattern, placed, premises, [link])
    expect(step!.pattern).toMatchObject({ links: [link] })
  })

  it('is none when the pattern does not prove it', () => {
    expect(
      exchangeStep(factsFor(board), 'hidden-rectangle', pattern, placed, premises.slice(1)),
    ).toBeUndefined()
    expect(
      exchangeStep(
        factsFor(board),
        'hidden-rectangle',
        pattern,
        { removals: [candidate('r2c4', 3)] },
        premises,
      ),
    ).toBeUndefined()
  })

  it('is none when its premises prove it without a second solution', () => {
    const pair = boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '123', r2c5: '12' })
    const more = [...CORNERS, at('r2c5')].map((cell) => cellPremise(pair, cell))
    expect(exchangeStep(factsFor(pair), 'hidden-rectangle', pattern, placed, more)).toBeUndefined()
  })
})
