import { checkOptions, type OptionChecks, oneOf } from '../check-arguments.js'
import { openCount, puzzleOf } from '../grid/board/ask.js'
import { boardFrom } from '../grid/board/make.js'
import type { Board } from '../grid/board.js'
import { layoutOf } from '../grid/layout.js'
import type { Puzzle } from '../grid/puzzle.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { progressTask } from '../logic/check-progress.js'
import { CHOICE_CHECKS, type Choice } from '../logic/choice.js'
import { findTask } from '../logic/find.js'
import type { Level } from '../logic/level.js'
import type { FoundStep } from '../logic/step.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { type Explanation, explain } from './explain-step.js'
import { HINT_DEPTHS, type HintDepth } from './hint-depth.js'
import { type MistakeHint, mistakeHint } from './mistake-hint.js'
import { planPicture } from './picture/plan.js'
import { namesOf, VOICE_CHECKS, type Voice, type VoiceOptions, voiceOf } from './voice.js'

export { HINT_DEPTHS, type HintDepth } from './hint-depth.js'

export interface HintOptions<Depth extends HintDepth = HintDepth> extends Choice, Limits, VoiceOptions {
  /** `look` when left out. */
  readonly depth?: Depth
}

interface LookHint {
  readonly kind: 'step'
  readonly depth: 'look'
  /** Sentences from the vaguest to those of the chosen depth, one for each depth (several for the argument). */
  readonly says: readonly string[]
  /** Houses to look at. */
  readonly houses: readonly number[]
}

interface MethodHint extends Omit<LookHint, 'depth'> {
  readonly depth: 'method'
  readonly technique: TechniqueName
  readonly level: Level
}

interface CellsHint extends Omit<MethodHint, 'depth'> {
  readonly depth: 'cells'
  /** Cells of the pattern, and its digits unless they are the answer. */
  readonly cells: readonly number[]
  readonly digits: readonly number[]
}

interface ArgumentHint extends Omit<CellsHint, 'depth'> {
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
      readonly because: 'several' | 'none' | 'undecided'
      readonly says: readonly string[]
    }
  | { readonly kind: 'solved' | 'stuck'; readonly says: readonly string[] }

const HINT_CHECKS: OptionChecks<HintOptions> = {
  ...CHOICE_CHECKS,
  ...LIMIT_CHECKS,
  ...VOICE_CHECKS,
  depth: oneOf(HINT_DEPTHS),
}

/**
 * The next step on a board, of which as much is said as the depth allows.
 *
 * ```ts
 * hint(board).says                       // ['Look at box 4.']
 * hint(board, { depth: 'method' }).says  // ['Look at box 4.', 'A digit can be placed: hidden single.']
 * ```
 *
 * The board is compared with the solution first, so that no hint is built on a mistake.
 *
 * @throws InputError `argument` for an unknown depth, technique or preset; StoppedError `time-limit` when that was over
 *   first, `aborted` when the signal has fired
 */
export function hint<Depth extends HintDepth = 'look'>(
  source: Board | Puzzle,
  options: HintOptions<Depth> = {},
): Hint<Depth> {
  checkOptions<HintOptions>(options, HINT_CHECKS)
  return runNow(options, (watch) => hintTask(source, options, watch))
}

/** The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time. */
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
  const voice = voiceOf(options)
  const words = voice.wording.hint
  const depth: HintDepth = options.depth ?? 'look'
  const progress = yield* progressTask(puzzleOf(board), board, {}, watch)
  if (progress.status === 'unsound-puzzle' && progress.stopped === 'time-limit') throw watch.timeIsOver()
  if (progress.status === 'unsound-puzzle')
    return { kind: 'unsound', because: progress.solutions, says: [words.unsound[progress.solutions]] }
  // the parts of a hint follow from the depth, which the compiler cannot see
  if (progress.status === 'off-track') return mistakeHint(board, progress, depth, voice) as MistakeHint<Depth>
  if (openCount(board) === 0) return { kind: 'solved', says: [words.solved] }
  const [step] = yield* findTask(board, { ...options, limit: 1 }, watch)
  if (!step) return { kind: 'stuck', says: [words.stuck] }
  return tell(step, depth, voice) as StepHint<Depth>
}

/** The hint that leads to this step. */
export function hintAt<Depth extends HintDepth>(
  step: FoundStep,
  depth: Depth,
  voice: Voice,
): StepHint<Depth> {
  return tell(step, depth, voice) as StepHint<Depth>
}

function tell(step: FoundStep, depth: HintDepth, voice: Voice): StepHint {
  const names = namesOf(voice, step.before.geometry)
  const told = HINT_DEPTHS.indexOf(depth)
  const houses = whereToLook(step)
  const { cells, digits } = whatToSee(step)
  const explanation = explain(step, voice)
  const words = voice.wording.hint
  const says = [
    [words.look(names, houses)],
    [words.method(step.technique, step.level)],
    [words.cells(names, cells, digits)],
    explanation.sentences,
  ]
  const look = { kind: 'step', says: says.slice(0, told + 1).flat(), houses } as const
  const method = { technique: step.technique, level: step.level }
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

/** The cells and digits of the pattern; for a single only the cell, since the digit is the answer. */
function whatToSee(step: FoundStep): { cells: number[]; digits: number[] } {
  if (step.pattern.shape === 'single') return { cells: [step.pattern.cell], digits: [] }
  const plan = planPicture(step)
  const marks = plan.candidates.filter(({ role }) => role !== 'removed' && role !== 'placed')
  const ascending = (numbers: Iterable<number>) => [...new Set(numbers)].sort((a, b) => a - b)
  return {
    cells: ascending(marks.map(({ cell }) => cell)),
    digits: ascending(marks.map(({ digit }) => digit)),
  }
}

/** The house the pattern is about, or the boxes (regions) its cells lie in. */
function whereToLook(step: FoundStep): number[] {
  const { geometry } = step.before
  const layout = layoutOf(geometry)
  const { pattern } = step
  switch (pattern.shape) {
    case 'locked':
      return [pattern.from]
    case 'subset':
      return [pattern.house]
    case 'fish':
      return [...pattern.base]
    case 'single':
      if (pattern.house !== undefined) return [pattern.house]
      break
    default:
      break
  }
  const houses = new Set<number>()
  for (const cell of whatToSee(step).cells) {
    for (const house of layout.housesOf[cell]!) {
      const { kind } = layout.houses[house]!
      if (kind === 'box' || kind === 'region') houses.add(house)
    }
  }
  return [...houses].sort((a, b) => a - b)
}
