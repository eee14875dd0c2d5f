import type { Board, Candidate, Conclusion } from '../../grid/board.js'
import { digitBit, digitsOf, firstDigit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { verifyStep } from '../proof/proof.js'
import { isProvenBy } from '../proof/trim.js'
import type { ChainLink, Pattern, Premise, Step } from '../steps/step.js'
import type { TechniqueName } from '../technique-names.js'

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
      extras.push({ cell, digit: firstDigit(rest) })
  }
  return extras
}

/**
 * A one-solution step, cut back to the premises it needs and proven; undefined when it is not, or needs no one
 * solution.
 *
 * @param premises what the argument is known to follow from; those of least interest first
 */
export function exchangeStep(
  facts: Facts,
  technique: TechniqueName,
  pattern: ExchangePattern,
  conclusion: { readonly placements?: readonly Candidate[]; readonly removals?: readonly Candidate[] },
  premises: readonly Premise[],
  links: readonly ChainLink[] = [],
): Step | undefined {
  const { board } = facts
  let digits = 0
  for (let i = 0; i < pattern.allowed.length; i++) digits |= pattern.allowed[i]!
  const shape = {
    shape: 'exchange',
    cells: pattern.cells,
    digits: digitsOf(digits),
    extras: pattern.extras,
    links,
  } as const
  const whole = { placements: conclusion.placements ?? [], removals: conclusion.removals ?? [] }
  let step = stepOf(technique, whole, premises, shape)
  if (!verifyStep(board, step).proven) return undefined
  // What follows without a second solution is another pattern. A whole board of premises always says it without.
  const isWhole = pattern.cells.length === facts.openCells.length
  if (!isWhole && isProvenBy(board.geometry, premises, whole)) return undefined
  for (const premise of premises) {
    const fewer = step.premises.filter((other) => other !== premise)
    const shorter = stepOf(technique, whole, fewer, shape)
    if (verifyStep(board, shorter).proven) step = shorter
  }
  return step
}

function stepOf(
  technique: TechniqueName,
  { placements, removals }: Conclusion,
  premises: readonly Premise[],
  pattern: Pattern,
): Step {
  return { technique, level: 'pattern', placements, removals, premises, assumes: 'one-solution', pattern }
}

/**
 * Open candidates that cannot be true together with any of these: in the same cell, or of the same digit and in sight.
 */
export function candidatesAgainstAll(board: Board, candidates: readonly Candidate[]): Candidate[] {
  const { geometry } = board
  const against: Candidate[] = []
  if (candidates.length === 0) return against
  const first = candidates[0]!
  for (let rest = board.candidates[first.cell]!; rest !== 0; rest &= rest - 1) {
    const digit = firstDigit(rest)
    if (isAgainstAll(geometry, first.cell, digit, candidates)) against.push({ cell: first.cell, digit })
  }
  const peers = layoutOf(geometry).peersOf[first.cell]!
  const bit = digitBit(first.digit)
  for (let i = 0; i < peers.length; i++)
    if (board.candidates[peers[i]!]! & bit && isAgainstAll(geometry, peers[i]!, first.digit, candidates))
      against.push({ cell: peers[i]!, digit: first.digit })
  return against
}

function isAgainstAll(
  geometry: Geometry,
  cell: number,
  digit: number,
  candidates: readonly Candidate[],
): boolean {
  const layout = layoutOf(geometry)
  for (let i = 0; i < candidates.length; i++) {
    const other = candidates[i]!
    const isAgainst =
      cell === other.cell ? digit !== other.digit : digit === other.digit && layout.arePeers(cell, other.cell)
    if (!isAgainst) return false
  }
  return true
}
