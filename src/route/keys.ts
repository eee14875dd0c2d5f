import type { Board } from '../grid/board.js'
import { digitCount } from '../grid/digits.js'
import { findSteps } from '../logic/find.js'
import type { FoundStep } from '../logic/step.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { choiceOf, type ResolvedRules } from './rules.js'
import { rest } from './workaday.js'

/** A step beyond the workaday ones, on a board where these rest, and the board where they rest after it. */
export interface Opening {
  readonly step: FoundStep
  readonly after: Board
  /** Candidates left on the board after; 0 when the puzzle is finished. */
  readonly left: number
}

/**
 * The openings of a board, technique by technique in the order of the rules. Of steps with the same conclusion only the
 * first, since the others open the same: so nothing is shown by a harder pattern that an easier one gives.
 */
export function* openings(board: Board, rules: ResolvedRules): Generator<readonly Opening[]> {
  const seen = new Set<string>()
  for (const technique of rules.beyond) {
    const found: Opening[] = []
    for (const step of instancesOf(board, technique, rules)) {
      const conclusion = conclusionKey(step)
      if (seen.has(conclusion)) continue
      seen.add(conclusion)
      const { board: after } = rest(board.apply(step), rules.workaday)
      found.push({ step, after, left: candidatesLeft(after) })
    }
    yield found
  }
}

/** All instances of a technique, those with the fewest premises first: the shortest chains, the smallest sets. */
function instancesOf(board: Board, technique: TechniqueName, rules: ResolvedRules): FoundStep[] {
  return findSteps(board, choiceOf(rules, [technique])).sort((a, b) => a.premises.length - b.premises.length)
}

/** The conclusion of a step as a text: the same for steps that conclude the same. */
function conclusionKey({ placements, removals }: FoundStep): string {
  const numbered = (list: FoundStep['removals']) =>
    list
      .map(({ cell, digit }) => cell * 32 + digit)
      .sort((a, b) => a - b)
      .join()
  return `${numbered(placements)};${numbered(removals)}`
}

function candidatesLeft({ candidates }: Board): number {
  let left = 0
  for (let cell = 0; cell < candidates.length; cell++) left += digitCount(candidates[cell]!)
  return left
}
