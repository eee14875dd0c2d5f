import type { Task, Watch } from '../../limits.js'
import type { Premise } from '../steps/step.js'
import type { Propagation } from './propagation.js'

/** Splits that a search may still make. */
export interface SplitBudget {
  splits: number
}

/**
 * The premises with which a supposition fails, by singles and, where singles end, by splitting the premise with the
 * fewest open alternatives and letting each fail. Undefined when it does not fail or the budget is spent.
 */
export function* refutation(
  propagation: Propagation,
  id: number,
  budget: SplitBudget,
  watch: Watch,
): Task<Set<Premise> | undefined> {
  const used = new Set<Premise>()
  const mark = propagation.mark
  const fails = yield* followToTheEnd(propagation, id, budget, used, watch)
  propagation.undo(mark)
  return fails ? used : undefined
}

function* followToTheEnd(
  propagation: Propagation,
  id: number,
  budget: SplitBudget,
  used: Set<Premise>,
  watch: Watch,
): Task<boolean> {
  const conflict = propagation.suppose(id)
  if (conflict !== undefined) {
    propagation.explainConflict(conflict, used)
    return true
  }
  const split = propagation.smallestOpen()
  if (split === undefined || budget.splits-- <= 0) return false
  if (watch.isDue()) yield
  used.add(propagation.premises[split]!)
  propagation.explainRuledOut(propagation.alternativesIn(split), used)
  for (const alternative of propagation.openIn(split)) {
    const mark = propagation.mark
    const fails = yield* followToTheEnd(propagation, alternative, budget, used, watch)
    propagation.undo(mark)
    if (!fails) return false
  }
  return true
}
