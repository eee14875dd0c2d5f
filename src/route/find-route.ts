import { checkOptions, count, type OptionChecks, oneOf } from '../check-arguments.js'
import { isTimeOver } from '../errors.js'
import { openCount } from '../grid/board/ask.js'
import { applyTo } from '../grid/board/edit.js'
import { boardFrom, checkSource } from '../grid/board/make.js'
import type { Board } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { Context } from '../logic/facts/context.js'
import { moveFacts } from '../logic/facts/facts.js'
import { solveTask } from '../logic/solving/solve.js'
import type { PathStep, Step } from '../logic/steps/step.js'
import { irreducible } from './irreducible.js'
import { searchKeys } from './key-search.js'
import { type Chapter, type LaidOut, layOut } from './lay-out.js'
import {
  choiceOf,
  type ResolvedRules,
  ROUTE_AIMS,
  type RouteAim,
  type RouteRules,
  RULE_CHECKS,
  resolveRules,
} from './rules.js'
import { isSingle, restWithin } from './workaday.js'

export interface RouteOptions extends RouteRules, Limits {
  /**
   * - `one-key` (when left out): the easiest single step after which the workaday techniques finish; else as few such
   *   steps as were found.
   * - `fewest-hard`: as few steps beyond the workaday ones as were found, then the fewest steps in all.
   * - `easiest`: no harder technique than is needed, then as `one-key`.
   * - `shortest`: the fewest steps beyond singles.
   */
  readonly aim?: RouteAim
  /** How many other routes with other keys to return as well, where there are so many; none when left out. */
  readonly alternatives?: number
}

/** A line through a puzzle: steps that are all needed, each key right after its set-up. */
export interface RouteLine {
  readonly steps: readonly PathStep[]
  /** Indices of the steps beyond the workaday techniques. */
  readonly keys: readonly number[]
  readonly chapters: readonly Chapter[]
}

/** What a search for a route has looked at. */
export interface RouteSearch {
  /** Steps beyond the workaday ones that were tried. */
  readonly tried: number
  /** Set when the time limit ended the search before it was done. */
  readonly stopped?: 'time-limit'
}

/** A line through a puzzle, or why there is none. */
export type Route =
  | (RouteSearch &
      RouteLine & {
        readonly status: 'solved'
        /** Is it proven that no route has fewer keys, or is this the best of those that were found? */
        readonly best: 'proven' | 'found'
        /** Other routes with the same number of keys. */
        readonly alternatives: readonly RouteLine[]
      })
  /** The techniques that the rules allow do not finish the puzzle, or not within the time limit. */
  | (RouteSearch & { readonly status: 'stuck' })

const ROUTE_CHECKS: OptionChecks<RouteOptions> = {
  ...RULE_CHECKS,
  ...LIMIT_CHECKS,
  aim: oneOf(ROUTE_AIMS),
  alternatives: count(0),
}

/**
 * A route through a puzzle or from a half-solved board: which steps to show, and in which order.
 *
 * ```ts
 * const route = findRoute(puzzle)
 * if (route.status === 'solved') {
 *   const [chapter] = route.chapters
 *   route.steps.slice(chapter.from, chapter.key) // the set-up
 *   route.steps[chapter.key]                     // the step that opens the puzzle
 * }
 * findRoute(puzzle, { show: ['xy-chain'] })      // a route with an XY-chain among its keys
 * ```
 *
 * Every step is proven on its board, and none beyond singles can be spared: leave one out and the rest no longer fills
 * the grid. Before a key stands only what the key rests on; what can wait follows the last key.
 *
 * @throws InputError `argument` for an unknown technique
 */
export function findRoute(source: Puzzle | Board, options: RouteOptions = {}): Route {
  checkSource(source)
  checkOptions<RouteOptions>(options, ROUTE_CHECKS)
  return runNow(options, (watch) => routeTask(source, options, watch))
}

/**
 * The same as a promise: other work runs meanwhile, and `signal` stops it.
 *
 * @example
 * const route = await findRouteAsync(puzzle, { timeLimit: 5000, signal })
 */
export async function findRouteAsync(source: Puzzle | Board, options: RouteOptions = {}): Promise<Route> {
  checkSource(source)
  checkOptions<RouteOptions>(options, ROUTE_CHECKS)
  return runInSlices(options, (watch) => routeTask(source, options, watch))
}

/** Lines with equally easy keys that are set out in full to see which needs the least set-up. */
const COMPARED = 6
const COMPARED_BY_LENGTH = 60

export function* routeTask(source: Puzzle | Board, options: RouteOptions, watch: Watch): Task<Route> {
  try {
    return yield* searchedRoute(source, options, watch)
  } catch (error) {
    if (!isTimeOver(error)) throw error
    return { status: 'stuck', tried: 0, stopped: 'time-limit' }
  }
}

