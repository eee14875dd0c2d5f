import { checkOptions, count, type OptionChecks } from '../../check-arguments.js'
import { isTimeOver } from '../../errors.js'
import { hasCandidate } from '../../grid/board/ask.js'
import { type Board, type Candidate, checkBoard } from '../../grid/board.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../../limits.js'
import { type Claim, claimsOf } from '../claims/claim.js'
import { findMalformation, type Malformation } from '../steps/malformation.js'
import type { Step } from '../steps/step.js'
import { type ExchangeFault, findExchangeFault } from './one-solution.js'
import { findPremiseFault, type PremiseFault } from './premise-holds.js'
import { PremiseSearch, type ProofBudget } from './premise-search.js'

/** Why a step is not proven. */
export type Unproven =
  /** The step does not make sense on this geometry: a number out of range, a part missing, an entry twice. */
  | Malformation
  /** Nothing would change: no placement and no removal. */
  | { readonly kind: 'no-conclusion' }
  /** A conclusion names what is no candidate on the board: it was removed before, or the cell has a digit. */
  | { readonly kind: 'not-a-candidate'; readonly claim: Claim }
  /** A premise does not hold on the board. */
  | PremiseFault
  /** The premises leave a way out: all of them are true in `assignment`, and the conclusion is not. */
  | { readonly kind: 'missing-link'; readonly claim: Claim; readonly assignment: readonly Candidate[] }
  /** The deduction rests on the puzzle having one solution, and its pattern could not be exchanged for another. */
  | ExchangeFault
  /** Undecided: the search for a way out was stopped by its budget. */
  | { readonly kind: 'budget-spent'; readonly claim: Claim }
  /** Undecided: the time was over first. */
  | { readonly kind: 'time-limit'; readonly claim: Claim }

/** Whether a step is proven, and if not, why. */
export type StepVerdict =
  | { readonly proven: true }
  | {
      readonly proven: false
      readonly because: Unproven
    }

export interface VerifyOptions extends Limits {
  /**
   * Most alternatives tried, for all conclusions together. Steps people can follow need a few; trees of cases need
   * hundreds.
   */
  readonly budget?: number
}

const DEFAULT_BUDGET = 200_000
const PROVEN: StepVerdict = { proven: true }

const VERIFY_CHECKS: OptionChecks<VerifyOptions> = { ...LIMIT_CHECKS, budget: count(0) }

/**
 * Is this step proven on this board by its premises alone?
 *
 * ```ts
 * const [step] = findSteps(board, { techniques: ['naked-single'] })
 * verifyStep(board, step)                       // { proven: true }
 * verifyStep(board, { ...step, premises: [] })  // { proven: false, because: { kind: 'missing-link', … } }
 * ```
 *
 * Each premise must hold on the board. Then each conclusion is denied in turn: when no assignment satisfies all
 * premises with the conclusion denied, given only that a cell holds one digit and no house holds a digit twice, it is
 * proven. No technique is known here by name, and nothing a finder says is trusted.
 *
 * @throws StoppedError `aborted` when the signal has fired
 */
export function verifyStep(board: Board, step: Step, options: VerifyOptions = {}): StepVerdict {
  checkBoard(board)
  checkOptions<VerifyOptions>(options, VERIFY_CHECKS)
  return runNow(options, (watch) => verifyTask(board, step, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * await verifyStepAsync(step.before, step, { signal }) // → { proven: true }
 */
export async function verifyStepAsync(
  board: Board,
  step: Step,
  options: VerifyOptions = {},
): Promise<StepVerdict> {
  checkBoard(board)
  checkOptions<VerifyOptions>(options, VERIFY_CHECKS)
  return runInSlices(options, (watch) => verifyTask(board, step, options, watch))
}

export function* verifyTask(
  board: Board,
  step: Step,
  options: Omit<VerifyOptions, keyof Limits>,
  watch: Watch,
): Task<StepVerdict> {
  const because = yield* findFault(board, step, { left: options.budget ?? DEFAULT_BUDGET }, watch)
  return because ? { proven: false, because } : PROVEN
}

function* findFault(board: Board, step: Step, budget: ProofBudget, watch: Watch): Task<Unproven | undefined> {
  const malformed = findMalformation(board.geometry, step)
  if (malformed) return malformed
  const claims = claimsOf(step)
  if (claims.length === 0) return { kind: 'no-conclusion' }
  for (const claim of claims) {
    if (!hasCandidate(board, claim.candidate.cell, claim.candidate.digit))
      return { kind: 'not-a-candidate', claim }
  }
  const fault = findPremiseFault(board, step.premises)
  if (fault) return fault
  const search = new PremiseSearch(
    board.geometry,
    step.premises,
    claims.map((claim) => claim.candidate),
  )
  for (const claim of claims) {
    try {
      const unproven = yield* faultOfClaim(board, step, search, claim, budget, watch)
      if (unproven) return unproven
    } catch (error) {
      if (!isTimeOver(error)) throw error
      return { kind: 'time-limit', claim }
    }
  }
  return undefined
}

function* faultOfClaim(
  board: Board,
  step: Step,
  search: PremiseSearch,
  claim: Claim,
  budget: ProofBudget,
  watch: Watch,
): Task<Unproven | undefined> {
  if (step.assumes === 'one-solution')
    return yield* findExchangeFault(board, step, search, claim, budget, watch)
  const denied = { candidate: claim.candidate, value: claim.kind === 'removal' }
  const wayOut = yield* search.findWithin(watch, [denied], budget.left)
  budget.left -= search.spent
  if (wayOut === 'budget-spent') return { kind: 'budget-spent', claim }
  return wayOut === 'none' ? undefined : { kind: 'missing-link', claim, assignment: wayOut }
}
