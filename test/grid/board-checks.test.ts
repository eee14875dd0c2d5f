import { describe, expect, it } from 'vitest'
import { hasCandidate, isNoted, placesIn } from '../../src/grid/board/ask.js'
import { applyTo, restoreCandidates } from '../../src/grid/board/edit.js'
import {
  boardFrom,
  boardFromMarks,
  boardFromParts,
  checkSource,
  newBoard,
} from '../../src/grid/board/make.js'
import { checkBoard, checkCandidates } from '../../src/grid/board.js'
import { digitSet } from '../../src/grid/digits.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import { makePuzzle } from '../../src/grid/puzzle.js'

// What comes from saved data, another thread or plain JavaScript: copied boards, and what is none.
const FOUR = boxedGeometry(2, 2)
const EMPTY = new Array<number>(16).fill(0)
const puzzle = makePuzzle(EMPTY.with(0, 1), FOUR)
const board = () => applyTo(newBoard(puzzle), { placements: [at(5, 3)], removals: [at(1, 4)] })
const at = (cell: number, digit: number) => ({ cell, digit })
/** As another thread hands it over, with a change. */
const copy = (change: object = {}) => ({ ...structuredClone(board()), ...change })

type Refused = readonly [RegExp, unknown]
const NO_BOARDS: readonly Refused[] = [
  [/`board` must be a board, not undefined\. Make one with newBoard/, undefined],
  [/`board` must be a board, not null/, null],
  [/`board` must be a board, not "board"/, 'board'],
  [/`board` must be a board, not/, () => {}],
  [/`board` must be a board, not/, puzzle],
  [/`board\.geometry`/, copy({ geometry: undefined })],
  [/`board\.given` must be a list of 16 numbers.*Make one/, copy({ given: undefined })],
  [/`board\.digits` must be a list of 16 numbers/, copy({ digits: EMPTY.slice(1) })],
  [/`board\.candidates` must be a list of 16 numbers/, copy({ candidates: { length: 16 } })],
  [
    /`board\.removed\[15\]` must be a whole number from 0 to 15, not 16/,
    copy({ removed: EMPTY.with(15, 16) }),
  ],
  [
    /`board\.digits\[0\]` must be a whole number from 0 to 4, not 5.*Make one/,
    copy({ digits: EMPTY.with(0, 5) }),
  ],
  [
    /`board\.candidates\[3\]` must be a whole number from 0 to 15, not 0\.5/,
    copy({ candidates: EMPTY.with(3, 0.5) }),
  ],
  [/`board\.given\[2\]` must be a whole number from 0 to 1, not 2/, copy({ given: EMPTY.with(2, 2) })],
  [/`board\.noted\[4\]` must be a whole number from 0 to 1, not -1/, copy({ noted: EMPTY.with(4, -1) })],
  [
    /`board\.candidates\[15\]` must be what the digits and removals leave, 15, not 7.*Make one/,
    copy({ candidates: board().candidates.with(15, 7) }),
  ],
  [
    /`board\.candidates\[1\]` must be what the digits and removals leave, 10, not 2/,
    copy({ removed: EMPTY }),
  ],
  [
    /`board\.given\[15\]` must be 0 where no given digit stands, not 1.*Make one/,
    copy({ given: EMPTY.with(0, 1).with(15, 1) }),
  ],
  [/`board\.given\[0\]` must be 0 where no given/, copy({ noted: board().noted.with(0, 0) })],
  [/`board\.given\[0\]` must be 0 where no given/, copy({ removed: board().removed.with(0, 1) })],
]

