import { boolean, checkOptions, count, type OptionChecks } from '../../check-arguments.js'
import { contradictionOf } from '../../grid/board/ask.js'
import { type Board, checkBoard } from '../../grid/board.js'
import {
  LIMIT_CHECKS,
  type Limits,
  nowRunner,
  runInSlices,
  runNow,
  slicesRunner,
  type Task,
  type Watch,
} from '../../limits.js'
import { isWithinLength } from '../chains/chain-length.js'
import { Context } from '../facts/context.js'
import { factsOf } from '../facts/facts.js'
import type { Level } from '../level.js'
import { identityOf, withoutPartial } from '../steps/identity.js'
import type { FoundStep, Step } from '../steps/step.js'
import type { FindOptions, Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'
import { CHOICE_CHECKS, type Choice, OneSolution, optionsFor, techniquesOf } from './choice.js'

export interface FindStepsOptions extends Choice, Limits {
  /**
   * Techniques up to and including this level; `chain` when left out. Case analysis (`branch`) is for those who ask for
   * it.
   */
  readonly preset?: Level
  /** Techniques that are left out, whatever the preset or the list says. */
  readonly avoid?: readonly TechniqueName[]
  /** Stop after this many steps. */
  readonly limit?: number
  /**
   * Also longer chains whose conclusion a shorter one reaches, up to 7 links unless `maxLinks` says otherwise: plain
   * chains, chains of sets and remote pairs. Chains with fins and continuous loops are given by their shortest in any
   * case, and the other patterns have one length.
   */
  readonly allLengths?: boolean
}

const NEXT_CHECKS: OptionChecks<Choice & Limits> = { ...CHOICE_CHECKS, ...LIMIT_CHECKS }
const FIND_CHECKS: OptionChecks<FindStepsOptions> = {
  ...NEXT_CHECKS,
  avoid: CHOICE_CHECKS.techniques,
  limit: count(0),
  allLengths: boolean,
}

/**
 * Every instance of every chosen technique on this board, easiest technique first, each once. What concludes from the
 * same premises only a part of what another instance of its technique does is left out. On a board that shows a
 * contradiction nothing is found: whatever is said follows from that.
 *
 * ```ts
 * findSteps(board)                               // all patterns and chains
 * findSteps(board, { preset: 'branch' })         // case analysis, too
 * findSteps(board, { techniques: ['x-wing'] })   // all X-wings
 * findSteps(board, { preset: 'mark', limit: 1 }) // the next easy step
 * ```
 *
 * @throws InputError `argument` for an unknown technique or preset, or a number that makes no sense; StoppedError
 *   `time-limit` when that was over first, `aborted` when the signal has fired
 */
export function findSteps(board: Board, options: FindStepsOptions = {}): FoundStep[] {
  const choice = checked(board, options)
  return runNow(options, (watch) => findTask(board, choice, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const steps = await findStepsAsync(board, { preset: 'mark', signal })
 */
export async function findStepsAsync(board: Board, options: FindStepsOptions = {}): Promise<FoundStep[]> {
  const choice = checked(board, options)
  return runInSlices(options, (watch) => findTask(board, choice, watch))
}

/**
 * The steps of `findSteps`, in the same order, as they are found: what comes after the last step that is asked for is
 * not looked for. The instances of one technique come together, since one may turn out to be a part of another. The
 * time limit counts from the first step asked for.
 *
 * ```ts
 * for (const step of stepsOf(board)) if (step.technique === 'xy-wing') break
 * ```
 *
 * @throws InputError `argument` at once; StoppedError `time-limit` or `aborted` between two steps
 */
export function stepsOf(board: Board, options: FindStepsOptions = {}): Generator<FoundStep, void, undefined> {
  const choice = checked(board, options)
  return handOut(board, choice, options)
}

/**
 * The same as a stream: other work of the program goes on between steps and while they are looked for.
 *
 * @example
 * for await (const step of stepsOfAsync(board, { signal })) if (step.technique === 'xy-wing') break
 */
export function stepsOfAsync(
  board: Board,
  options: FindStepsOptions = {},
): AsyncGenerator<FoundStep, void, undefined> {
  const choice = checked(board, options)
  return handOutInSlices(board, choice, options)
}

function* handOut(board: Board, choice: FindChoice, limits: Limits): Generator<FoundStep, void, undefined> {
  const run = nowRunner(limits)
  const search = new StepSearch(board, choice, new Context())
  while (!search.isDone) yield* run((watch) => search.nextTechnique(watch))
}

async function* handOutInSlices(
  board: Board,
  choice: FindChoice,
  limits: Limits,
): AsyncGenerator<FoundStep, void, undefined> {
  const run = slicesRunner(limits)
  const search = new StepSearch(board, choice, new Context())
  while (!search.isDone) yield* await run((watch) => search.nextTechnique(watch))
}

type FindChoice = Omit<FindStepsOptions, keyof Limits> & Pick<FindOptions, 'everyRemoval'>

function checked(board: Board, options: FindStepsOptions): FindChoice {
  checkBoard(board)
  checkOptions<FindStepsOptions>(options, FIND_CHECKS)
  return options.techniques || options.preset ? options : { ...options, preset: 'chain' }
}

/** All steps of a choice; left out, `preset` is every technique. */
export function* findTask(
  board: Board,
  choice: FindChoice,
  watch: Watch,
  context = new Context(),
): Task<FoundStep[]> {
  const search = new StepSearch(board, choice, context)
  const found: FoundStep[] = []
  while (!search.isDone) {
    const steps = yield* search.nextTechnique(watch)
    for (let i = 0; i < steps.length; i++) found.push(steps[i]!)
  }
  return found
}

/** Finds the steps of a choice, technique by technique. */
class StepSearch {
  private readonly board: Board
  private readonly choice: FindChoice
  private readonly context: Context
  private readonly techniques: readonly Technique[]
  private readonly oneSolution: OneSolution
  /** How many steps there may still be. */
  private left: number
  private next = 0

  constructor(board: Board, choice: FindChoice, context: Context) {
    const avoid: readonly string[] = choice.avoid ?? []
    const techniques = techniquesOf(choice)
    this.board = board
    this.choice = choice
    this.context = context
    this.techniques = avoid.length > 0 ? techniques.filter(({ name }) => !avoid.includes(name)) : techniques
    this.oneSolution = new OneSolution(board, choice)
    this.left = choice.limit ?? Number.POSITIVE_INFINITY
    if (this.left <= 0 || contradictionOf(board)) this.next = this.techniques.length
  }

  get isDone(): boolean {
    return this.next === this.techniques.length
  }

  *nextTechnique(watch: Watch): Task<FoundStep[]> {
    const { board, choice, context, oneSolution, left } = this
    const technique = this.techniques[this.next++]!
    if (watch.isDue()) yield
    if (technique.assumes) yield* oneSolution.settle(watch)
    const findOptions = optionsFor(technique, choice, oneSolution)
    if (!findOptions) return []
    const seen = new Set<string>()
    const instances: FoundStep[] = []
    const take = (step: Step): boolean => {
      if (!isWithinLength(step, choice.maxLinks)) return false
      const key = identityOf(step)
      if (seen.has(key)) return false
      seen.add(key)
      instances.push({ ...step, before: board })
      return instances.length >= left
    }
    const { search } = technique
    const { allLengths = false, everyRemoval = false } = choice
    const own = allLengths || everyRemoval ? { ...findOptions, allLengths, everyRemoval } : findOptions
    const facts = factsOf(context, board)
    if (search) yield* search(facts, take, own, watch)
    else technique.find(facts, take, own)
    if (instances.length >= left) this.next = this.techniques.length
    this.left -= instances.length
    return withoutPartial(instances)
  }
}

/**
 * The easiest step that the choice allows on this board, or undefined when there is none: the step that `solve` would
 * take, so without `preset` every technique is tried.
 *
 * @throws as `findSteps` does
 *
 * @example
 * nextStep(board)?.technique // → 'hidden-single'
 */
export function nextStep(board: Board, choice: Choice & Limits = {}): FoundStep | undefined {
  checkBoard(board)
  checkOptions<Choice & Limits>(choice, NEXT_CHECKS)
  return runNow(choice, (watch) => findTask(board, { ...choice, limit: 1 }, watch))[0]
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const step = await nextStepAsync(board, { signal })
 */
export async function nextStepAsync(
  board: Board,
  choice: Choice & Limits = {},
): Promise<FoundStep | undefined> {
  checkBoard(board)
  checkOptions<Choice & Limits>(choice, NEXT_CHECKS)
  const [step] = await runInSlices(choice, (watch) => findTask(board, { ...choice, limit: 1 }, watch))
  return step
}
