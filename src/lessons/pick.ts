import {
  amount,
  argumentError,
  checkOptions,
  count,
  listOf,
  type OptionChecks,
  object,
  oneOf,
} from '../check-arguments.js'
import { checkGrade, type Grade } from '../grade/grade.js'
import { newBoard } from '../grid/board/make.js'
import type { Geometry } from '../grid/geometry.js'
import { savedGeometry } from '../grid/json.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { parsePuzzle } from '../grid/text/parse.js'
import { within } from '../grid/text/within.js'
import { inSlices, LIMIT_CHECKS, type Limits, runNow, slicedWatch, type Task, type Watch } from '../limits.js'
import { checkTechniqueName } from '../logic/catalogue.js'
import { LEVELS, type Level } from '../logic/level.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { KNOWN_CHECKS, type Known, lessonOf } from './known.js'
import { needsTask } from './needs-technique.js'

/**
 * What puzzles are picked from: anything with a grade, such as the records of `gradeFolder`. What has none (a record of
 * an error) is passed over.
 */
export interface GradedRecord {
  readonly grade?: Grade
  /** Asked for by `needs` alone: the puzzle, or its text. */
  readonly puzzle?: Puzzle | string
  /** The rules of a puzzle that is given as text. */
  readonly geometry?: Geometry
}

/** Orders in which `pick` gives records. */
export const PICK_ORDERS = ['rising', 'falling', 'as-given'] as const
/** By rising or falling effort, or as the records come. */
export type PickOrder = (typeof PICK_ORDERS)[number]

/** What a puzzle must be like, all of it together. `known`, `maxLinks` and `oneSolution` belong to `needs`. */
export interface PickQuery extends Known, Limits {
  /** Technique of the hardest step, or several of which it may be any. */
  readonly key?: TechniqueName | readonly TechniqueName[]
  readonly level?: Level | readonly Level[]
  /** Least and most effort, both included. */
  readonly effort?: { readonly from?: number; readonly to?: number }
  /** Techniques of which every one is on the puzzle's path. */
  readonly uses?: readonly TechniqueName[]
  /** Techniques of which none is on the puzzle's path. */
  readonly avoids?: readonly TechniqueName[]
  /** The puzzle cannot be finished without this technique by a class that knows what is `known`, and can with it. */
  readonly needs?: TechniqueName
  /** By effort, or as they come; `rising` when left out. */
  readonly order?: PickOrder
  /** How many at most: the first of the order. All when left out. */
  readonly count?: number
}

const checkLevel = oneOf(LEVELS)
const checkNames = listOf(checkTechniqueName, 'a list of names of techniques')
const checkEffort = amount(0)

const PICK_CHECKS: OptionChecks<PickQuery> = {
  ...KNOWN_CHECKS,
  ...LIMIT_CHECKS,
  key: (value, name) => (typeof value === 'string' ? checkTechniqueName : checkNames)(value, name),
  level: (value, name) => (typeof value === 'string' ? checkLevel : listOf(checkLevel))(value, name),
  effort: (value, name) => {
    object(value, name)
    checkOptions(value as { from?: number; to?: number }, { from: checkEffort, to: checkEffort })
  },
  uses: checkNames,
  avoids: checkNames,
  needs: checkTechniqueName,
  order: oneOf(PICK_ORDERS),
  count: count(0),
}

/** A record of a puzzle that was graded. */
export type Graded<Item> = Item & { readonly grade: Grade }

/**
 * Picks puzzles from graded records; only those whose grade says that they are solved.
 *
 * ```ts
 * pick(records, { key: 'empty-rectangle', count: 4 }) // four of them, with rising effort
 * pick(records, { needs: 'xy-chain', known: 'pattern' }) // which of these need an XY-chain?
 * ```
 *
 * @throws InputError `argument`, also for a record without puzzle where `needs` is asked; StoppedError `time-limit`
 *   when that was over first, `aborted` when the signal has fired
 */
