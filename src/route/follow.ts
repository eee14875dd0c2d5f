import type { Board } from '../grid/board.js'
import type { Task, Watch } from '../limits.js'
import { verifyTask } from '../logic/proof/proof.js'
import { findTask } from '../logic/solving/find.js'
import type { FoundStep, Premise } from '../logic/steps/step.js'
import { asSeen } from './as-seen.js'
import type { RouteLine } from './find-route.js'
import { isDone, restated } from './replay.js'
import { isSingle, WORKADAY_TECHNIQUES } from './workaday.js'

/** What a board that follows a route is to get next. */
export interface NextOnRoute {
  readonly step: FoundStep
  /** Is it one of the route's keys? */
  readonly isKey: boolean
}

/**
 * The first step of a route that is not done on a board, as it stands there; undefined when nothing of the route is
 * left or can be seen. Entries that the route has later, or not at all, change nothing: the same step comes until it is
 * done. Where they have filled or narrowed its pattern, an everyday step or one of its own technique that concludes
 * something of the same takes its place, or else what its premises show is all that there is to see.
 */
export function* nextOnRoute(
  board: Board,
  { steps, keys }: Pick<RouteLine, 'steps' | 'keys'>,
  watch: Watch,
): Task<NextOnRoute | undefined> {
  for (const [index, step] of steps.entries()) {
    if (watch.isDue()) yield
    if (isDone(board, step)) continue
    const now = yield* restated(board, step, watch)
    if (!now) continue
    const isKey = keys.includes(index)
    if (isSingle(step)) return { step: { ...(yield* asSeen(board, now, watch)), before: board }, isKey }
    if (isWhole(now.premises, step.premises)) return { step: { ...now, before: board }, isKey }
    const other = yield* sameEnd(board, now, watch)
    if (other) return { step: other, isKey: isKey && other.technique === step.technique }
    const premises = yield* neededPremises(board, now, watch)
    return { step: { ...now, premises, pattern: { shape: 'premises' }, before: board }, isKey }
  }
  return undefined
}

/** Do the premises show what they showed where the step was found? */
function isWhole(now: readonly Premise[], before: readonly Premise[]): boolean {
  return now.every((premise, i) => sizeOf(premise) === sizeOf(before[i]!))
}

function sizeOf(premise: Premise): number {
  return premise.kind === 'cell' ? premise.digits.length : premise.cells.length
}

/** The easiest step on this board that concludes something of what the other does. */
function* sameEnd(
  board: Board,
  { technique, removals, placements }: FoundStep,
  watch: Watch,
): Task<FoundStep | undefined> {
  const has = (list: FoundStep['removals'], { cell, digit }: FoundStep['removals'][number]) =>
    list.some((other) => other.cell === cell && other.digit === digit)
  for (const name of [...WORKADAY_TECHNIQUES, technique])
    for (const step of yield* findTask(board, { techniques: [name] }, watch))
      if (
        step.removals.some((one) => has(removals, one)) ||
        step.placements.some((one) => has(placements, one))
      )
        return step
  return undefined
}

/** Entries may have made premises unnecessary: those without which the step is proven as well are left out. */
function* neededPremises(board: Board, step: FoundStep, watch: Watch): Task<readonly Premise[]> {
  let premises = step.premises
  for (const premise of step.premises) {
    const fewer = premises.filter((other) => other !== premise)
    const verdict = yield* verifyTask(board, { ...step, premises: fewer }, {}, watch)
    if (verdict.proven) premises = fewer
  }
  return premises
}
