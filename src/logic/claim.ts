import type { Candidate, Conclusion } from '../grid/board.js'
import type { Geometry } from '../grid/geometry.js'

/** One conclusion of a step: a digit placed or a candidate removed. */
export interface Claim {
  readonly kind: 'placement' | 'removal'
  readonly candidate: Candidate
}

/** @throws RangeError for a cell or digit that the geometry does not have: a mistake in the program that asks. */
export function assertOnBoard({ cellCount, order }: Geometry, claims: readonly Claim[]): void {
  for (const { candidate } of claims) {
    const { cell, digit } = candidate ?? {}
    if (!Number.isInteger(cell) || cell < 0 || cell >= cellCount)
      throw new RangeError(`There is no cell ${cell}; cells are numbered from 0 to ${cellCount - 1}.`)
    if (!Number.isInteger(digit) || digit < 1 || digit > order)
      throw new RangeError(`There is no digit ${digit}; digits go from 1 to ${order}.`)
  }
}

/** The claims that a conclusion makes, placements first. */
export function claimsOf({ placements, removals }: Conclusion): Claim[] {
  return [
    ...placements.map((candidate) => ({ kind: 'placement' as const, candidate })),
    ...removals.map((candidate) => ({ kind: 'removal' as const, candidate })),
  ]
}
