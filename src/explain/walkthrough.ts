import { boolean, checkOptions, type OptionChecks, object, oneOf, string } from '../check-arguments.js'
import { COUNT_CHECKS, type CountBudget } from '../count/budget.js'
import { verdictTask } from '../count/check-uniqueness.js'
import { puzzleOf } from '../grid/board/ask.js'
import { applyTo } from '../grid/board/edit.js'
import { newBoard } from '../grid/board/make.js'
import type { Board } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { CHOICE_CHECKS, type Choice } from '../logic/solving/choice.js'
import { cutBack } from '../logic/solving/dependencies.js'
import { type SolvePath, solveTask } from '../logic/solving/solve.js'
import { type Route, type RouteLine, routeTask } from '../route/find-route.js'
import { chaptersOf } from '../route/lay-out.js'
import { resolveRules, rulesFor } from '../route/rules.js'
import { type VoiceOptions, voiceChecks, voiceOf } from './voice.js'
import { compose } from './walkthrough/compose.js'
import { renderHtml } from './walkthrough/html.js'
import { renderMarkdown } from './walkthrough/markdown.js'
import { speakingNotes } from './walkthrough/notes.js'
import type { Story } from './walkthrough/story.js'
import { ENGLISH } from './words/english/index.js'

/** Formats in which a walkthrough is written. */
export const WALKTHROUGH_FORMATS = ['html', 'markdown'] as const
/** What a walkthrough is written in. */
export type WalkthroughFormat = (typeof WALKTHROUGH_FORMATS)[number]

/** Versions of a walkthrough: short, full, or notes to speak from. */
export const WALKTHROUGH_VERSIONS = ['short', 'full', 'notes'] as const
/** How much a walkthrough says. */
export type WalkthroughVersion = (typeof WALKTHROUGH_VERSIONS)[number]

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
  /**
   * - `short` (when left out): what is needed to follow the story; the steps after the last key without pictures.
   * - `full`: every step with its picture, its reasons one by one, and a table of techniques.
   * - `notes`: for a speaker, numbered cues with what to show and what to say; cells are spoken unless `cells` says
   *   otherwise.
   */
  readonly version?: WalkthroughVersion
  /** Leave out removals that no placement rests on. Yes when left out, for a solved path. */
  readonly onlyWhatMatters?: boolean
}

const WALKTHROUGH_CHECKS: OptionChecks<WalkthroughOptions> = {
  ...CHOICE_CHECKS,
  ...COUNT_CHECKS,
  ...voiceChecks(ENGLISH),
  format: oneOf(WALKTHROUGH_FORMATS),
  title: string,
  version: oneOf(WALKTHROUGH_VERSIONS),
  onlyWhatMatters: boolean,
}

/**
 * One document that takes a reader from the printed puzzle to its solution, in acts: the puzzle, its rule and the
 * verdict; the set-up, pencil marks filled in where they are first needed; the key, with its picture; again a chapter
 * where there is another key; and the steps that follow. HTML comes as one self-contained page that prints well;
 * Markdown draws its boards in characters.
 *
 * Give it a route or a path to show that one, or a puzzle or a reading to have a route chosen first among the
 * techniques allowed.
 *
 * @throws InputError `argument` for an unknown format, technique or preset; StoppedError `time-limit` when that was
 *   over first, `aborted` when the signal has fired
 *
 * @example
 * const page = walkthrough(puzzle, { title: 'Puzzle of the week' }) // HTML to print
 * walkthrough(puzzle, { format: 'markdown', version: 'notes' }) // to speak from
 */
