import { describe, expect, it } from 'vitest'
import { applyTo } from '../../src/grid/board/edit.js'
import type { Board } from '../../src/grid/board.js'
import { housePremise } from '../../src/logic/proof/premise-holds.js'
import { type Unproven, type VerifyOptions, verifyStep } from '../../src/logic/proof/proof.js'
import type { Malformation } from '../../src/logic/steps/malformation.js'
import type { Step } from '../../src/logic/steps/step.js'
import { boardOf, boardWithMarks } from '../support/boards.js'
import { at, cell } from '../support/steps.js'

// Each fault that `verifyStep` can name, shown by proven steps that one change spoils. The type of the table asks for
// all.
type Fault = Exclude<Unproven, Malformation>['kind'] | `malformed, ${Malformation['trouble']}`

interface Spoilt {
  readonly by: string
  readonly sound: Sound
  /** The change to the step … */
  readonly change?: object | null
  /** … to the board … */
  readonly on?: Board
  /** … or to what the proof may cost. */
  readonly options?: VerifyOptions
  /** The fault, less its kind. */
  readonly says: object
}
interface Sound {
  readonly board: Board
  readonly step: Step
}

const candidate = (name: string, digit: number) => ({ cell: at(name), digit })
const marks = (names: string, digits: string) =>
  Object.fromEntries(names.split(' ').map((name) => [name, digits]))

const PAIR_MARKS = marks('r1c1 r1c2', '12')
/** Two cells of row 1 hold 1 and 2, and no other cell of the row does. */
const pair: Sound = {
  board: boardWithMarks(PAIR_MARKS),
  step: {
    technique: 'naked-pair',
    level: 'mark',
    placements: [],
    removals: [candidate('r1c3', 1), candidate('r2c2', 2)],
    premises: [cell('r1c1', '12'), cell('r1c2', '12')],
    pattern: { shape: 'subset', hidden: false, house: 0, cells: [0, 1], digits: [1, 2] },
  },
}

/** Row 1 has one place for 1. */
const single: Sound = sound(
  boardWithMarks(marks('r1c1 r1c2 r1c3 r1c4 r1c5 r1c6 r1c7 r1c8', '23456789')),
  (board) => ({
    technique: 'hidden-single',
    level: 'scan',
    placements: [candidate('r1c9', 1)],
    removals: [],
    premises: [housePremise(board, 0, 1)],
    pattern: { shape: 'single', cell: at('r1c9'), digit: 1 },
  }),
)

const CORNERS = ['r1c1', 'r1c4', 'r2c1', 'r2c4'].map(at)
const CORNER_MARKS = { ...marks('r1c1 r1c4 r2c1', '12'), r2c4: '123' }
/** Three corners of a rectangle hold 1 or 2 only; 1 in the fourth would let the two change places. */
const rectangle: Sound = {
  board: boardWithMarks(CORNER_MARKS),
  step: {
    technique: 'unique-rectangle-type-1',
    level: 'pattern',
    placements: [],
    removals: [candidate('r2c4', 1)],
    premises: ['r1c1', 'r1c4', 'r2c1'].map((name) => cell(name, '12')),
    assumes: 'one-solution',
    pattern: { shape: 'exchange', cells: CORNERS, digits: [1, 2], extras: [candidate('r2c4', 3)], links: [] },
  },
}

const LONG = 'r1c1 r1c2 r1c3 r1c4 r1c5 r1c6 r1c7 r1c8'
/** Eight cells for eight digits: thousands of ways have to be tried. */
const octuple: Sound = sound(boardWithMarks(marks(LONG, '12345678')), () => ({
  technique: 'naked-quad',
  level: 'mark',
  placements: [],
  removals: [candidate('r1c9', 1), candidate('r1c9', 2)],
  premises: LONG.split(' ').map((name) => cell(name, '12345678')),
  pattern: { shape: 'premises' },
}))
const exchangeAmongLong: Partial<Step> = { assumes: 'one-solution', pattern: rectangle.step.pattern }

function sound(board: Board, step: (board: Board) => Step): Sound {
  return { board, step: step(board) }
}

