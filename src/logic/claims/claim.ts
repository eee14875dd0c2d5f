import { listOf, object } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import type { Candidate, Conclusion } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'

/** One conclusion of a step: a digit placed or a candidate removed. */
export interface Claim {
  readonly kind: 'placement' | 'removal'
  readonly candidate: Candidate
}

/**
 * Claims come from a person's entries, perhaps saved by another program: nothing about them is taken on trust.
 *
 * @throws InputError `claim-shape` for what is no list of claims, or names a cell or digit that the geometry does not
 *   have
 */
export function assertOnBoard({ cellCount, order }: Geometry, claims: readonly Claim[]): void {
  if (!Array.isArray(claims))
    throw wrongClaim('', claims, 'a list')
    // spread, so that holes are seen, too
  ;[...claims].forEach((claim, i) => {
    const { kind, candidate } = claim ?? {}
    if (kind !== 'placement' && kind !== 'removal')
      throw wrongClaim(`[${i}].kind`, kind, 'placement or removal')
    const { cell, digit } = candidate ?? {}
    if (!isNumberIn(cell, 0, cellCount - 1))
      throw wrongClaim(`[${i}].candidate.cell`, cell, `a cell from 0 to ${cellCount - 1}`)
    if (!isNumberIn(digit, 1, order))
      throw wrongClaim(`[${i}].candidate.digit`, digit, `a digit from 1 to ${order}`)
  })
}

/** A list of candidates that a person names; `what` says where it stands. */
export function candidateList(what: string, list: readonly Candidate[] | undefined): readonly Candidate[] {
  if (list !== undefined && !Array.isArray(list)) throw wrongClaim(`.${what}`, list, 'a list of candidates')
  return list ?? []
}

function isNumberIn(n: unknown, least: number, most: number): boolean {
  return Number.isInteger(n) && (n as number) >= least && (n as number) <= most
}

function wrongClaim(where: string, value: unknown, expected: string): InputError {
  const found = typeof value === 'object' && value !== null ? 'an object' : String(value)
  return new InputError('claim-shape', `Entries${where}: found ${found}; expected ${expected}.`, {
    found,
    expected,
  })
}

const checkCandidates = listOf(object)

/**
 * The claims that a conclusion makes, placements first.
 *
 * @example
 * claimsOf(step) // → [{ kind: 'removal', candidate: { cell: 62, digit: 1 } }]
 */
export function claimsOf(conclusion: Conclusion): Claim[] {
  object(conclusion, 'conclusion')
  const { placements, removals } = conclusion
  checkCandidates(placements, 'placements')
  checkCandidates(removals, 'removals')
  return [
    ...placements.map((candidate) => ({ kind: 'placement' as const, candidate })),
    ...removals.map((candidate) => ({ kind: 'removal' as const, candidate })),
  ]
}
