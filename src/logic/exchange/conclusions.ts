import type { Board, Candidate } from '../../grid/board.js'
import { digitBit, digitCount, digitsOf } from '../../grid/digits.js'
import { cellPremise, housePremise } from '../premise-holds.js'
import type { Premise, Step } from '../step.js'
import { candidatesAgainstAll, type ExchangePattern, exchangeStep } from './pattern.js'

/** How a conclusion was drawn from a pattern; rectangles have names for each. */
export type Way =
  /** All extras stand in one cell, or one is left: that cell takes an extra. */
  | 'one-cell'
  /** All extras are of one digit: what sees them all loses it. */
  | 'one-digit'
  /** The extras together act as one cell of a naked subset. */
  | 'subset'
  /** A digit of the pattern is confined to the two cells with extras, so the other digit leaves them. */
  | 'locked-digit'

/** What follows from one of the extras being true; `nameFor` gives each way's technique, or undefined to leave it out. */
export function* conclusionsFrom(
  board: Board,
  pattern: ExchangePattern,
  nameFor: (way: Way) => string | undefined,
): Generator<Step> {
  const premises = pattern.cells.map((cell) => cellPremise(board, cell))
  for (const way of ['one-cell', 'one-digit', 'subset', 'locked-digit'] as const) {
    const name = nameFor(way)
    if (!name) continue
    for (const draft of DRAWN[way](board, pattern)) {
      const step = exchangeStep(
        board,
        name,
        pattern,
        draft.placements ? { placements: draft.placements } : { removals: draft.removals },
        [...premises, ...(draft.more ?? [])],
      )
      if (step) yield step
    }
  }
}

interface Draft {
  readonly placements?: readonly Candidate[]
  readonly removals: readonly Candidate[]
  /** Premises besides the cells of the pattern. */
  readonly more?: readonly Premise[]
}

const DRAWN: Readonly<Record<Way, (board: Board, pattern: ExchangePattern) => Iterable<Draft>>> = {
  'one-cell': fromOneCell,
  'one-digit': fromOneDigit,
  subset: fromSubset,
  'locked-digit': fromLockedDigit,
}

function* fromOneCell(board: Board, { extras }: ExchangePattern): Generator<Draft> {
  if (extras.length === 1) yield { placements: extras, removals: [] }
  else if (extras.every(({ cell }) => cell === extras[0]!.cell))
    yield { removals: candidatesAgainstAll(board, extras) }
}

function* fromOneDigit(board: Board, { extras }: ExchangePattern): Generator<Draft> {
  if (extras.every(({ cell }) => cell === extras[0]!.cell)) return
  const removals = candidatesAgainstAll(board, extras)
  if (removals.length > 0) yield { removals }
}

/** Most cells beside the extras; with more, the rest of the house makes a smaller hidden subset. */
const MOST_OTHERS = 4

function* fromSubset(board: Board, { cells, extras }: ExchangePattern): Generator<Draft> {
  const holders = [...new Set(extras.map(({ cell }) => cell))]
  if (holders.length < 2) return
  const wanted = extras.reduce((set, { digit }) => set | digitBit(digit), 0)
  if (digitCount(wanted) < 2) return
  const { geometry, candidates } = board
  for (const house of geometry.housesOf[holders[0]!]!) {
    if (!holders.every((cell) => geometry.positionIn(house, cell) >= 0)) continue
    const open = geometry.houses[house]!.cells.filter((cell) => candidates[cell] && !cells.includes(cell))
    for (const others of picks(open, MOST_OTHERS)) {
      const union = others.reduce((set, cell) => set | candidates[cell]!, wanted)
      if (digitCount(union) !== others.length + 1) continue
      const removals = geometry.houses[house]!.cells.filter(
        (cell) => !holders.includes(cell) && !others.includes(cell),
      ).flatMap((cell) => digitsOf(candidates[cell]! & union).map((digit) => ({ cell, digit })))
      if (removals.length > 0) yield { removals, more: others.map((cell) => cellPremise(board, cell)) }
    }
  }
}

function* picks(cells: readonly number[], most: number, from = 0): Generator<number[]> {
  for (let i = from; i < cells.length; i++) {
    yield [cells[i]!]
    if (most > 1) for (const more of picks(cells, most - 1, i + 1)) yield [cells[i]!, ...more]
  }
}

function* fromLockedDigit(board: Board, { cells, allowed, extras }: ExchangePattern): Generator<Draft> {
  const holders = [...new Set(extras.map(({ cell }) => cell))]
  if (holders.length !== 2) return
  const { geometry, candidates } = board
  const [one, other] = holders as [number, number]
  const shared = allowed[cells.indexOf(one)]! & allowed[cells.indexOf(other)]!
  if (digitCount(shared) !== 2) return
  for (const house of geometry.housesOf[one]!) {
    if (geometry.positionIn(house, other) < 0) continue
    for (const digit of digitsOf(shared)) {
      const places = housePremise(board, house, digit)
      if (places.kind !== 'house' || places.cells.length !== 2) continue
      const gone = shared & ~digitBit(digit)
      const removals = holders.flatMap((cell) =>
        digitsOf(candidates[cell]! & gone).map((left) => ({ cell, digit: left })),
      )
      if (removals.length > 0) yield { removals, more: [places] }
    }
  }
}
