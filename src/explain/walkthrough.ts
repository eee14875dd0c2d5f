import type { CountBudget } from '../count/budget.js'
import { checkUniqueness } from '../count/check-uniqueness.js'
import { Board } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { type Choice, techniquesOf } from '../logic/choice.js'
import { cutBack } from '../logic/dependencies.js'
import { type SolvePath, solve } from '../logic/solve.js'
import { findRoute, type Route, type RouteLine } from '../route/find-route.js'
import { WORKADAY_TECHNIQUES } from '../route/workaday.js'
import { type VoiceOptions, voiceOf } from './voice.js'
import { compose, type WalkthroughSource } from './walkthrough/compose.js'
import { renderHtml } from './walkthrough/html.js'
import { renderMarkdown } from './walkthrough/markdown.js'

export const WALKTHROUGH_FORMATS = ['html', 'markdown'] as const
export type WalkthroughFormat = (typeof WALKTHROUGH_FORMATS)[number]

/** What a walkthrough takes from a reading of a picture; every `Reading` of the photo entry is one. */
export interface ReadPuzzle {
  readonly puzzle: Puzzle
  readonly cells: readonly { readonly decidedBy: string }[]
  readonly doubtful: readonly number[]
}

export interface WalkthroughOptions extends Choice, CountBudget, VoiceOptions {
  /** `html` when left out. */
  readonly format?: WalkthroughFormat
  readonly title?: string
  /** Leave out removals that no placement rests on. Yes when left out, for a solved path. */
  readonly onlyWhatMatters?: boolean
}

/**
 * One document that takes a reader from the printed puzzle to its solution: the puzzle and its rule, whether it is sound, the step
 * that cracks it and what that step rests on, then every step with its reasons and picture, singles gathered in runs.
 * HTML comes as one self-contained page that prints well; Markdown draws its boards in characters.
 *
 * Give it a path to show that path, or a puzzle or a reading to have it solved first with the techniques chosen.
 *
 * @throws RangeError for an unknown format, technique or preset
 */
export function walkthrough(
  source: Puzzle | ReadPuzzle | SolvePath | RouteLine,
  options: WalkthroughOptions = {},
): string {
  const format = options.format ?? 'html'
  if (!WALKTHROUGH_FORMATS.includes(format))
    throw new RangeError(`There is no format "${format}"; choose one of ${WALKTHROUGH_FORMATS.join(', ')}.`)
  const voice = voiceOf(options)
  const title = options.title ?? voice.wording.walkthrough.title
  const blocks = compose(sourceOf(source, options), title, voice)
  const document = { title, language: voice.wording.language, blocks }
  return format === 'html' ? renderHtml(document, voice) : renderMarkdown(document, voice.digits)
}

function sourceOf(
  source: Puzzle | ReadPuzzle | SolvePath | RouteLine,
  options: WalkthroughOptions,
): WalkthroughSource {
  const line = lineOf(source, options)
  const { puzzle } = line
  return {
    ...line,
    verdict: checkUniqueness(puzzle, options),
    ...('cells' in source && {
      reading: {
        settled: source.cells.flatMap(({ decidedBy }, cell) => (decidedBy === 'logic' ? [cell] : [])),
        doubtful: [...source.doubtful].sort((a, b) => a - b),
      },
    }),
  }
}

type Line = Pick<WalkthroughSource, 'puzzle' | 'steps' | 'status' | 'board' | 'keys'>

function lineOf(source: Puzzle | ReadPuzzle | SolvePath | RouteLine, options: WalkthroughOptions): Line {
  if ('chapters' in source) return lineOfRoute(source, source.steps[0]!.before)
  if ('steps' in source) return lineOfPath(source, options)
  const puzzle = 'puzzle' in source ? source.puzzle : source
  const start = Board.fromPuzzle(puzzle)
  const route = chosenRoute(start, options)
  return route?.status === 'solved' && route.steps.length > 0
    ? lineOfRoute(route, start)
    : lineOfPath(solve(start, options), options)
}

function lineOfRoute({ steps, keys }: RouteLine, start: Board): Line {
  const last = steps.at(-1)!
  return { puzzle: start.puzzle, steps, keys, status: 'solved', board: last.before.apply(last) }
}

function lineOfPath(path: SolvePath, options: WalkthroughOptions): Line {
  const { steps, status, board } = path
  const cut = status === 'solved' && (options.onlyWhatMatters ?? true)
  return { puzzle: board.puzzle, steps: cut ? cutBack(steps) : steps, keys: [], status, board }
}

/** A route by what is allowed; undefined where everything that a path does is wanted. */
function chosenRoute(start: Board, options: WalkthroughOptions): Route | undefined {
  if (options.onlyWhatMatters === false) return undefined
  const allowed = techniquesOf(options).map(({ name }) => name)
  const everyday: ReadonlySet<string> = new Set(WORKADAY_TECHNIQUES)
  return findRoute(start, {
    workaday: allowed.filter((name) => everyday.has(name)),
    techniques: allowed.filter((name) => !everyday.has(name)),
    ...(options.maxLinks !== undefined && { maxLinks: options.maxLinks }),
    ...(options.oneSolution !== undefined && { oneSolution: options.oneSolution }),
  })
}