describe('a board from elsewhere', () => {
  it('is as good as the one it is a copy of', () => {
    const other = copy()
    checkBoard(other)
    expect(applyTo(other, { placements: [at(6, 1)], removals: [] })).toEqual(
      applyTo(board(), { placements: [at(6, 1)], removals: [] }),
    )
  })

  it('is checked once, and one made here never', () => {
    let reads = 0
    const counted = Object.defineProperty(copy(), 'noted', {
      get: () => {
        reads++
        return board().noted
      },
    })
    checkBoard(counted)
    expect(reads).toBe(1)
    checkBoard(counted)
    expect(reads).toBe(1)
  })

  it.each(NO_BOARDS)('is refused: %s', (message, value) => {
    const check = () => checkBoard(value)
    expect(check).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(check).toThrow(message)
    // a second look finds the same
    expect(check).toThrow(message)
    expect(() => checkBoard(value, 'mine')).toThrow(/^`mine/)
  })
})

describe('a board or a puzzle', () => {
  it('gives a board, a board itself', () => {
    const own = board()
    expect(boardFrom(own)).toBe(own)
    expect(boardFrom(puzzle)).toEqual(newBoard(puzzle))
  })

  it.each<Refused>([
    [/`source/, undefined],
    [/`source/, null],
    [/`source/, 'candidates'],
    [/`source.*list/, { givens: 'none', geometry: FOUR }],
    [/`source\.removed` must be a list of 16/, copy({ removed: [] })],
  ])('is not: %s', (message, value) => {
    for (const check of [() => checkSource(value), () => boardFrom(value as typeof puzzle)]) {
      expect(check).toThrow(expect.objectContaining({ code: 'argument' }))
      expect(check).toThrow(message)
    }
    expect(() => checkSource(value, 'mine')).toThrow(/`mine/)
    expect(() => boardFrom(value as typeof puzzle, 'mine')).toThrow(/`mine/)
  })
})

it('has no candidate where it is asked in anything but numbers', () => {
  expect(hasCandidate(board(), 15, 1)).toBe(true)
  for (const [cell, digit] of [
    ['15', 1],
    [15, '1'],
    [undefined, undefined],
  ])
    expect(hasCandidate(board(), cell as number, digit as number)).toBe(false)
})

describe('arguments of no use are named', () => {
  const conclusion = { placements: [], removals: [] }
  const parts = { digits: EMPTY, removed: EMPTY, noted: EMPTY }
  it.each<[RegExp, () => unknown]>([
    [/no house 12; they go from 0 to 11/, () => placesIn(board(), 12, 1)],
    [/no house -1/, () => placesIn(board(), -1, 1)],
    [/no digit 5; they go from 1 to 4/, () => placesIn(board(), 0, 5)],
    [/no cell 16; they go from 0 to 15/, () => isNoted(board(), 16)],
    [/no cell -1/, () => isNoted(board(), -1)],
    [/`conclusion` must be an object/, () => applyTo(board(), null as never)],
    [
      /`conclusion\.placements` must be a list of candidates, not/,
      () => applyTo(board(), { ...conclusion, placements: 'all' } as never),
    ],
    [
      /`conclusion\.removals\[1\]` must be a cell and a digit, not null/,
      () => applyTo(board(), { ...conclusion, removals: [at(1, 2), null] } as never),
    ],
    [
      /`conclusion\.removals\[0\]` must be a cell and a digit, not 7/,
      () => applyTo(board(), { ...conclusion, removals: [7] } as never),
    ],
    [/`candidates` must be a list of candidates/, () => restoreCandidates(board(), at(1, 2) as never)],
    [/`digits` must be/, () => boardFromMarks(puzzle, 7 as never, EMPTY)],
    [/`candidates` must be/, () => boardFromMarks(puzzle, EMPTY, undefined as never)],
    [/`parts` must be an object/, () => boardFromParts(puzzle, undefined as never)],
    [/`parts\.digits` must be/, () => boardFromParts(puzzle, { ...parts, digits: 1 } as never)],
    [/`parts\.removed` must be/, () => boardFromParts(puzzle, { ...parts, removed: 1 } as never)],
    [/`parts\.noted` must be/, () => boardFromParts(puzzle, { ...parts, noted: 1 } as never)],
    [/`digits` must be/, () => digitSet(7 as never)],
    [/`list` must be a list of candidates/, () => checkCandidates(FOUR, 7 as never, 'list')],
    [/`list\[0\]\.cell`|cell 16/, () => checkCandidates(FOUR, [at(16, 1)], 'list')],
    [
      /`list\[1\]\.digit` must be a digit from 1 to 4, not 5/,
      () => checkCandidates(FOUR, [at(3, 4), at(3, 5)], 'list'),
    ],
    [
      /`list\[0\]\.digit` must be a digit from 1 to 4, not 0/,
      () => checkCandidates(FOUR, [at(3, 0)], 'list'),
    ],
  ])('%s', (message, ask) => {
    expect(ask).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(ask).toThrow(message)
  })

  it('and those of use are not', () => {
    checkCandidates(FOUR, [at(0, 1), at(15, 4)], 'list')
    expect(placesIn(board(), 11, 4)).toBeGreaterThan(0)
  })
})
