import type { Board, Candidate } from '../grid/board.js'
import { premisesOf } from './cases/propagation.js'
import { techniqueNamed } from './catalogue.js'
import { type Claim, claimsOf } from './claim.js'
import { findSteps } from './find.js'
import { PremiseSearch } from './premise-search.js'
import { type Unproven, verifyStep } from './proof.js'
import type { FoundStep, Premise } from './step.js'

/** A person's own deduction, and what they say it follows from, if they say. */
export interface OwnClaim {
  readonly placed?: readonly Candidate[]
  readonly removed?: readonly Candidate[]
  /** Name of a technique of the catalogue. */
  readonly technique?: string
  /** The premises it is said to follow from. */
  readonly because?: readonly Premise[]
}

export type ClaimVerdict =
  /** Right, and proven by what was named; by `step` where a technique was. */
  | { readonly kind: 'proven'; readonly step?: FoundStep }
  /** Right, and nothing was named; `step` is an easy way to see it, where there is one. */
  | { readonly kind: 'true'; readonly step?: FoundStep }
  /** Right, but not by what was named. */
  | {
      readonly kind: 'true-otherwise'
      /** The technique has no instance that concludes this, or the premises leave a way out (or do not hold). */
      readonly missing: { readonly kind: 'no-instance'; readonly technique: string } | Unproven
      readonly step?: FoundStep
    }
  /** Wrong: in this way to finish the board the claim does not hold. */
  | { readonly kind: 'false'; readonly claim: Claim; readonly counterExample: readonly number[] }
  /** It would change nothing: no conclusion, or one about what is no candidate. */
  | { readonly kind: 'nothing'; readonly claim?: Claim }
  /** The board cannot be finished at all, so everything and nothing follows from it. */
  | { readonly kind: 'board-unsound' }
  | { readonly kind: 'undecided' }

const BUDGET = 100_000

/**
 * Is a person's deduction right, and is it right for the reason they give?
 *
 * @throws RangeError when the claim names a technique that is not in the catalogue
 */
export function checkClaim(board: Board, own: OwnClaim): ClaimVerdict {
  const conclusion = { placements: own.placed ?? [], removals: own.removed ?? [] }
  const claims = claimsOf(conclusion)
  if (own.technique !== undefined) techniqueNamed(own.technique)
  if (claims.length === 0) return { kind: 'nothing' }
  const idle = claims.find(({ candidate }) => !board.hasCandidate(candidate.cell, candidate.digit))
  if (idle) return { kind: 'nothing', claim: idle }

  const search = new PremiseSearch(board.geometry, premisesOf(board))
  const sound = search.find([], BUDGET)
  if (sound === 'none') return { kind: 'board-unsound' }
  for (const claim of claims) {
    const wayOut = search.find([{ candidate: claim.candidate, value: claim.kind === 'removal' }], BUDGET)
    if (wayOut === 'budget-spent') return { kind: 'undecided' }
    if (wayOut !== 'none') return { kind: 'false', claim, counterExample: filled(board, wayOut) }
  }

  if (own.because) {
    const verdict = verifyStep(board, {
      technique: own.technique ?? 'own-claim',
      level: 'branch',
      ...conclusion,
      premises: own.because,
      pattern: { shape: 'premises' },
    })
    if (verdict.proven) return { kind: 'proven' }
    return { kind: 'true-otherwise', missing: verdict.because, ...easyWay(board, claims) }
  }
  if (own.technique !== undefined) {
    const step = findSteps(board, { techniques: [own.technique] }).find((one) => covers(one, claims))
    if (step) return { kind: 'proven', step }
    const missing = { kind: 'no-instance', technique: own.technique } as const
    return { kind: 'true-otherwise', missing, ...easyWay(board, claims) }
  }
  return { kind: 'true', ...easyWay(board, claims) }
}

function filled(board: Board, trues: readonly Candidate[]): number[] {
  const digits = [...board.digits]
  for (const { cell, digit } of trues) digits[cell] = digit
  return digits
}

function covers(step: FoundStep, claims: readonly Claim[]): boolean {
  return claims.every(({ kind, candidate }) =>
    (kind === 'placement' ? step.placements : step.removals).some(
      ({ cell, digit }) => cell === candidate.cell && digit === candidate.digit,
    ),
  )
}

function easyWay(board: Board, claims: readonly Claim[]): { readonly step?: FoundStep } {
  const step = findSteps(board, { preset: 'pattern' }).find((one) => covers(one, claims))
  return step ? { step } : {}
}
