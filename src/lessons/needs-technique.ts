import { checkOptions, type OptionChecks } from '../check-arguments.js'
import { contradictionOf, openCount } from '../grid/board/ask.js'
import { boardFrom } from '../grid/board/make.js'
import type { Board } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { runToRestTask } from '../logic/solving/solve.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { choiceFor, KNOWN_CHECKS, type Known, type Lesson, lessonOf } from './known.js'

export interface NeedsOptions extends Known, Limits {}

export const NEEDS_CHECKS: OptionChecks<NeedsOptions> = { ...KNOWN_CHECKS, ...LIMIT_CHECKS }

/**
 * Is this a puzzle for a class that is about to learn the technique? It is when the class can finish it with what it
 * knows and the technique, and cannot without. Each time the first technique that finds something is taken, as by
 * `solve`.
 *
 * ```ts
 * puzzles.filter((puzzle) => needsTechnique(puzzle, 'xy-chain', { known: 'pattern' }))
 * ```
 *
 * @throws StoppedError `time-limit` when that was over first, `aborted` when the signal has fired; InputError
 *   `argument` for an unknown technique
 */
export function needsTechnique(
  source: Puzzle | Board,
  technique: TechniqueName,
  options: NeedsOptions = {},
): boolean {
  const board = boardFrom(source)
  checkOptions<NeedsOptions>(options, NEEDS_CHECKS)
  const lesson = lessonOf(technique, options)
  return runNow(options, (watch) => needsTask(board, lesson, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const isNeeded = await needsTechniqueAsync(puzzle, 'xy-wing', { signal })
 */
export async function needsTechniqueAsync(
  source: Puzzle | Board,
  technique: TechniqueName,
  options: NeedsOptions = {},
): Promise<boolean> {
  const board = boardFrom(source)
  checkOptions<NeedsOptions>(options, NEEDS_CHECKS)
  const lesson = lessonOf(technique, options)
  return runInSlices(options, (watch) => needsTask(board, lesson, watch))
}

export function* needsTask(start: Board, lesson: Lesson, watch: Watch): Task<boolean> {
  const { known, technique } = lesson
  const without = yield* runToRestTask(start, choiceFor(lesson, known), watch)
  if (openCount(without.board) === 0) return false
  const path = yield* runToRestTask(without.board, choiceFor(lesson, [...known, technique]), watch)
  return isFinished(path.board)
}

/** Does every cell hold a digit, without a clash? */
export function isFinished(board: Board): boolean {
  return openCount(board) === 0 && contradictionOf(board) === undefined
}
