import type { CountBudget } from '../count/budget.js'
import { checkUniqueness } from '../count/check-uniqueness.js'
import type { Puzzle } from '../grid/puzzle.js'
import type { Choice } from '../logic/choice.js'
import { cutBack } from '../logic/dependencies.js'
import { type SolvePath, solve } from '../logic/solve.js'
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
  source: Puzzle | ReadPuzzle | SolvePath,
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

function sourceOf(source: Puzzle | ReadPuzzle | SolvePath, options: WalkthroughOptions): WalkthroughSource {
  const path = 'steps' in source ? source : undefined
  const puzzle = 'puzzle' in source ? source.puzzle : path ? path.board.puzzle : (source as Puzzle)
  const { steps, status, board } = path ?? solve(puzzle, options)
  const verdict = checkUniqueness(puzzle, options)
  const cut = status === 'solved' && (options.onlyWhatMatters ?? true)
  return {
    puzzle,
    verdict,
    steps: cut ? cutBack(steps) : steps,
    status,
    board,
    ...('cells' in source && {
      reading: {
        settled: source.cells.flatMap(({ decidedBy }, cell) => (decidedBy === 'logic' ? [cell] : [])),
        doubtful: [...source.doubtful].sort((a, b) => a - b),
      },
    }),
  }
}
