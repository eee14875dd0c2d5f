import type { Board, Candidate } from '../../grid/board.js'
import { digitBit, digitsOf } from '../../grid/digits.js'
import { verifyStep } from '../proof.js'
import type { ChainLink, Premise, Step } from '../step.js'

/**
 * Cells that could be filled in two ways, were it not for their extra candidates: every filling from `allowed` can be
 * exchanged for another, each house keeping its digits. A puzzle with one solution never gets that far, so one of the
 * extras is true.
 */
export interface ExchangePattern {
  readonly cells: readonly number[]
  /** The digits of the two fillings, cell by cell as in `cells`. */
  readonly allowed: readonly number[]
  /** What keeps the cells from being exchanged: candidates beyond `allowed`. */
  readonly extras: readonly Candidate[]
}

/** Candidates of the cells beyond the allowed ones. */
export function extrasOf(board: Board, cells: readonly number[], allowed: readonly number[]): Candidate[] {
  const extras: Candidate[] = []
  for (let i = 0; i < cells.length; i++) {
    const cell = cells[i]!
    for (let rest = board.candidates[cell]! & ~allowed[i]!; rest !== 0; rest &= rest - 1)
      extras.push({ cell, digit: 32 - Math.clz32(rest & -rest) })
  }
  return extras
}

/**
 * A one-solution step, cut back to the premises it needs and proven; undefined when it is not.
 *
 * @param premises what the argument is known to follow from; those of least interest first
 */
export function exchangeStep(
  board: Board,
  technique: string,
  pattern: ExchangePattern,
  conclusion: { readonly placements?: readonly Candidate[]; readonly removals?: readonly Candidate[] },
  premises: readonly Premise[],
  links: readonly ChainLink[] = [],
): Step | undefined {
  const digits = digitsOf(pattern.allowed.reduce((all, set) => all | set, 0))
  let step: Step = {
    technique,
    level: 'pattern',
    placements: conclusion.placements ?? [],
    removals: conclusion.removals ?? [],
    premises,
    assumes: 'one-solution',
    pattern: { shape: 'exchange', cells: pattern.cells, digits, extras: pattern.extras, links },
  }
  if (!verifyStep(board, step).proven) return undefined
  for (const premise of premises) {
    const fewer = { ...step, premises: step.premises.filter((other) => other !== premise) }
    if (verifyStep(board, fewer).proven) step = fewer
  }
  return step
}

/** Open candidates that cannot be true beside any of these: in the same cell, or of the same digit and in sight. */
export function candidatesAgainstAll(board: Board, candidates: readonly Candidate[]): Candidate[] {
  const { geometry } = board
  const [first, ...rest] = candidates
  if (!first) return []
  const against: Candidate[] = digitsOf(board.candidates[first.cell]!)
    .filter((digit) => digit !== first.digit)
    .map((digit) => ({ cell: first.cell, digit }))
  for (const cell of geometry.peersOf[first.cell]!)
    if (board.candidates[cell]! & digitBit(first.digit)) against.push({ cell, digit: first.digit })
  return against.filter((one) =>
    rest.every(({ cell, digit }) =>
      one.cell === cell ? one.digit !== digit : one.digit === digit && geometry.arePeers(one.cell, cell),
    ),
  )
}
