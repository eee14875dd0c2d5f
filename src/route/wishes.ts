import { checkOptions, count, type OptionChecks } from '../check-arguments.js'
import { soundnessInTime } from '../count/soundness.js'
import { openCount } from '../grid/board/ask.js'
import { applyTo } from '../grid/board/edit.js'
import { type Board, type Candidate, checkBoard } from '../grid/board.js'
import { digitsOf } from '../grid/digits.js'
import { layoutOf } from '../grid/layout.js'
import { uncheckedPuzzle } from '../grid/puzzle.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { assertOnBoard, type Claim } from '../logic/claims/claim.js'
import { Context } from '../logic/facts/context.js'
import { forkWith } from '../logic/facts/facts.js'
import { CHOICE_CHECKS } from '../logic/solving/choice.js'
import { findTask } from '../logic/solving/find.js'
import { candidatesGone } from '../logic/solving/rank.js'
import type { FoundStep } from '../logic/steps/step.js'
import { oneStory } from './one-story.js'
import { choiceOf, type ResolvedRules, type RouteRules, resolveRules } from './rules.js'
import { restWithin } from './workaday.js'

export interface WishOptions
  extends Pick<RouteRules, 'techniques' | 'preset' | 'maxLinks' | 'oneSolution'>,
    Limits {}

const WISH_CHECKS: OptionChecks<WishOptions> = { ...CHOICE_CHECKS, ...LIMIT_CHECKS }

/**
 * The patterns that prove a wished removal or placement on this board: of every technique the instance with the fewest
 * premises that concludes it, easiest technique first. A removal also follows where the digit is placed in a cell that
 * sees it, or another digit in its cell. Empty when no allowed technique proves it in one step. Of several wishes, the
 * patterns that prove all of them at once: chains with a common part and two ends are one story.
 *
 * ```ts
 * // if the 4 went from r2c7, row 2 would fall: why should it go?
 * proofsOf(board, { kind: 'removal', candidate: { cell: 15, digit: 4 } })
 * ```
 *
 * @throws StoppedError `time-limit`
 */
export function proofsOf(
  board: Board,
  claim: Claim | readonly Claim[],
  options: WishOptions = {},
): FoundStep[] {
  checkBoard(board)
  const claims = listOf(claim)
  assertOnBoard(board.geometry, claims)
  checkOptions<WishOptions>(options, WISH_CHECKS)
  return runNow(options, (watch) => proofsTask(board, claims, options, watch))
}

/** Several wishes are wished of one step. */
function listOf(claim: Claim | readonly Claim[]): readonly Claim[] {
  // an empty list is no wish, and is refused as such
  return Array.isArray(claim) && claim.length > 0 ? claim : [claim as Claim]
}

/**
 * The same as a promise: other work runs meanwhile, and `signal` stops it.
 *
 * @example
 * const proofs = await proofsOfAsync(step.before, { kind: 'removal', candidate: { cell: 62, digit: 1 } }, { signal })
 */
export async function proofsOfAsync(
  board: Board,
  claim: Claim | readonly Claim[],
  options: WishOptions = {},
): Promise<FoundStep[]> {
  checkBoard(board)
  const claims = listOf(claim)
  assertOnBoard(board.geometry, claims)
  checkOptions<WishOptions>(options, WISH_CHECKS)
  return runInSlices(options, (watch) => proofsTask(board, claims, options, watch))
}

function* proofsTask(
  board: Board,
  claims: readonly Claim[],
  options: WishOptions,
  watch: Watch,
): Task<FoundStep[]> {
  const rules = resolveRules({ ...options, workaday: [] })
  const context = new Context()
  const proofs: FoundStep[] = []
  for (const technique of rules.beyond) {
    if (watch.isDue()) yield
    let shortest: FoundStep | undefined
    const steps = yield* findTask(board, choiceOf(rules, [technique]), watch, context)
    for (const step of [...steps, ...oneStory(steps)])
      if (claims.every((claim) => concludes(step, claim)) && (!shortest || isBefore(step, shortest)))
        shortest = step
    if (shortest) proofs.push(shortest)
  }
  return proofs
}

/** Is the one easier to follow, or does it conclude more for no more? */
function isBefore(one: FoundStep, other: FoundStep): boolean {
  return (
    one.premises.length < other.premises.length ||
    (one.premises.length === other.premises.length && one.removals.length > other.removals.length)
  )
}

function concludes({ placements, removals, before }: FoundStep, { kind, candidate }: Claim): boolean {
  const { cell, digit } = candidate
  if (kind === 'placement') return placements.some((placed) => placed.cell === cell && placed.digit === digit)
  return (
    removals.some((removed) => removed.cell === cell && removed.digit === digit) ||
    placements.some((placed) =>
      placed.cell === cell
        ? placed.digit !== digit
        : placed.digit === digit && layoutOf(before.geometry).arePeers(placed.cell, cell),
    )
  )
}

