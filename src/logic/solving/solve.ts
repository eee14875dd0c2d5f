import { checkOptions, type OptionChecks } from '../../check-arguments.js'
import { soundnessInTime } from '../../count/soundness.js'
import { isTimeOver } from '../../errors.js'
import { type BoardContradiction, contradictionOf, openCount } from '../../grid/board/ask.js'
import { applyTo } from '../../grid/board/edit.js'
import { boardFrom } from '../../grid/board/make.js'
import type { Board } from '../../grid/board.js'
import { type Puzzle, uncheckedPuzzle } from '../../grid/puzzle.js'
import {
  LIMIT_CHECKS,
  type Limits,
  runInSlices,
  runNow,
  type StoppedBy,
  type Task,
  type Watch,
} from '../../limits.js'
import { isWithinLength } from '../chains/chain-length.js'
import { Context } from '../facts/context.js'
import { type Facts, factsOf, moveFacts } from '../facts/facts.js'
import type { PathStep, Step } from '../steps/step.js'
import type { FindOptions, Technique } from '../technique.js'
import { CHOICE_CHECKS, type Choice, OneSolution, optionsFor, techniquesOf } from './choice.js'
import { Dependencies } from './dependencies.js'

export interface SolveOptions extends Choice, Limits {}

/** Where logic got to. */
export type SolvePath = {
  readonly steps: readonly PathStep[]
  /** The board after the last step. */
  readonly board: Board
} & (
  | { readonly status: 'solved' }
  | {
      /** No chosen technique finds a step. */
      readonly status: 'stuck'
      /**
       * The puzzle has several solutions, so no logic will ever finish it; or its one solution lies beyond the choice.
       */
      readonly because: 'many-solutions' | 'no-step-found' | 'undecided'
    }
  | {
      /** The board cannot be finished: it broke on the way, or counting finds no solution. */
      readonly status: 'invalid'
      readonly because: BoardContradiction | { readonly kind: 'no-solution' }
    }
  | {
      /** There was no time for more: the steps are good, and whether others follow is not known. */
      readonly status: 'stopped'
      readonly stopped: StoppedBy
    }
)

export const SOLVE_CHECKS: OptionChecks<SolveOptions> = { ...CHOICE_CHECKS, ...LIMIT_CHECKS }

/**
 * Solves as a person would: the easiest step that the choice allows, again and again. Every step comes with the board
 * it was found on and the earlier steps it rests on, and passes `verifyStep`.
 *
 * ```ts
 * const path = solve(puzzle, { preset: 'pattern' })
 * path.status // 'solved' | 'stuck' | 'invalid' | 'stopped'
 * ```
 *
 * @throws StoppedError `aborted` when the signal has fired; InputError `argument` for an unknown technique or preset
 */
