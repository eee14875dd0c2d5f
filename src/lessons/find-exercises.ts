import { boolean, callback, checkOptions, count, type OptionChecks } from '../check-arguments.js'
import { isTimeOver, StoppedError } from '../errors.js'
import { type VoiceOptions, voiceChecks, voiceOf } from '../explain/voice.js'
import { ENGLISH } from '../explain/words/english/index.js'
import { effortOf } from '../grade/effort.js'
import type { Board } from '../grid/board.js'
import { boardKeyTask } from '../grid/canonical-board.js'
import { inSlices, LIMIT_CHECKS, type Limits, slicedWatch, type Task, type Watch } from '../limits.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { type Exercise, exerciseOf, type Found } from './exercise.js'
import { KNOWN_CHECKS, type Known, type Lesson, lessonOf } from './known.js'
import { positionsOf, type Wanted } from './positions.js'
import { checkPuzzleSource, type PuzzleSource, type SourcePlace, startsOf, type Unread } from './starts.js'

export interface ExerciseOptions extends Known, VoiceOptions, Limits {
  /** Longest chain, in links: of the answer, of what counts as an instance, and of what is known; 9 when left out. */
  readonly maxLinks?: number
  /** Most instances of the technique on the board, chains of all lengths counted; 3 when left out. */
  readonly instances?: number
  /** Only puzzles that the class can finish with the technique? Yes when left out. */
  readonly needed?: boolean
  /** Only answers after which the class finishes the puzzle without the technique? */
  readonly finishes?: boolean
  /** Stop after so many exercises. */
  readonly count?: number
  /** How many exercises to collect before the first is handed out; see `findExercises`. */
  readonly window?: number
  /** Hears of puzzles of a text that could not be read, which are passed over. */
  readonly onUnread?: (unread: Unread) => void
}

const EXERCISE_CHECKS: OptionChecks<ExerciseOptions> = {
  ...KNOWN_CHECKS,
  ...voiceChecks(ENGLISH),
  ...LIMIT_CHECKS,
  instances: count(1),
  needed: boolean,
  finishes: boolean,
  count: count(0),
  window: count(1),
  onUnread: callback,
}

const USUAL_INSTANCES = 3

/** Five cells of an XY-chain. */
const USUAL_LINKS = 9

/**
 * Exercises for a class that is about to learn a technique, found on the way through any puzzles: boards where nothing
 * that the class knows gives anything, the technique has few instances and no easier one gives the same, and at least
 * one digit falls after it. No two boards are the same under symmetry.
 *
 * ```ts
 * for await (const { board, answer, explanation } of findExercises(createReadStream(file), 'xy-chain', { count: 12 }))
 *   console.log(formatPuzzle(board.puzzle), explanation.sentences)
 * ```
 *
 * They come with rising effort. Since a source can be long or endless, so many exercises are collected as `window`
 * says, and the easiest that is not easier than the last comes out whenever one more is found; at the end of the source
 * the rest come out. What is easier than the last by then begins a new rise. `window` is `count` when left out, so that
 * the first `count` exercises found come out in one rise and no more is read; with a larger one they are the easiest of
 * so many. Without `count` and `window` the whole source is read before the first exercise comes out.
 *
 * @throws InputError `argument`, at once for the arguments and when it comes for what is no puzzle; StoppedError
 *   `aborted`, and `time-limit` after what was found by then has come out
 */
export function findExercises(
  puzzles: PuzzleSource,
  technique: TechniqueName,
  options: ExerciseOptions = {},
): AsyncGenerator<Exercise> {
  checkPuzzleSource(puzzles)
  checkOptions<ExerciseOptions>(options, EXERCISE_CHECKS)
  const lesson = lessonOf(technique, { ...options, maxLinks: options.maxLinks ?? USUAL_LINKS })
  return exercises(puzzles, lesson, options)
}

async function* exercises(
  puzzles: PuzzleSource,
  lesson: Lesson,
  options: ExerciseOptions,
): AsyncGenerator<Exercise> {
  const voice = voiceOf(options, ENGLISH)
  const most = options.count ?? Number.POSITIVE_INFINITY
  const window = options.window ?? most
  const rise = new Rise()
  let handedOut = 0
  let timeIsOver: unknown
  if (most === 0) return
  try {
    for await (const found of allFound(puzzles, lesson, options)) {
      rise.add(found)
      if (rise.size < window) continue
      yield exerciseOf(rise.next(), voice)
      if (++handedOut === most) return
      // what was asked for is there: nothing that is still to be read would come out
      if (options.window === undefined && handedOut + rise.size === most) break
    }
  } catch (error) {
    if (!isTimeOver(error)) throw error
    timeIsOver = error
  }
  for (; rise.size > 0 && handedOut < most; handedOut++) yield exerciseOf(rise.next(), voice)
  if (timeIsOver && handedOut < most) throw timeIsOver
}

/** Exercises waiting for their turn. */
class Rise {
  /** With the least effort first; equal ones in the order in which they were found. */
  private readonly waiting: Found[] = []
  private latest = 0

  get size(): number {
    return this.waiting.length
  }

  add(found: Found): void {
    const at = this.waiting.findIndex(({ effort }) => effort > found.effort)
    this.waiting.splice(at < 0 ? this.size : at, 0, found)
  }

  next(): Found {
    const at = this.waiting.findIndex(({ effort }) => effort >= this.latest)
    const [found] = this.waiting.splice(Math.max(at, 0), 1)
    this.latest = found!.effort
    return found!
  }
}

async function* allFound(
  puzzles: PuzzleSource,
  lesson: Lesson,
  options: ExerciseOptions,
): AsyncGenerator<Found> {
  const watch = slicedWatch(options)
  const wanted: Wanted = {
    instances: options.instances ?? USUAL_INSTANCES,
    needed: options.needed ?? true,
    finishes: options.finishes ?? false,
  }
  const keys = new Set<string>()
  for await (const { start, place } of startsOf(puzzles, options, watch, options.onUnread)) {
    yield* await inSlices(newOnes(start, place, lesson, wanted, keys, watch), watch)
    watch.resume()
  }
}

/** The positions of a puzzle that were not met before, in whatever guise. */
function* newOnes(
  start: Board,
  place: SourcePlace,
  lesson: Lesson,
  wanted: Wanted,
  keys: Set<string>,
  watch: Watch,
): Task<Found[]> {
  const found: Found[] = []
  for (const position of yield* positionsOf(start, lesson, wanted, watch)) {
    const key = yield* keyOf(position.answer.before, watch)
    if (keys.has(key)) continue
    keys.add(key)
    found.push({ ...position, place, effort: effortOf(position.answer) })
  }
  return found
}

/** The canonical key, or what the board shows where it is too symmetric for one. */
function* keyOf(board: Board, watch: Watch): Task<string> {
  try {
    return yield* boardKeyTask(board, {}, watch)
  } catch (error) {
    if (error instanceof StoppedError && error.code === 'budget-spent')
      return `${board.digits.join()};${board.candidates.join()}`
    throw error
  }
}
