import { checkOptions, type OptionChecks, object } from '../../check-arguments.js'
import { isTimeOver } from '../../errors.js'
import { contradictionOf, hasCandidate } from '../../grid/board/ask.js'
import { type Board, type Candidate, checkBoard } from '../../grid/board.js'
import {
  LIMIT_CHECKS,
  type Limits,
  runInSlices,
  runNow,
  type StoppedBy,
  type Task,
  type Watch,
} from '../../limits.js'
import { allPremises } from '../cases/propagation.js'
import { checkTechniqueName } from '../catalogue.js'
import { Context } from '../facts/context.js'
import { factsOf } from '../facts/facts.js'
import { exclude } from '../proof/exclude.js'
import { PremiseSearch } from '../proof/premise-search.js'
import { type Unproven, verifyTask } from '../proof/proof.js'
import { findTask } from '../solving/find.js'
import { findMalformation } from '../steps/malformation.js'
import type { FoundStep, Premise, Step } from '../steps/step.js'
import type { TechniqueName } from '../technique-names.js'
import { assertOnBoard, type Claim, candidateList, claimsOf } from './claim.js'

/** A person's own deduction, and what they say it follows from, if they say. */
export interface OwnClaim {
  readonly placed?: readonly Candidate[]
  readonly removed?: readonly Candidate[]
  /** Name of a technique of the catalogue. */
  readonly technique?: TechniqueName
  /** The premises it is said to follow from. */
  readonly because?: readonly Premise[]
}

/** What is to be said of what a person concludes. */
export type ClaimVerdict =
  /**
   * Right, and proven by what was named. Where a technique was, `step` is its instance that concludes the claim, or,
   * where it takes several to conclude all of it, the first of `steps`.
   */
  | { readonly kind: 'proven'; readonly step?: FoundStep; readonly steps?: readonly FoundStep[] }
  /** Right, and nothing was named; `step` is an easy way to see it, where there is one. */
  | { readonly kind: 'true'; readonly step?: FoundStep }
  /** Right, but not by what was named. */
  | {
      readonly kind: 'true-otherwise'
      /** The technique has no instance that concludes this, or the premises leave a way out (or do not hold). */
      readonly missing: { readonly kind: 'no-instance'; readonly technique: TechniqueName } | Unproven
      readonly step?: FoundStep
    }
  /** Wrong: in this way to finish the board the claim does not hold. */
  | { readonly kind: 'false'; readonly claim: Claim; readonly counterExample: readonly number[] }
  /**
   * It would change nothing: no conclusion, a candidate removed that is gone already, a digit placed that stands there.
   */
  | { readonly kind: 'nothing'; readonly claim?: Claim }
  /** The board cannot be finished at all, so everything and nothing follows from it. */
  | { readonly kind: 'board-unsound' }
  | { readonly kind: 'undecided'; readonly stopped: 'budget-spent' | StoppedBy }

const BUDGET = 100_000

/** Candidates have checks of their own, which say where an entry is wrong; what is no premise proves nothing. */
const CLAIM_CHECKS: OptionChecks<OwnClaim> = {
  placed: () => {},
  removed: () => {},
  technique: checkTechniqueName,
  because: () => {},
}

/**
 * Is a person's deduction right, and is it right for the reason they give? Where both a technique and premises are
 * given, both must bear it out.
 *
 * @throws InputError `argument` when the claim names a technique that is not in the catalogue
 * @throws InputError `claim-shape` when what is placed or removed is no list of candidates of the board
 *
 * @example
 * checkClaim(board, { placed: [{ cell: 64, digit: 4 }], technique: 'hidden-single' }).kind // → 'proven'
 * checkClaim(board, { placed: [{ cell: 64, digit: 1 }] }).kind // → 'false'
 */
