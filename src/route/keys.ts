import { applyTo } from '../grid/board/edit.js'
import type { Board } from '../grid/board.js'
import { digitCount } from '../grid/digits.js'
import type { Task, Watch } from '../limits.js'
import type { Context } from '../logic/facts/context.js'
import { forkWith } from '../logic/facts/facts.js'
import { findTask } from '../logic/solving/find.js'
import type { FoundStep } from '../logic/steps/step.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { oneStory } from './one-story.js'
import { choiceOf, type ResolvedRules } from './rules.js'
import { restWithin } from './workaday.js'

/** A step beyond the workaday ones, on a board where these rest, and the board where they rest after it. */
export interface Opening {
  readonly step: FoundStep
  readonly after: Board
  /** What is known of that board. */
  readonly context: Context
  /** Candidates left on the board after; 0 when the puzzle is finished. */
  readonly left: number
}

/**
 * The openings of a board by one technique. Of steps with the same conclusion only the first, since the others open the
 * same: asked in the order of the rules, nothing is shown by a harder pattern that an easier one gives.
 *
 * @param context what is known of the board
 * @param seen the conclusions of the openings so far
 * @throws StoppedError `time-limit`
 */
export function* openingsBy(
  technique: TechniqueName,
  board: Board,
  context: Context,
  rules: ResolvedRules,
  seen: Set<string>,
  watch: Watch,
): Task<readonly Opening[]> {
  const openings: Opening[] = []
  const steps = yield* findTask(board, choiceOf(rules, [technique]), watch, context)
  // the shortest chains first, and the smallest sets; chains with a common part after those by themselves
  const inOrder = steps.sort((a, b) => a.premises.length - b.premises.length)
  for (const step of [...inOrder, ...oneStory(inOrder)]) {
    const conclusion = conclusionKey(step)
    if (seen.has(conclusion)) continue
    if (watch.isDue()) yield
    seen.add(conclusion)
    const fork = forkWith(context, board, applyTo(board, step), step)
    const { board: after } = yield* restWithin(watch, fork.board, rules.workaday, fork.context)
    openings.push({ step, after, context: fork.context, left: candidatesLeft(after) })
  }
  return openings
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