export interface OpenersOptions
  extends Pick<RouteRules, 'techniques' | 'preset' | 'workaday' | 'maxLinks' | 'oneSolution'>,
    Limits {
  /** How many to return, those that open most first; 10 when left out. */
  readonly limit?: number
}

/** A candidate whose removal opens the board. */
export interface Opener {
  readonly candidate: Candidate
  /** Do the workaday techniques finish the puzzle once it is gone? */
  readonly finishes: boolean
  /** Digits they place then. */
  readonly placed: number
  /** Candidates gone then, those of cells filled not counted. */
  readonly removed: number
  /** The step of the easiest technique that proves it must go; absent where no allowed technique does in one step. */
  readonly proof?: FoundStep
}

const USUAL_LIMIT = 10

const OPENERS_CHECKS: OptionChecks<OpenersOptions> = {
  ...WISH_CHECKS,
  workaday: CHOICE_CHECKS.techniques,
  limit: count(0),
}

/**
 * Which candidates are worth a hunt: those whose removal lets the workaday techniques do most, each with its easiest
 * proof. Only candidates that are no part of a solution are named; the board is taken to where the workaday techniques
 * rest by the caller (on another board what they give is counted as well).
 *
 * @throws StoppedError `time-limit`
 *
 * @example
 * const [opener] = openers(step.before)
 * opener?.finishes // → true
 */
export function openers(board: Board, options: OpenersOptions = {}): Opener[] {
  checkBoard(board)
  checkOptions<OpenersOptions>(options, OPENERS_CHECKS)
  return runNow(options, (watch) => openersTask(board, options, watch))
}

/**
 * The same as a promise: other work runs meanwhile, and `signal` stops it.
 *
 * @example
 * const [opener] = await openersAsync(step.before, { signal })
 */
export async function openersAsync(board: Board, options: OpenersOptions = {}): Promise<Opener[]> {
  checkBoard(board)
  checkOptions<OpenersOptions>(options, OPENERS_CHECKS)
  return runInSlices(options, (watch) => openersTask(board, options, watch))
}

function* openersTask(board: Board, options: OpenersOptions, watch: Watch): Task<Opener[]> {
  const rules = resolveRules(options)
  const context = new Context()
  const found: Opener[] = []
  for (const candidate of yield* falseCandidates(board, watch)) {
    if (watch.isDue()) yield
    const removal = { placements: [], removals: [candidate] }
    const fork = forkWith(context, board, applyTo(board, removal), removal)
    const { board: after } = yield* restWithin(watch, fork.board, rules.workaday, fork.context)
    found.push({
      candidate,
      finishes: openCount(after) === 0,
      placed: openCount(board) - openCount(after),
      removed: candidatesGone(board, after) - 1,
    })
  }
  const opening = found
    .filter(({ placed, removed }) => placed + removed > 0)
    .sort((a, b) => Number(b.finishes) - Number(a.finishes) || b.placed - a.placed || b.removed - a.removed)
    .slice(0, options.limit ?? USUAL_LIMIT)
  return yield* withProofs(board, context, opening, rules, watch)
}

/** Candidates that are in no solution of the board; none where there are several solutions or none. */
function* falseCandidates(board: Board, watch: Watch): Task<Candidate[]> {
  const { geometry, digits, candidates } = board
  const sound = yield* soundnessInTime(uncheckedPuzzle(digits, geometry), watch)
  if (sound.verdict !== 'unique') return []
  const { solution } = sound
  return candidates.flatMap((set, cell) =>
    digitsOf(set)
      .filter((digit) => digit !== solution[cell])
      .map((digit) => ({ cell, digit })),
  )
}

function* withProofs(
  board: Board,
  context: Context,
  wished: readonly Opener[],
  rules: ResolvedRules,
  watch: Watch,
): Task<Opener[]> {
  const proofs = new Map<Opener, FoundStep>()
  for (const technique of [...rules.workaday, ...rules.beyond]) {
    if (proofs.size === wished.length) break
    if (watch.isDue()) yield
    const steps = yield* findTask(board, choiceOf(rules, [technique]), watch, context)
    for (const opener of wished) {
      if (proofs.has(opener)) continue
      const claim: Claim = { kind: 'removal', candidate: opener.candidate }
      const proof = steps.find((step) => concludes(step, claim))
      if (proof) proofs.set(opener, proof)
    }
  }
  return wished.map((opener) => {
    const proof = proofs.get(opener)
    return proof ? { ...opener, proof } : opener
  })
}