function* searchedRoute(source: Puzzle | Board, options: RouteOptions, watch: Watch): Task<Route> {
  const start = boardFrom(source)
  const aim = options.aim ?? 'one-key'
  const allowed = resolveRules(options)
  const easiest = aim === 'easiest' ? yield* noHarderThanNeeded(start, allowed, watch) : allowed
  if (!easiest) return { status: 'stuck', tried: 0, stopped: 'time-limit' }
  const rules: ResolvedRules = easiest
  const context = new Context()
  const resting = yield* restWithin(watch, start, rules.workaday, context)
  if (openCount(resting.board) === 0 && rules.show.length === 0)
    return {
      status: 'solved',
      ...(yield* lineOf(start, [], rules, watch)),
      best: 'proven',
      alternatives: [],
      tried: 0,
    }
  const byLength = aim === 'shortest' || aim === 'fewest-hard'
  const wanted = (byLength ? COMPARED_BY_LENGTH : 1) + (options.alternatives ?? 0)
  const { lines, best, tried, stopped } = yield* searchKeys(resting.board, context, rules, wanted, watch)
  let isOver = stopped

  const compared = byLength ? COMPARED_BY_LENGTH : COMPARED
  const routes: RouteLine[] = []
  for (const keys of lines.slice(0, Math.max(compared, 1 + (options.alternatives ?? 0)))) {
    if (watch.read() === 'pause') yield
    try {
      const route = yield* lineOf(start, keys, rules, watch)
      if (showsAll(route, rules)) routes.push(route)
    } catch (error) {
      if (!isTimeOver(error) || routes.length === 0) throw error
      isOver = true
      break
    }
  }
  const search: RouteSearch = isOver ? { tried, stopped: 'time-limit' } : { tried }
  const [route, ...others] = inOrder(
    routes,
    byLength ? [keyCount, stepCount] : [keyCount, hardest, keyLength, stepCount],
  )
  if (route)
    return {
      status: 'solved',
      ...route,
      best: aim === 'shortest' ? 'found' : best,
      alternatives: others.slice(0, options.alternatives ?? 0),
      ...search,
    }
  // Rather a route with too many keys than none.
  const path = yield* solveTask(start, choiceOf(rules, [...rules.workaday, ...rules.beyond]), watch)
  if (path.status === 'stopped') return { status: 'stuck', tried, stopped: path.stopped }
  if (path.status !== 'solved') return { status: 'stuck', ...search }
  const fallback = yield* laidOut(start, path.steps, rules, watch)
  return showsAll(fallback, rules)
    ? { status: 'solved', ...fallback, best: 'found', alternatives: [], ...search }
    : { status: 'stuck', ...search }

  function keyCount({ keys }: RouteLine): number {
    return aim === 'shortest' ? 0 : keys.length
  }
  function hardest({ steps, keys }: RouteLine): number {
    return Math.max(-1, ...keys.map((key) => rules.beyond.indexOf(steps[key]!.technique as never)))
  }
}

/** Premises of all keys: long chains and large sets have many. */
function keyLength({ steps, keys }: RouteLine): number {
  return keys.reduce((sum, key) => sum + steps[key]!.premises.length, 0)
}

/** Steps beyond singles. */
function stepCount({ steps }: RouteLine): number {
  return steps.filter((step) => !isSingle(step)).length
}

/** By the first measure, equal ones by the next; those that are equal in all stay as they are. */
function inOrder<Item>(items: readonly Item[], measures: readonly ((item: Item) => number)[]): Item[] {
  const measured = items.map((item) => ({ item, by: measures.map((measure) => measure(item)) }))
  measured.sort((a, b) => {
    const first = a.by.findIndex((value, i) => value !== b.by[i])
    return first < 0 ? 0 : a.by[first]! - b.by[first]!
  })
  return measured.map(({ item }) => item)
}

/**
 * The rules with the hardest techniques left out, as many as the board can do without; undefined when the time is over.
 */
function* noHarderThanNeeded(
  start: Board,
  rules: ResolvedRules,
  watch: Watch,
): Task<ResolvedRules | undefined> {
  let enough = rules.beyond.length
  for (let least = 0; least < enough; ) {
    const middle = (least + enough) >> 1
    const techniques = [...rules.workaday, ...rules.beyond.slice(0, middle)]
    const { status } = yield* solveTask(start, choiceOf(rules, techniques), watch)
    if (status === 'stopped') return undefined
    if (status === 'solved') enough = middle
    else least = middle + 1
  }
  return { ...rules, beyond: rules.beyond.slice(0, Math.max(enough, rules.show.length)) }
}

function showsAll({ steps, keys }: RouteLine, { show }: ResolvedRules): boolean {
  return show.every((name) => keys.some((key) => steps[key]!.technique === name))
}

/** The route of a line of keys: workaday steps before, between and after them, as few as will do. */
function* lineOf(start: Board, keys: readonly Step[], rules: ResolvedRules, watch: Watch): Task<RouteLine> {
  const context = new Context()
  const first = yield* restWithin(watch, start, rules.workaday, context)
  const steps: Step[] = [...first.steps]
  let { board } = first
  for (const key of keys) {
    const opened = applyTo(board, key)
    moveFacts(context, board, opened, key)
    const after = yield* restWithin(watch, opened, rules.workaday, context)
    steps.push(key, ...after.steps)
    board = after.board
  }
  return yield* laidOut(start, steps, rules, watch)
}

function* laidOut(start: Board, steps: readonly Step[], rules: ResolvedRules, watch: Watch): Task<RouteLine> {
  const beyondSingles = (all: readonly Step[]) => all.filter((step) => !isSingle(step))
  let needed: readonly Step[] = yield* irreducible(start, beyondSingles(steps), watch)
  for (;;) {
    const line: LaidOut = yield* layOut(start, needed, rules.isKey, watch)
    // In another order a step may do less than it did, and another then do without it.
    const shown = beyondSingles(line.steps)
    needed = yield* irreducible(start, shown, watch)
    if (needed.length === shown.length)
      return { ...line, keys: line.steps.flatMap((step, index) => (rules.isKey(step) ? [index] : [])) }
  }
}
