import { boolean, checkOptions, type OptionChecks, oneOf } from '../../check-arguments.js'
import { contradictionOf, openCount } from '../../grid/board/ask.js'
import { applyTo } from '../../grid/board/edit.js'
import type { Board } from '../../grid/board.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../../limits.js'
import { Context } from '../facts/context.js'
import { forkWith } from '../facts/facts.js'
import { LEVELS, type Level } from '../level.js'
import { checkFoundSteps } from '../steps/check-step.js'
import type { FoundStep } from '../steps/step.js'
import type { Choice } from './choice.js'
import { runToRestTask } from './solve.js'

/** What a step opens up. */
export interface RankedStep {
  readonly step: FoundStep
  /** Digits placed by the step and by the easier techniques run to rest after it. */
  readonly placed: number
  /** Candidates gone by then, those of cells filled not counted. */
  readonly removed: number
  /** Do the easier techniques finish the puzzle after it? */
  readonly finishes: boolean
}

export interface RankOptions extends Limits {
  /** What is run to rest after each step: techniques up to this level; by default those easier than the step's own. */
  readonly preset?: Level
  readonly oneSolution?: boolean
}

const RANK_CHECKS: OptionChecks<RankOptions> = {
  ...LIMIT_CHECKS,
  preset: oneOf(LEVELS),
  oneSolution: boolean,
}

/**
 * Orders steps by what follows when each is applied to its board and the easier techniques are run to rest: first those
 * after which the puzzle falls, then by digits placed, then by candidates gone. Equal ones keep their order.
 *
 * @throws StoppedError `time-limit` when that was over first, `aborted` when the signal has fired
 *
 * @example
 * const [best] = rankSteps(findSteps(board, { preset: 'mark' }))
 * best?.placed // digits that fall into place after it
 */
export function rankSteps(steps: readonly FoundStep[], options: RankOptions = {}): RankedStep[] {
  checkFoundSteps(steps)
  checkOptions<RankOptions>(options, RANK_CHECKS)
  return runNow(options, (watch) => rankTask(steps, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const [best] = await rankStepsAsync(findSteps(board, { preset: 'mark' }), { signal })
 */
export async function rankStepsAsync(
  steps: readonly FoundStep[],
  options: RankOptions = {},
): Promise<RankedStep[]> {
  checkFoundSteps(steps)
  checkOptions<RankOptions>(options, RANK_CHECKS)
  return runInSlices(options, (watch) => rankTask(steps, options, watch))
}

function* rankTask(steps: readonly FoundStep[], options: RankOptions, watch: Watch): Task<RankedStep[]> {
  const ranking: RankedStep[] = []
  const known: Known = new Map()
  for (const step of steps) ranking.push(yield* ranked(step, options, watch, known))
  return ranking.sort(
    (a, b) => Number(b.finishes) - Number(a.finishes) || b.placed - a.placed || b.removed - a.removed,
  )
}

/** What is known of boards on which the techniques up to a level find nothing; of others, nothing that would help. */
type Known = Map<Board, Map<Level, Context | undefined>>

function* ranked(
  step: FoundStep,
  { preset = easierThan(step.level), oneSolution }: RankOptions,
  watch: Watch,
  known: Known,
): Task<RankedStep> {
  const { before } = step
  const choice = { preset, ...(oneSolution !== undefined && { oneSolution }) }
  const contexts = known.get(before) ?? new Map<Level, Context | undefined>()
  known.set(before, contexts)
  if (!contexts.has(preset)) contexts.set(preset, yield* contextAtRest(before, choice, watch))
  const context = contexts.get(preset)
  const after = applyTo(before, step)
  const fork = context && forkWith(context, before, after, step)
  const { board } = yield* runToRestTask(after, choice, watch, fork?.context)
  return {
    step,
    placed: openCount(before) - openCount(board),
    removed: candidatesGone(before, board),
    finishes: openCount(board) === 0 && contradictionOf(board) === undefined,
  }
}

/** Of a board on which the choice finds nothing, so that it looks again only where a step changes something. */
function* contextAtRest(board: Board, choice: Choice, watch: Watch): Task<Context | undefined> {
  const context = new Context()
  const { steps } = yield* runToRestTask(board, choice, watch, context)
  return steps.length === 0 && contradictionOf(board) === undefined ? context : undefined
}

function easierThan(level: Level): Level {
  return LEVELS[Math.max(0, LEVELS.indexOf(level) - 1)]!
}

export function candidatesGone(before: Board, after: Board): number {
  let gone = 0
  for (let cell = 0; cell < before.candidates.length; cell++) {
    if (after.digits[cell]) continue
    for (let rest = before.candidates[cell]! & ~after.candidates[cell]!; rest; rest &= rest - 1) gone++
  }
  return gone
}
