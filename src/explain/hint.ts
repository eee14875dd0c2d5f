import { argumentError, checkOptions, listOf, type OptionChecks, oneOf, whole } from '../check-arguments.js'
import { openCount, puzzleOf } from '../grid/board/ask.js'
import { boardFrom } from '../grid/board/make.js'
import type { Board } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { progressTask } from '../logic/claims/check-progress.js'
import type { Level } from '../logic/level.js'
import { CHOICE_CHECKS, type Choice } from '../logic/solving/choice.js'
import { findTask } from '../logic/solving/find.js'
import { checkPath } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import type { TechniqueName } from '../logic/technique-names.js'
import type { RouteLine } from '../route/find-route.js'
import { nextOnRoute } from '../route/follow.js'
import { type Explanation, explain } from './explain-step.js'
import { HINT_DEPTHS, type HintDepth } from './hint-depth.js'
import { type MistakeHint, mistakeHint } from './mistake-hint.js'
import { namesOf, type Voice, type VoiceOptions, voiceChecks, voiceOf } from './voice.js'
import { whatToSee, whereToLook } from './where-to-look.js'
import { ENGLISH } from './words/english/index.js'

export { HINT_DEPTHS, type HintDepth } from './hint-depth.js'

export interface HintOptions<Depth extends HintDepth = HintDepth> extends Choice, Limits, VoiceOptions {
  /** `look` when left out. */
  readonly depth?: Depth
  /**
   * A route through this puzzle, to be followed: its first step that is not done, whatever else its user has entered
   * in the meantime. The techniques chosen count where nothing of it is left to show.
   */
  readonly route?: Pick<RouteLine, 'steps' | 'keys'>
}

/** Where to look, and no more. */
export interface LookHint {
  readonly kind: 'step'
  readonly depth: 'look'
  /** Sentences from the vaguest to those of the chosen depth, one for each depth (several for the argument). */
  readonly says: readonly string[]
  /** Houses to look at. */
  readonly houses: readonly number[]
}

/** Where to look, and for what technique. */
export interface MethodHint extends Omit<LookHint, 'depth'> {
  readonly depth: 'method'
  readonly technique: TechniqueName
  readonly level: Level
  /** Along a route: is this one of its keys? */
  readonly isKey?: boolean
}

/** The cells and digits of the pattern as well. */
export interface CellsHint extends Omit<MethodHint, 'depth'> {
  readonly depth: 'cells'
  /** Cells of the pattern, and its digits unless they are the answer. */
  readonly cells: readonly number[]
  readonly digits: readonly number[]
}

/** The whole step, with its explanation. */
export interface ArgumentHint extends Omit<CellsHint, 'depth'> {
  readonly depth: 'argument'
  /** The step itself, to be drawn or applied. */
  readonly step: FoundStep
  readonly explanation: Explanation
}

/** A hint that leads to a step. Each depth adds to the one before, and nothing deeper is given away. */
export type StepHint<Depth extends HintDepth = HintDepth> = Extract<
  LookHint | MethodHint | CellsHint | ArgumentHint,
  { readonly depth: Depth }
>

/** What `hint` answers when asked at this depth. */
export type Hint<Depth extends HintDepth = HintDepth> =
  | StepHint<Depth>
  | MistakeHint<Depth>
  | {
      readonly kind: 'unsound'
      readonly because: 'many' | 'none' | 'undecided'
      readonly says: readonly string[]
    }
  | { readonly kind: 'solved' | 'stuck'; readonly says: readonly string[] }

const HINT_CHECKS: OptionChecks<HintOptions> = {
  ...CHOICE_CHECKS,
  ...LIMIT_CHECKS,
  ...voiceChecks(ENGLISH),
  depth: oneOf(HINT_DEPTHS),
  route: checkRoute,
}

/**
 * The next step on a board, of which as much is said as the depth allows.
 *
 * ```ts
 * hint(board).says                       // ['Look at box 4.']
 * hint(board, { depth: 'method' }).says  // ['Look at box 4.', 'A digit can be placed: hidden single.']
 * ```
 *
 * The board is compared with the solution first, so that no hint is built on a mistake. With a `route` the hints lead
 * along it and do not change their mind from one move to the next; without one nothing is planned ahead.
 *
 * @throws InputError `argument` for an unknown depth, technique or preset, or a route through another puzzle;
 *   StoppedError `time-limit` when that was over first, `aborted` when the signal has fired
 */