export function solve(source: Puzzle | Board, options: SolveOptions = {}): SolvePath {
  checkOptions<SolveOptions>(options, SOLVE_CHECKS)
  return runNow(options, (watch) => solveTask(source, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const path = await solveAsync(puzzle, { timeLimit: 2000, signal })
 */
export async function solveAsync(source: Puzzle | Board, options: SolveOptions = {}): Promise<SolvePath> {
  checkOptions<SolveOptions>(options, SOLVE_CHECKS)
  return runInSlices(options, (watch) => solveTask(source, options, watch))
}

export function* solveTask(
  source: Puzzle | Board,
  choice: Choice,
  watch: Watch,
  context = new Context(),
): Task<SolvePath> {
  const path: Line = { steps: [], board: boardFrom(source) }
  try {
    yield* restTask(path, choice, watch, context)
    if (openCount(path.board) === 0 && !contradictionOf(path.board)) return { status: 'solved', ...path }
    const broken = contradictionOf(path.board)
    if (broken) return { status: 'invalid', because: broken, ...path }
    return { ...(yield* whyStuck(path.board, watch)), ...path }
  } catch (error) {
    if (!isTimeOver(error)) throw error
    return { status: 'stopped', stopped: 'time-limit', ...path }
  }
}

/** Steps so far, and the board they lead to. */
interface Line {
  steps: PathStep[]
  board: Board
}

/**
 * Takes the easiest step again and again until none is found; a board that shows a contradiction ends it as well.
 * Unlike `solve` it does not ask why no step was left.
 *
 * @throws StoppedError `time-limit`
 */
export function* runToRestTask(
  start: Board,
  choice: Choice,
  watch: Watch,
  context = new Context(),
): Task<Readonly<Line>> {
  const path: Line = { steps: [], board: start }
  yield* restTask(path, choice, watch, context)
  return path
}

/** Goes on with the path it is given, which is as far as it got whatever ends it. */
function* restTask(path: Line, choice: Choice, watch: Watch, context: Context): Task<void> {
  const start = path.board
  if (contradictionOf(start)) return
  const finder = new EasiestStep(start, choice)
  const dependencies = new Dependencies(start)
  // On a finished board no technique would find anything.
  for (let open = openCount(start); open > 0; ) {
    const { board, steps } = path
    const facts = factsOf(context, board)
    if (facts.broken) return
    const step = yield* finder.next(facts, watch)
    if (!step) return
    const after = applyTo(board, step)
    moveFacts(context, board, after, step)
    steps.push(pathStep(step, board, dependencies.of(step.premises)))
    dependencies.record(steps.length - 1, step, board, after)
    open -= step.placements.length
    path.board = after
  }
}

/** Spelled out, as spreading an object costs more than finding a single. */
function pathStep(step: Step, before: Board, restsOn: readonly number[]): PathStep {
  const { technique, level, placements, removals, premises, pattern, assumes } = step
  const plain = { technique, level, placements, removals, premises, pattern, before, restsOn }
  return assumes ? { ...plain, assumes } : plain
}

/** Tries techniques in order on one board after another; what a choice means is worked out once. */
class EasiestStep {
  private readonly techniques: readonly Technique[]
  /** The options of each technique, once asked for; null where the choice keeps it out. */
  private readonly options: (FindOptions | null | undefined)[] = []
  private readonly choice: Choice
  private readonly oneSolution: OneSolution
  private found: Step | undefined
  private readonly take = (step: Step): boolean => {
    if (!isWithinLength(step, this.choice.maxLinks)) return false
    this.found = step
    return true
  }

  constructor(start: Board, choice: Choice) {
    this.choice = choice
    this.techniques = techniquesOf(choice)
    this.oneSolution = new OneSolution(start, choice)
    for (let i = 0; i < this.techniques.length; i++) this.options.push(undefined)
  }

  *next(facts: Facts, watch: Watch): Task<Step | undefined> {
    this.found = undefined
    for (let i = 0; ; i++) {
      i = this.tryQuick(facts, i, watch)
      const technique = this.techniques[i]
      if (this.found || !technique) return this.found
      if (watch.isDue()) yield
      if (technique.assumes) yield* this.oneSolution.settle(watch)
      const options = this.optionsOf(i)
      if (!options) continue
      const { search } = technique
      if (search) yield* search(facts, this.take, options, watch)
      else technique.find(facts, this.take, options)
      if (this.found) return this.found
    }
  }

  /** From this technique on, as far as one after another can be tried without a pause: where it got to. */
  private tryQuick(facts: Facts, from: number, watch: Watch): number {
    for (let i = from; i < this.techniques.length; i++) {
      const technique = this.techniques[i]!
      if (technique.search || (technique.assumes && !this.oneSolution.isSettled)) return i
      if (watch.isTimed && watch.look() !== 'go') return i
      const options = this.optionsOf(i)
      if (options === null) continue
      technique.find(facts, this.take, options)
      if (this.found) return i
    }
    return this.techniques.length
  }

  private optionsOf(place: number): FindOptions | null {
    let options = this.options[place]
    if (options === undefined) {
      options = optionsFor(this.techniques[place]!, this.choice, this.oneSolution) ?? null
      this.options[place] = options
    }
    return options
  }
}

type NotSolved =
  | { status: 'stuck'; because: 'many-solutions' | 'no-step-found' | 'undecided' }
  | { status: 'invalid'; because: { kind: 'no-solution' } }

/** Counted on the digits that stand: what logic placed is part of every solution. */
function* whyStuck(board: Board, watch: Watch): Task<NotSolved> {
  const { geometry, digits } = board
  const { verdict } = yield* soundnessInTime(uncheckedPuzzle(digits, geometry), watch)
  if (verdict === 'many') return { status: 'stuck', because: 'many-solutions' }
  if (verdict === 'undecided') return { status: 'stuck', because: 'undecided' }
  if (verdict === 'none') return { status: 'invalid', because: { kind: 'no-solution' } }
  return { status: 'stuck', because: 'no-step-found' }
}