const inPremise = (premise: unknown) => ({ premises: [pair.step.premises[0], premise] })
const inPattern = (change: object) => ({ pattern: { ...rectangle.step.pattern, ...change } })
const premiseOf = (name: string, digits: string) => inPremise(cell(name, digits))
const removal = (name: string, digit: number) => ({
  claim: { kind: 'removal', candidate: candidate(name, digit) },
})
const placement = (name: string, digit: number) => ({
  claim: { kind: 'placement', candidate: candidate(name, digit) },
})

const SPOILT: Readonly<Record<Fault, readonly Spoilt[]>> = {
  'malformed, unknown-kind': [
    { by: 'no step at all', sound: pair, change: null, says: { where: 'step' } },
    { by: 'an unknown rule', sound: pair, change: { assumes: 'luck' }, says: { where: 'assumes' } },
    { by: 'no premise', sound: pair, change: inPremise(null), says: { where: 'premises[1]' } },
    {
      by: 'an unknown kind of premise',
      sound: pair,
      change: inPremise({ kind: 'box', cell: 1, digits: [1] }),
      says: { where: 'premises[1]' },
    },
  ],
  'malformed, not-a-list': [
    { by: 'no placements', sound: pair, change: { placements: undefined }, says: { where: 'placements' } },
    { by: 'a text for removals', sound: pair, change: { removals: 'all' }, says: { where: 'removals' } },
    { by: 'no premises', sound: pair, change: { premises: undefined }, says: { where: 'premises' } },
    {
      by: 'no digits of a cell',
      sound: pair,
      change: inPremise({ kind: 'cell', cell: 1 }),
      says: { where: 'premises[1].digits' },
    },
    {
      by: 'no cells of a house',
      sound: single,
      change: { premises: [{ kind: 'house', house: 0, digit: 1, cells: 8 }] },
      says: { where: 'premises[0].cells' },
    },
  ],
  'malformed, not-a-cell': [
    {
      by: 'a removal off the grid',
      sound: pair,
      change: { removals: [pair.step.removals[0], { cell: 81, digit: 1 }] },
      says: { where: 'removals[1]' },
    },
    {
      by: 'half a cell placed in',
      sound: single,
      change: { placements: [{ cell: 8.5, digit: 1 }] },
      says: { where: 'placements[0]' },
    },
    {
      by: 'a premise off the grid',
      sound: pair,
      change: inPremise({ kind: 'cell', cell: -1, digits: [1] }),
      says: { where: 'premises[1]' },
    },
    {
      by: 'a house with a cell off the grid',
      sound: single,
      change: { premises: [{ kind: 'house', house: 0, digit: 1, cells: [8, 81] }] },
      says: { where: 'premises[0].cells' },
    },
  ],
  'malformed, not-a-digit': [
    {
      by: 'a removal of 10',
      sound: pair,
      change: { removals: [candidate('r1c3', 10)] },
      says: { where: 'removals[0]' },
    },
    {
      by: 'a placement of 0',
      sound: single,
      change: { placements: [candidate('r1c9', 0)] },
      says: { where: 'placements[0]' },
    },
    {
      by: 'a premise with 0',
      sound: pair,
      change: inPremise({ kind: 'cell', cell: 1, digits: [0, 1, 2] }),
      says: { where: 'premises[1].digits' },
    },
    {
      by: 'a house premise on 10',
      sound: single,
      change: { premises: [{ kind: 'house', house: 0, digit: 10, cells: [8] }] },
      says: { where: 'premises[0]' },
    },
  ],
  'malformed, not-a-house': [
    {
      by: 'a house past the last',
      sound: single,
      change: { premises: [{ kind: 'house', house: 27, digit: 1, cells: [8] }] },
      says: { where: 'premises[0]' },
    },
  ],
  'malformed, twice': [
    {
      by: 'a removal named twice',
      sound: pair,
      change: { removals: [pair.step.removals[0], pair.step.removals[0]] },
      says: { where: 'removals[1]' },
    },
    {
      by: 'a digit placed and removed',
      sound: single,
      change: { removals: single.step.placements },
      says: { where: 'removals[0]' },
    },
    {
      by: 'a digit named twice',
      sound: pair,
      change: premiseOf('r1c2', '121'),
      says: { where: 'premises[1].digits' },
    },
    {
      by: 'a place named twice',
      sound: single,
      change: { premises: [{ kind: 'house', house: 0, digit: 1, cells: [8, 8] }] },
      says: { where: 'premises[0].cells' },
    },
  ],
  'malformed, empty': [
    {
      by: 'a cell without digits',
      sound: pair,
      change: premiseOf('r1c2', ''),
      says: { where: 'premises[1].digits' },
    },
    {
      by: 'a house without places',
      sound: single,
      change: { premises: [{ kind: 'house', house: 0, digit: 1, cells: [] }] },
      says: { where: 'premises[0].cells' },
    },
  ],
  'no-conclusion': [{ by: 'nothing removed', sound: pair, change: { removals: [] }, says: {} }],
  'not-a-candidate': [
    {
      by: 'removing what is gone',
      sound: pair,
      change: { removals: [pair.step.removals[0], candidate('r1c1', 3)] },
      says: removal('r1c1', 3),
    },
    {
      by: 'placing what is gone',
      sound: single,
      change: { placements: [candidate('r1c1', 1)] },
      says: placement('r1c1', 1),
    },
    {
      by: 'placing what stands there',
      sound: single,
      on: boardOf(`${'.'.repeat(8)}1${'.'.repeat(72)}`),
      says: placement('r1c9', 1),
    },
  ],
  'premise-fails': [
    {
      by: 'a digit that the cell has besides',
      sound: pair,
      on: boardWithMarks({ ...PAIR_MARKS, r1c2: '124' }),
      says: {
        index: 1,
        premise: cell('r1c2', '12'),
        unmentioned: [candidate('r1c2', 4)],
        ruledOut: [],
      },
    },
    {
      by: 'a digit that the cell has lost',
      sound: pair,
      on: boardWithMarks({ ...PAIR_MARKS, r1c1: '1' }),
      says: {
        index: 0,
        premise: cell('r1c1', '12'),
        unmentioned: [],
        ruledOut: [candidate('r1c1', 2)],
      },
    },
    {
      by: 'a second place in the house',
      sound: single,
      on: boardWithMarks(marks('r1c2 r1c3 r1c4 r1c5 r1c6 r1c7 r1c8', '23456789')),
      says: {
        index: 0,
        premise: single.step.premises[0],
        unmentioned: [candidate('r1c1', 1)],
        ruledOut: [],
      },
    },
    {
      by: 'a place that the house has not',
      sound: single,
      change: { premises: [{ kind: 'house', house: 0, digit: 1, cells: [8, 9] }] },
      says: {
        index: 0,
        premise: { kind: 'house', house: 0, digit: 1, cells: [8, 9] },
        unmentioned: [],
        ruledOut: [candidate('r2c1', 1)],
      },
    },
  ],
  'missing-link': [
    {
      by: 'a premise left out',
      sound: pair,
      change: { premises: pair.step.premises.slice(1) },
      says: {
        ...removal('r1c3', 1),
        assignment: expect.arrayContaining([candidate('r1c3', 1), candidate('r1c2', 2)]),
      },
    },
    {
      by: 'a second removal too far away',
      sound: pair,
      change: { removals: [pair.step.removals[0], candidate('r5c5', 1)] },
      says: removal('r5c5', 1),
    },
    {
      by: 'a placement for no reason',
      sound: single,
      change: { premises: [] },
      says: { ...placement('r1c9', 1), assignment: [] },
    },
    {
      by: 'one solution not assumed',
      sound: rectangle,
      change: { assumes: undefined },
      says: removal('r2c4', 1),
    },
  ],
  'no-exchange': [
    { by: 'no pattern', sound: rectangle, change: { pattern: undefined }, says: {} },
    { by: 'another pattern', sound: rectangle, change: { pattern: pair.step.pattern }, says: {} },
    { by: 'no list of cells', sound: rectangle, change: inPattern({ cells: 0 }), says: {} },
    { by: 'a cell off the grid', sound: rectangle, change: inPattern({ cells: [0, 3, 9, 81] }), says: {} },
    { by: 'half a cell', sound: rectangle, change: inPattern({ cells: [0, 3, 9, 12.5] }), says: {} },
    { by: 'a cell named twice', sound: rectangle, change: inPattern({ cells: [...CORNERS, 0] }), says: {} },
  ],
  'given-in-exchange': [
    {
      by: 'a printed corner',
      sound: rectangle,
      on: applyTo(boardOf(`1${'.'.repeat(80)}`), {
        placements: [],
        removals: ['r1c4', 'r2c1'].flatMap((name) =>
          [3, 4, 5, 6, 7, 8, 9].map((digit) => candidate(name, digit)),
        ),
      }),
      change: { premises: [cell('r1c1', '1'), cell('r1c4', '2'), cell('r2c1', '2')] },
      says: { cell: at('r1c1') },
    },
  ],
  'not-exchangeable': [
    {
      by: 'a premise left out',
      sound: rectangle,
      change: { premises: rectangle.step.premises.slice(1) },
      says: {
        ...removal('r2c4', 1),
        assignment: expect.arrayContaining([candidate('r2c4', 1), candidate('r1c4', 2)]),
      },
    },
    {
      by: 'the extra removed',
      sound: rectangle,
      change: { removals: [candidate('r2c4', 3)] },
      says: removal('r2c4', 3),
    },
    { by: 'no cells', sound: rectangle, change: inPattern({ cells: [] }), says: removal('r2c4', 1) },
    {
      by: 'a corner too few',
      sound: rectangle,
      change: inPattern({ cells: CORNERS.slice(1) }),
      says: removal('r2c4', 1),
    },
    {
      by: 'a cell that nothing fills',
      sound: rectangle,
      change: inPattern({ cells: [...CORNERS, at('r9c9')] }),
      says: removal('r2c4', 1),
    },
    {
      by: 'rows of two bands',
      sound: rectangle,
      on: boardWithMarks({ ...marks('r1c1 r1c4 r4c1', '12'), r4c4: '123' }),
      change: {
        removals: [candidate('r4c4', 1)],
        premises: ['r1c1', 'r1c4', 'r4c1'].map((name) => cell(name, '12')),
        ...inPattern({ cells: ['r1c1', 'r1c4', 'r4c1', 'r4c4'].map(at) }),
      },
      says: removal('r4c4', 1),
    },
  ],
  'budget-spent': [
    { by: 'no budget', sound: octuple, options: { budget: 0 }, says: removal('r1c9', 1) },
    {
      by: 'no budget for an exchange',
      sound: rectangle,
      on: boardWithMarks(marks('r1c1 r1c4 r2c1 r2c4', '123')),
      change: { premises: ['r1c1', 'r1c4', 'r2c1', 'r2c4'].map((name) => cell(name, '123')) },
      options: { budget: 0 },
      says: removal('r2c4', 1),
    },
  ],
  'time-limit': [
    { by: 'no time', sound: octuple, options: { timeLimit: 0 }, says: removal('r1c9', 1) },
    {
      by: 'no time for an exchange',
      sound: octuple,
      change: exchangeAmongLong,
      options: { timeLimit: 0 },
      says: removal('r1c9', 1),
    },
  ],
}