export function pick<Item extends GradedRecord>(
  records: Iterable<Item>,
  query: PickQuery = {},
): Graded<Item>[] {
  checkRecords(records, false)
  checkOptions<PickQuery>(query, PICK_CHECKS)
  return runNow(query, (watch) => pickTask([...records], query, watch))
}

/**
 * The same as a promise, from a stream as well: other work runs meanwhile, and `signal` stops it.
 *
 * @example
 * const four = await pickAsync([{ puzzle, grade: gradePuzzle(puzzle) }], { level: 'pattern', count: 4, signal })
 */
export async function pickAsync<Item extends GradedRecord>(
  records: Iterable<Item> | AsyncIterable<Item>,
  query: PickQuery = {},
): Promise<Graded<Item>[]> {
  checkRecords(records, true)
  checkOptions<PickQuery>(query, PICK_CHECKS)
  const watch = slicedWatch(query)
  const all: Item[] = []
  for await (const record of within(records, query, watch)) all.push(record)
  return inSlices(pickTask(all, query, watch), watch)
}

function checkRecords(records: unknown, mayStream: boolean): void {
  const { [Symbol.iterator]: plain, [Symbol.asyncIterator]: async } = Object(records)
  if (
    typeof records === 'string' ||
    (typeof plain !== 'function' && !(mayStream && typeof async === 'function'))
  )
    throw argumentError('records', mayStream ? 'records in a list or a stream' : 'a list of records', records)
}

function* pickTask<Item extends GradedRecord>(
  records: readonly Item[],
  query: PickQuery,
  watch: Watch,
): Task<Graded<Item>[]> {
  const fitting: { record: Graded<Item>; index: number }[] = []
  records.forEach((record, index) => {
    object(record, `records[${index}]`)
    if (record.grade === undefined) return
    checkGrade(record.grade, `records[${index}].grade`)
    if (fits(record.grade, query)) fitting.push({ record: record as Graded<Item>, index })
  })
  const { order = 'rising', count: most = Number.POSITIVE_INFINITY } = query
  const sign = { rising: 1, falling: -1, 'as-given': 0 }[order]
  fitting.sort((a, b) => sign * (a.record.grade.effort - b.record.grade.effort) || a.index - b.index)
  if (query.needs === undefined) return fitting.slice(0, most).map(({ record }) => record)
  const lesson = lessonOf(query.needs, query)
  const picked: Graded<Item>[] = []
  for (const { record, index } of fitting) {
    if (picked.length >= most) break
    if (watch.isDue()) yield
    const start = newBoard(puzzleOf(record, `records[${index}]`))
    if (yield* needsTask(start, lesson, watch)) picked.push(record)
  }
  return picked
}

function fits(grade: Grade, { key, level, effort, uses = [], avoids = [] }: PickQuery): boolean {
  return (
    grade.status === 'solved' &&
    (key === undefined || listed(key).includes(keyOf(grade)!)) &&
    (level === undefined || listed(level).includes(grade.level!)) &&
    grade.effort >= (effort?.from ?? 0) &&
    grade.effort <= (effort?.to ?? Number.POSITIVE_INFINITY) &&
    uses.every((name) => grade.techniques[name] !== undefined) &&
    avoids.every((name) => grade.techniques[name] === undefined)
  )
}

function keyOf({ bottleneck }: Grade): TechniqueName | undefined {
  return bottleneck?.technique
}

function listed<Name>(names: Name | readonly Name[]): readonly Name[] {
  return Array.isArray(names) ? names : [names as Name]
}

function puzzleOf({ puzzle, geometry }: GradedRecord, name: string): Puzzle {
  if (typeof puzzle === 'string')
    return parsePuzzle(puzzle, geometry ? { geometry: savedGeometry(geometry) } : {})
  checkPuzzle(puzzle, `${name}.puzzle`)
  return puzzle
}
