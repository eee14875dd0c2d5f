import type { Premise } from '../step.js'
import type { Propagation } from './propagation.js'

/** Splits that a search may still make. */
export interface SplitPurse {
  splits: number
}

/**
 * The premises with which a supposition fails, by singles and, where singles end, by splitting the premise with the
 * fewest open alternatives and letting each fail. Undefined when it does not fail or the purse is empty.
 */
export function refutation(
  propagation: Propagation,
  id: number,
  purse: SplitPurse,
): Set<Premise> | undefined {
  const used = new Set<Premise>()
  const mark = propagation.mark
  const fails = followToTheEnd(propagation, id, purse, used)
  propagation.undo(mark)
  return fails ? used : undefined
}

function followToTheEnd(
  propagation: Propagation,
  id: number,
  purse: SplitPurse,
  used: Set<Premise>,
): boolean {
  const conflict = propagation.suppose(id)
  if (conflict !== undefined) {
    propagation.explainConflict(conflict, used)
    return true
  }
  const split = propagation.smallestOpen()
  if (split === undefined || purse.splits-- <= 0) return false
  used.add(propagation.premises[split]!)
  propagation.explainRuledOut(propagation.alternativesIn(split), used)
  for (const alternative of propagation.openIn(split)) {
    const mark = propagation.mark
    const fails = followToTheEnd(propagation, alternative, purse, used)
    propagation.undo(mark)
    if (!fails) return false
  }
  return true
}