/** All that a fault of each kind says. */
const FIELDS: Readonly<Record<string, string[]>> = {
  malformed: ['kind', 'where', 'trouble'],
  'no-conclusion': ['kind'],
  'not-a-candidate': ['kind', 'claim'],
  'premise-fails': ['kind', 'index', 'premise', 'unmentioned', 'ruledOut'],
  'missing-link': ['kind', 'claim', 'assignment'],
  'no-exchange': ['kind'],
  'given-in-exchange': ['kind', 'cell'],
  'not-exchangeable': ['kind', 'claim', 'assignment'],
  'budget-spent': ['kind', 'claim'],
  'time-limit': ['kind', 'claim'],
}

it.each(Object.entries({ pair, single, rectangle, octuple }))('the %s is proven', (_, { board, step }) => {
  expect(verifyStep(board, step)).toEqual({ proven: true })
})

describe.each(Object.entries(SPOILT))('%s', (fault, cases) => {
  const [kind, trouble] = fault.split(', ')
  it.each(cases)('by $by', ({ sound, change, on, options, says }) => {
    const step = change === null ? null : { ...sound.step, ...change }
    const verdict = verifyStep(on ?? sound.board, step as Step, options)
    expect(verdict).toMatchObject({ proven: false, because: { kind, ...(trouble && { trouble }), ...says } })
    expect(Object.keys((verdict as { because: object }).because).sort()).toEqual(FIELDS[kind!]!.sort())
  })
})
