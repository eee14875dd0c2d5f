import { Board } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { checkProgress } from '../logic/check-progress.js'
import type { Choice } from '../logic/choice.js'
import { nextStep } from '../logic/find.js'
import type { Level } from '../logic/level.js'
import type { FoundStep } from '../logic/step.js'
import { type Explanation, explainStep } from './explain-step.js'
import { planPicture } from './picture/plan.js'
import { type Voice, type VoiceOptions, voiceOf } from './voice.js'

/** How much a hint tells: where to look, the technique's name, the cells of the pattern, the whole argument. */
export const HINT_DEPTHS = ['look', 'method', 'cells', 'argument'] as const
export type HintDepth = (typeof HINT_DEPTHS)[number]

export interface HintOptions extends Choice, VoiceOptions {
  /** `look` when left out. */
  readonly depth?: HintDepth
}

/** What a hint at depth `look` knows; each depth adds to the one before, and nothing deeper is given away. */
export interface StepHint {
  readonly kind: 'step'
  readonly depth: HintDepth
  /** Sentences from the vaguest to the one asked for, one for each depth (several for the argument). */
  readonly says: readonly string[]
  /** Houses to look at. */
  readonly houses: readonly number[]
  /** From `method` on. */
  readonly technique?: string
  readonly level?: Level
  /** From `cells` on: cells of the pattern, and its digits unless they are the answer. */
  readonly cells?: readonly number[]
  readonly digits?: readonly number[]
  /** At `argument`: the step itself, to be drawn or applied. */
  readonly step?: FoundStep
  readonly explanation?: Explanation
}

export type Hint =
  | StepHint
  /** A digit or a pencil mark is not what the solution says: no use going on before it is put right. */
  | {
      readonly kind: 'mistake'
      readonly says: readonly string[]
      readonly wrongDigits: readonly number[]
      /** Open cells from which the right digit was struck out. */
      readonly wrongMarks: readonly number[]
    }
  | {
      readonly kind: 'unsound'
      readonly because: 'several' | 'none' | 'undecided'
      readonly says: readonly string[]
    }
  | { readonly kind: 'solved' | 'stuck'; readonly says: readonly string[] }

/**
 * The next step on a board, told as far as asked for.
 *
 * ```ts
 * hint(board).says                       // ['Look at box 4.']
 * hint(board, { depth: 'method' }).says  // ['Look at box 4.', 'A digit can be placed: hidden single.']
 * ```
 *
 * The board is compared with the solution first, so that no hint is built on a mistake.
 *
 * @throws RangeError for an unknown depth, technique or preset
 */
export function hint(source: Board | Puzzle, options: HintOptions = {}): Hint {
  const board = source instanceof Board ? source : Board.fromPuzzle(source)
  const voice = voiceOf(options)
  const words = voice.wording.hint
  const depth = options.depth ?? 'look'
  const told = HINT_DEPTHS.indexOf(depth)
  if (told < 0)
    throw new RangeError(`There is no hint depth "${depth}"; choose one of ${HINT_DEPTHS.join(', ')}.`)
  const progress = checkProgress(board.puzzle, board)
  if (progress.status === 'unsound-puzzle')
    return { kind: 'unsound', because: progress.solutions, says: [words.unsound[progress.solutions]] }
  if (progress.status === 'off-track') {
    const wrongDigits = progress.wrongDigits.map(({ cell }) => cell)
    const wrongMarks = progress.wrongRemovals.map(({ cell }) => cell)
    const { geometry } = board
    const says = [
      ...(wrongDigits.length > 0 ? [words.wrongDigits(geometry, wrongDigits)] : []),
      ...(wrongMarks.length > 0 ? [words.wrongMarks(geometry, wrongMarks)] : []),
    ]
    return { kind: 'mistake', says, wrongDigits, wrongMarks }
  }
  if (board.openCount === 0) return { kind: 'solved', says: [words.solved] }
  const step = nextStep(board, options)
  if (!step) return { kind: 'stuck', says: [words.stuck] }
  return tell(step, depth, voice)
}

function tell(step: FoundStep, depth: HintDepth, voice: Voice): StepHint {
  const { geometry } = step.before
  const told = HINT_DEPTHS.indexOf(depth)
  const houses = whereToLook(step)
  const { cells, digits } = whatToSee(step)
  const explanation = explainStep(step, voice)
  const words = voice.wording.hint
  const says = [
    [words.look(geometry, houses)],
    [words.method(step.technique, step.level)],
    [words.cells(geometry, cells, digits, voice.digits)],
    explanation.sentences,
  ]
  return {
    kind: 'step',
    depth,
    says: says.slice(0, told + 1).flat(),
    houses,
    ...(told >= 1 && { technique: step.technique, level: step.level }),
    ...(told >= 2 && { cells, digits }),
    ...(told >= 3 && { step, explanation }),
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
    for (const house of geometry.housesOf[cell]!) {
      const { kind } = geometry.houses[house]!
      if (kind === 'box' || kind === 'region') houses.add(house)
    }
  }
  return [...houses].sort((a, b) => a - b)
}
