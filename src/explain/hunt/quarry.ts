import type { FoundStep } from '../../logic/steps/step.js'
import type { Clue, Way, Works } from './clue.js'

/** What a family has to say about how one of its steps is found. */
export interface Quarry {
  /** The only digit of the pattern, if it has one only. */
  readonly digit: number | undefined
  /** Houses that one would look at. */
  readonly houses: readonly number[]
  /** What to look at first, what to try, near misses, and why this one works. */
  readonly clues: readonly Clue[]
}

export function works(
  step: FoundStep,
  way: Way,
  parts: Pick<Works, 'cells' | 'digits'> & Partial<Pick<Works, 'houses' | 'sets'>>,
): Works {
  return {
    kind: 'works',
    way,
    cells: parts.cells,
    digits: parts.digits,
    houses: parts.houses ?? [],
    sets: parts.sets ?? [],
    placed: step.placements,
    struck: step.removals,
  }
}
