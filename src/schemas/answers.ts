import type { Verdict } from '../count/check-uniqueness.js'
import type { Conflict } from '../count/conflict.js'
import type { Explanation } from '../explain/explain-step.js'
import type { Hint, HintDepth, StepHint } from '../explain/hint.js'
import type { Hunt } from '../explain/hunt.js'
import type { MistakeHint } from '../explain/mistake-hint.js'
import type { Frame } from '../explain/picture/frame-row.js'
import type { Board } from '../grid/board.js'
import { geometryShape } from '../grid/json.js'
import type { JudgedProgress, Progress } from '../logic/claims/check-progress.js'
import type { Claim } from '../logic/claims/claim.js'
import type { Mistake } from '../logic/claims/mistakes.js'
import type { FoundStep, PathStep } from '../logic/steps/step.js'
import { candidateShape, levelShape, STEP_PARTS, techniqueShape } from '../logic/steps/step-shape.js'
import type { Route, RouteLine } from '../route/find-route.js'
import * as shape from '../shape.js'

// Answers that an app sends on or keeps. Within the package nothing reads them back, so that these shapes stand here.

const number = shape.whole()
const numbers = shape.list(number)
const texts = shape.list(shape.text)
const candidates = shape.list(candidateShape)
const stopped = shape.name(['budget-spent', 'time-limit'])
const overTime = shape.only('time-limit')

const boardValue = shape.object<Board>({
  geometry: geometryShape,
  given: numbers,
  digits: numbers,
  candidates: numbers,
  removed: numbers,
  noted: numbers,
})

export const foundStepShape: shape.Shape<FoundStep> = shape.object<FoundStep>({
  ...STEP_PARTS,
  before: boardValue,
})

const conflict = shape.object<Conflict>({
  givens: candidates,
  where: shape.cases<Conflict['where'], 'kind'>('kind', {
    'empty-cell': { cell: number },
    'digit-twice': { house: number, digit: number },
    'no-place': { house: number, digit: number },
    deep: {},
  }),
  minimal: shape.flag,
  smallest: shape.flag,
  stopped: shape.optional(stopped),
})

export const verdictShape: shape.Shape<Verdict> = shape.cases<Verdict, 'kind'>('kind', {
  unique: { solution: numbers },
  many: {
    examples: shape.tuple<readonly [readonly number[], readonly number[]]>(numbers, numbers),
    openCells: numbers,
    openCellsComplete: shape.flag,
    stopped: shape.optional(stopped),
  },
  none: { conflict },
  undecided: { stopped, found: shape.optional(numbers) },
})

const mistakes = shape.list(
  shape.cases<Mistake, 'kind'>('kind', {
    clash: { house: number, digit: number, cells: numbers, wrong: numbers },
    'not-the-solution': { cell: number, digit: number },
    removed: { cell: number, digit: number },
  }),
)

const judged = {
  wrongDigits: candidates,
  wrongRemovals: candidates,
  mistakes,
  firstWrong: shape.optional(
    shape.object<NonNullable<JudgedProgress['firstWrong']>>({
      index: number,
      entry: shape.object<Claim>({
        kind: shape.name(['placement', 'removal']),
        candidate: candidateShape,
      }),
    }),
  ),
  open: number,
}

export const progressShape: shape.Shape<Progress> = shape.cases<Progress, 'status'>('status', {
  'on-track': judged,
  'off-track': judged,
  'unsound-puzzle': {
    solutions: shape.name(['none', 'many', 'undecided']),
    stopped: shape.optional(stopped),
  },
})

type ReasonInWords = Explanation['reasons'][number]

/** Reasons and facts are told apart by `kind`; new kinds come with new techniques, and programs pass over them. */
const explanation = shape.object<Explanation>({
  title: shape.text,
  level: levelShape,
  sentences: texts,
  reasons: shape.list(
    shape.object<ReasonInWords>({
      effect: shape.name(['placed', 'removed']),
      cell: number,
      digit: number,
      reason: shape.openObject<ReasonInWords['reason']>({ kind: shape.text as shape.Shape<never> }),
      sentence: shape.text,
    }),
  ),
  links: shape.optional(shape.text),
  conclusion: shape.text,
  facts: shape.list(
    shape.openObject<Explanation['facts'][number]>({ kind: shape.text as shape.Shape<never> }),
  ),
})

export const frameShape: shape.Shape<Frame> = shape.object<Frame>({
  sentence: number,
  text: shape.text,
  from: shape.amount(0),
  to: shape.amount(0),
  svg: shape.text,
})

/** Clues, too, are told apart by `kind`, and new ones come with new techniques. */
export const huntShape: shape.Shape<Hunt> = shape.object<Hunt>({
  title: shape.text,
  sentences: texts,
  clues: shape.list(shape.openObject<Hunt['clues'][number]>({ kind: shape.text as shape.Shape<never> })),
  frames: shape.list(frameShape),
})

const look = { kind: shape.only('step'), says: texts, houses: numbers }
const method = {
  ...look,
  technique: techniqueShape,
  level: levelShape,
  isKey: shape.optional(shape.flag),
}
const cells = { ...method, cells: numbers, digits: numbers }

const mistakeHint = {
  kind: shape.only('mistake'),
  says: texts,
  houses: numbers,
  wrongDigits: numbers,
  wrongMarks: numbers,
}

/** Hints that show something on the board, by depth, and the others. */
export const HINT_SHAPES: readonly shape.Shape<Hint>[] = [
  shape.cases<StepHint<HintDepth>, 'depth'>('depth', {
    look,
    method,
    cells,
    argument: { ...cells, step: foundStepShape, explanation },
  }),
  shape.cases<MistakeHint<'look'> | MistakeHint<'argument'>, 'depth'>('depth', {
    look: mistakeHint,
    method: mistakeHint,
    cells: mistakeHint,
    argument: { ...mistakeHint, mistakes },
  }),
  shape.object<{
    kind: 'unsound'
    because: 'many' | 'none' | 'undecided'
    says: readonly string[]
  }>({
    kind: shape.only('unsound'),
    because: shape.name(['many', 'none', 'undecided']),
    says: texts,
  }),
  shape.object<{ kind: 'solved' | 'stuck'; says: readonly string[] }>({
    kind: shape.name(['solved', 'stuck']),
    says: texts,
  }),
]

const routeLine = {
  steps: shape.list(shape.object<PathStep>({ ...STEP_PARTS, before: boardValue, restsOn: numbers })),
  keys: numbers,
  chapters: shape.list(
    shape.object<RouteLine['chapters'][number]>({
      from: number,
      to: number,
      key: shape.optional(number),
    }),
  ),
}
const search = { tried: number, stopped: shape.optional(overTime) }

export const routeShape: shape.Shape<Route> = shape.cases<Route, 'status'>('status', {
  solved: {
    ...search,
    ...routeLine,
    best: shape.name(['proven', 'found']),
    alternatives: shape.list(shape.object<RouteLine>(routeLine)),
  },
  stuck: search,
})