export function walkthrough(
  source: Puzzle | ReadPuzzle | SolvePath | RouteLine,
  options: WalkthroughOptions = {},
): string {
  object(source, 'source')
  checkOptions<WalkthroughOptions>(options, WALKTHROUGH_CHECKS)
  return runNow(options, (watch) => walkthroughTask(source, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const page = await walkthroughAsync(puzzle, { signal })
 */
export async function walkthroughAsync(
  source: Puzzle | ReadPuzzle | SolvePath | RouteLine,
  options: WalkthroughOptions = {},
): Promise<string> {
  object(source, 'source')
  checkOptions<WalkthroughOptions>(options, WALKTHROUGH_CHECKS)
  return runInSlices(options, (watch) => walkthroughTask(source, options, watch))
}

function* walkthroughTask(
  source: Puzzle | ReadPuzzle | SolvePath | RouteLine,
  options: WalkthroughOptions,
  watch: Watch,
): Task<string> {
  const format = options.format ?? 'html'
  const version = options.version ?? 'short'
  const voice = voiceOf(version === 'notes' ? { cells: 'spoken', ...options } : options, ENGLISH)
  const title = options.title ?? voice.wording.walkthrough.title
  const story = yield* storyOf(source, options, watch)
  const blocks =
    version === 'notes' ? speakingNotes(story, title, voice) : compose(story, title, voice, version)
  const document = { title, language: voice.wording.language, blocks }
  return format === 'html' ? renderHtml(document, voice) : renderMarkdown(document, voice)
}

function* storyOf(
  source: Puzzle | ReadPuzzle | SolvePath | RouteLine,
  options: WalkthroughOptions,
  watch: Watch,
): Task<Story> {
  const line = yield* lineOf(source, options, watch)
  const verdict = yield* verdictTask(line.puzzle, options, watch)
  if (verdict.kind === 'undecided' && verdict.stopped === 'time-limit') throw watch.timeIsOver()
  return {
    ...line,
    verdict,
    ...('cells' in source && {
      reading: {
        settled: source.cells.flatMap(({ decidedBy }, cell) => (decidedBy === 'logic' ? [cell] : [])),
        doubtful: [...source.doubtful].sort((a, b) => a - b),
      },
    }),
  }
}

type Line = Omit<Story, 'verdict' | 'reading'>

function* lineOf(
  source: Puzzle | ReadPuzzle | SolvePath | RouteLine,
  options: WalkthroughOptions,
  watch: Watch,
): Task<Line> {
  if ('chapters' in source) return lineOfRoute(source, source.steps[0]!.before)
  if ('steps' in source) return lineOfPath(source, options)
  const puzzle = 'puzzle' in source ? source.puzzle : source
  const start = newBoard(puzzle)
  const route = yield* chosenRoute(start, options, watch)
  if (route?.stopped) throw watch.timeIsOver()
  if (route?.status === 'solved' && route.steps.length > 0) return lineOfRoute(route, start)
  const path = yield* solveTask(start, options, watch)
  if (path.status === 'stopped') throw watch.timeIsOver()
  return lineOfPath(path, options)
}

function lineOfRoute({ steps, chapters }: RouteLine, start: Board): Line {
  const last = steps.at(-1)!
  return {
    puzzle: puzzleOf(start),
    start,
    steps,
    chapters,
    isChosen: true,
    status: 'solved',
    board: applyTo(last.before, last),
  }
}

function lineOfPath(path: SolvePath, options: WalkthroughOptions): Line {
  const { steps, status, board } = path
  const shown = status === 'solved' && (options.onlyWhatMatters ?? true) ? cutBack(steps) : steps
  const chapters = chaptersOf(shown, resolveRules({}).isKey)
  return {
    puzzle: puzzleOf(board),
    start: path.steps[0]?.before ?? board,
    steps: shown,
    chapters,
    isChosen: false,
    status,
    board,
  }
}

/** A route by what is allowed; undefined where everything that a path does is wanted. */
function* chosenRoute(start: Board, options: WalkthroughOptions, watch: Watch): Task<Route | undefined> {
  if (options.onlyWhatMatters === false) return undefined
  return yield* routeTask(start, rulesFor(options), watch)
}