export function hint<Depth extends HintDepth = 'look'>(
  source: Board | Puzzle,
  options: HintOptions<Depth> = {},
): Hint<Depth> {
  checkOptions<HintOptions>(options, HINT_CHECKS)
  return runNow(options, (watch) => hintTask(source, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const { says } = await hintAsync(board, { depth: 'cells', signal })
 */
export async function hintAsync<Depth extends HintDepth = 'look'>(
  source: Board | Puzzle,
  options: HintOptions<Depth> = {},
): Promise<Hint<Depth>> {
  checkOptions<HintOptions>(options, HINT_CHECKS)
  return runInSlices(options, (watch) => hintTask(source, options, watch))
}

function* hintTask<Depth extends HintDepth>(
  source: Board | Puzzle,
  options: HintOptions<Depth>,
  watch: Watch,
): Task<Hint<Depth>> {
  const board = boardFrom(source)
  const voice = voiceOf(options, ENGLISH)
  const words = voice.wording.hint
  const depth: HintDepth = options.depth ?? 'look'
  const progress = yield* progressTask(puzzleOf(board), board, {}, watch)
  if (progress.status === 'unsound-puzzle' && progress.stopped === 'time-limit') throw watch.timeIsOver()
  if (progress.status === 'unsound-puzzle')
    return { kind: 'unsound', because: progress.solutions, says: [words.unsound[progress.solutions]] }
  // the parts of a hint follow from the depth, which the compiler cannot see
  if (progress.status === 'off-track') return mistakeHint(board, progress, depth, voice) as MistakeHint<Depth>
  if (openCount(board) === 0) return { kind: 'solved', says: [words.solved] }
  const { route, ...choice } = options
  if (route) {
    assertThrough(board, route)
    const next = yield* nextOnRoute(board, route, watch)
    if (next) return hintOf(next.step, depth, voice, next.isKey) as StepHint<Depth>
  }
  const [step] = yield* findTask(board, { ...choice, limit: 1 }, watch)
  if (!step) return { kind: 'stuck', says: [words.stuck] }
  return hintOf(step, depth, voice) as StepHint<Depth>
}

function checkRoute(route: unknown, name: string): void {
  const { steps, keys } = (route ?? {}) as Partial<RouteLine>
  if (!Array.isArray(steps) || !Array.isArray(keys))
    throw argumentError(name, 'a route that findRoute has found (status `solved`)', route)
  checkPath(steps, `${name}.steps`)
  checkKeys(keys, `${name}.keys`)
}

const checkKeys = listOf(whole(0))

/** A step of another puzzle's route could be proven here by chance, and lead nowhere. */
function assertThrough(board: Board, { steps: [first] }: Pick<RouteLine, 'steps'>): void {
  if (!first) return
  const own = puzzleOf(board)
  const other = puzzleOf(first.before)
  if (
    own.geometry.key !== other.geometry.key ||
    own.givens.some((given, cell) => given !== other.givens[cell])
  )
    throw argumentError('route', 'a route through the puzzle of this board', 'that of another')
}

/** The hint that leads to this step. */
export function hintAt<Depth extends HintDepth>(
  step: FoundStep,
  depth: Depth,
  voice: Voice,
): StepHint<Depth> {
  return hintOf(step, depth, voice) as StepHint<Depth>
}

function hintOf(step: FoundStep, depth: HintDepth, voice: Voice, isKey?: boolean): StepHint {
  const names = namesOf(voice, step.before.geometry)
  const last = HINT_DEPTHS.indexOf(depth)
  const houses = whereToLook(step)
  const { cells, digits } = whatToSee(step)
  const explanation = explain(step, voice)
  const words = voice.wording.hint
  const says = [
    [words.look(names, houses)],
    [words.method(step.technique, step.level), ...(isKey ? [words.key] : [])],
    [words.cells(names, cells, digits)],
    explanation.sentences,
  ]
  const look = { kind: 'step', says: says.slice(0, last + 1).flat(), houses } as const
  const method = { technique: step.technique, level: step.level, ...(isKey !== undefined && { isKey }) }
  switch (depth) {
    case 'look':
      return { ...look, depth }
    case 'method':
      return { ...look, depth, ...method }
    case 'cells':
      return { ...look, depth, ...method, cells, digits }
    case 'argument':
      return { ...look, depth, ...method, cells, digits, step, explanation }
    default:
      return depth satisfies never
  }
}