export function checkClaim(board: Board, own: OwnClaim, limits: Limits = {}): ClaimVerdict {
  checkBoard(board)
  object(own, 'own')
  checkOptions<OwnClaim>(own, CLAIM_CHECKS)
  checkOptions<Limits>(limits, LIMIT_CHECKS)
  return runNow(limits, (watch) => claimTask(board, own, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const verdict = await checkClaimAsync(board, { placed: [{ cell: 64, digit: 4 }] }, { signal })
 */
export async function checkClaimAsync(
  board: Board,
  own: OwnClaim,
  limits: Limits = {},
): Promise<ClaimVerdict> {
  checkBoard(board)
  object(own, 'own')
  checkOptions<OwnClaim>(own, CLAIM_CHECKS)
  checkOptions<Limits>(limits, LIMIT_CHECKS)
  return runInSlices(limits, (watch) => claimTask(board, own, watch))
}

function* claimTask(board: Board, own: OwnClaim, watch: Watch): Task<ClaimVerdict> {
  const named = claimsOf({
    placements: candidateList('placed', own.placed),
    removals: candidateList('removed', own.removed),
  })
  assertOnBoard(board.geometry, named)
  // what is said twice is said once
  const claims = named.filter(
    (one, i) =>
      named.findIndex(({ kind, candidate }) => kind === one.kind && isSame(candidate, one.candidate)) === i,
  )
  if (claims.length === 0) return { kind: 'nothing' }
  const idle = claims.find((claim) => isIdle(board, claim))
  if (idle) return { kind: 'nothing', claim: idle }
  try {
    return (yield* judged(board, claims, watch)) ?? (yield* reasoned(board, own, claims, watch))
  } catch (error) {
    if (!isTimeOver(error)) throw error
    return { kind: 'undecided', stopped: 'time-limit' }
  }
}

function isIdle(board: Board, { kind, candidate: { cell, digit } }: Claim): boolean {
  const stands = board.digits[cell] === digit
  return kind === 'placement' ? stands : !stands && !hasCandidate(board, cell, digit)
}

/** The verdict on claims that are not all true, or of which that is not known. */
function* judged(board: Board, claims: readonly Claim[], watch: Watch): Task<ClaimVerdict | undefined> {
  if (contradictionOf(board)) return { kind: 'board-unsound' }
  const search = new PremiseSearch(board.geometry, allPremises(factsOf(new Context(), board)))
  const sound = yield* search.findWithin(watch, [], BUDGET)
  if (sound === 'none') return { kind: 'board-unsound' }
  for (const claim of claims) {
    const { cell, digit } = claim.candidate
    // what is no candidate any more is in no way to finish the board; what stands there is in all
    const wayOut = hasCandidate(board, cell, digit)
      ? yield* search.findWithin(
          watch,
          [{ candidate: claim.candidate, value: claim.kind === 'removal' }],
          BUDGET,
        )
      : sound
    if (wayOut === 'budget-spent') return { kind: 'undecided', stopped: 'budget-spent' }
    if (wayOut !== 'none') return { kind: 'false', claim, counterExample: filled(board, wayOut) }
  }
  return undefined
}

/** The verdict on claims that are true. */
function* reasoned(board: Board, own: OwnClaim, claims: readonly Claim[], watch: Watch): Task<ClaimVerdict> {
  const { technique, because } = own
  if (technique === undefined && because === undefined)
    return { kind: 'true', ...(yield* easyWay(board, claims, watch)) }
  // what is no premise proves nothing, whatever the technique
  const malformed = because && findMalformation(board.geometry, stepOf(claims, because))
  if (malformed)
    return { kind: 'true-otherwise', missing: malformed, ...(yield* easyWay(board, claims, watch)) }
  const steps = technique === undefined ? [] : yield* instancesOf(board, technique, claims, because, watch)
  const missing =
    (because && (yield* faultOf(board, claims, because, steps, watch))) ??
    (technique !== undefined && steps.length === 0 ? { kind: 'no-instance' as const, technique } : undefined)
  if (missing) return { kind: 'true-otherwise', missing, ...(yield* easyWay(board, claims, watch)) }
  const [step] = steps
  return { kind: 'proven', ...(step && { step }), ...(steps.length > 1 && { steps }) }
}

/** What the premises lack to prove the claim; nothing where instances of the technique rest on them alone. */
function* faultOf(
  board: Board,
  claims: readonly Claim[],
  because: readonly Premise[],
  steps: readonly FoundStep[],
  watch: Watch,
): Task<Unproven | undefined> {
  const verdict = yield* verifyTask(board, stepOf(claims, because), {}, watch)
  if (verdict.proven) return undefined
  if (verdict.because.kind === 'time-limit') throw watch.timeIsOver()
  // that the puzzle has one solution is no premise: the technique knows its own rule
  const byOneSolution = steps.some(({ assumes }) => assumes) && steps.every((step) => restsOn(step, because))
  return byOneSolution ? undefined : verdict.because
}

/** A person's deduction as a step; a proof does not ask what it is called. */
function stepOf(claims: readonly Claim[], because: readonly Premise[]): Step {
  return {
    technique: 'forcing-net',
    level: 'branch',
    placements: claims.filter(({ kind }) => kind === 'placement').map(({ candidate }) => candidate),
    removals: claims.filter(({ kind }) => kind === 'removal').map(({ candidate }) => candidate),
    premises: because,
    pattern: { shape: 'premises' },
  }
}

function restsOn(step: FoundStep, premises: readonly Premise[]): boolean {
  const named = new Set(premises.map(nameOf))
  return step.premises.every((premise) => named.has(nameOf(premise)))
}

function nameOf(premise: Premise): string {
  return premise.kind === 'cell'
    ? `${premise.cell}: ${[...premise.digits].sort().join()}`
    : `${premise.house} ${premise.digit}: ${[...premise.cells].sort().join()}`
}

/**
 * An instance of the technique that concludes all the claims, if possible from the premises named; or several that
 * conclude them together. Chains are reported by the shortest against each candidate, so longer ones are looked at when
 * those do not do.
 */
function* instancesOf(
  board: Board,
  technique: TechniqueName,
  claims: readonly Claim[],
  because: readonly Premise[] | undefined,
  watch: Watch,
): Task<readonly FoundStep[]> {
  for (const allLengths of [false, true]) {
    const steps = yield* findTask(board, { techniques: [technique], allLengths }, watch)
    const whole = steps.filter((step) => covers(step, claims))
    const step = whole.find((one) => restsOn(one, because ?? [])) ?? whole[0]
    if (step) return [step]
    const parts = claims.map((claim) => steps.find((one) => covers(one, [claim])))
    if (parts.every((part) => part !== undefined)) return [...new Set(parts)]
  }
  return []
}

function filled(board: Board, trues: readonly Candidate[]): number[] {
  const digits = [...board.digits]
  for (const { cell, digit } of trues) digits[cell] = digit
  return digits
}

function covers(step: FoundStep, claims: readonly Claim[]): boolean {
  return claims.every(({ kind, candidate }) =>
    kind === 'placement'
      ? step.placements.some((one) => isSame(one, candidate))
      : step.removals.some((one) => isSame(one, candidate)) ||
        step.placements.some((one) => exclude(step.before.geometry, one, candidate)),
  )
}

function isSame(one: Candidate, other: Candidate): boolean {
  return one.cell === other.cell && one.digit === other.digit
}

function* easyWay(board: Board, claims: readonly Claim[], watch: Watch): Task<{ readonly step?: FoundStep }> {
  const steps = yield* findTask(board, { preset: 'pattern' }, watch)
  const step = steps.find((one) => covers(one, claims))
  return step ? { step } : {}
}
