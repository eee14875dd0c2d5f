import type { Candidate, Conclusion } from '../grid/board.js'

/** One conclusion of a step: a digit placed or a candidate removed. */
export interface Claim {
  readonly kind: 'placement' | 'removal'
  readonly candidate: Candidate
}

/** The claims that a conclusion makes, placements first. */
export function claimsOf({ placements, removals }: Conclusion): Claim[] {
  return [
    ...placements.map((candidate) => ({ kind: 'placement' as const, candidate })),
    ...removals.map((candidate) => ({ kind: 'removal' as const, candidate })),
  ]
}
