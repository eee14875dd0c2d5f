import { boolean, checkOptions, count, type OptionChecks } from '../check-arguments.js'
import { contradictionOf } from '../grid/board/ask.js'
import { type Board, checkBoard } from '../grid/board.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { isWithinLength } from './chain-length.js'
import { CHOICE_CHECKS, type Choice, OneSolution, optionsFor, techniquesOf } from './choice.js'
import { identityOf, withoutPartial } from './identity.js'
import { useMemory, withMemory } from './memory.js'
import type { FoundStep, Step } from './step.js'

export interface FindStepsOptions extends Choice, Limits {
  /** Stop after this many steps. */
  readonly limit?: number
  /**
   * Also longer chains whose conclusion a shorter one reaches, up to 7 links unless `maxLinks` says otherwise: plain chains,
   * chains of sets and remote pairs. Chains with fins and continuous loops are told by their shortest in any case, and the
   * other patterns have one length.
   */
  readonly allLengths?: boolean
}

const NEXT_CHECKS: OptionChecks<Choice & Limits> = { ...CHOICE_CHECKS, ...LIMIT_CHECKS }
const FIND_CHECKS: OptionChecks<FindStepsOptions> = { ...NEXT_CHECKS, limit: count(0), allLengths: boolean }

/**
 * Every instance of every chosen technique on this board, easiest technique first, each once. What concludes from the same
 * premises only a part of what another instance of its technique does is left out. On a board that shows a contradiction
 * nothing is found: whatever is said follows from that.
 *
 * ```ts
 * findSteps(board, { techniques: ['x-wing'] })   // all X-wings
 * findSteps(board, { preset: 'mark', limit: 1 }) // the next easy step
 * ```
 *
 * @throws InputError `argument` for an unknown technique or preset, or a number that makes no sense; StoppedError `time-limit` when
 *   that was over first, `aborted` when the signal has fired
 */
export function findSteps(board: Board, options: FindStepsOptions = {}): FoundStep[] {
  checkBoard(board)
  checkOptions<FindStepsOptions>(options, FIND_CHECKS)
  return runNow(options, (watch) => findTask(board, options, watch))
}

/** The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time. */
export async function findStepsAsync(board: Board, options: FindStepsOptions = {}): Promise<FoundStep[]> {
  checkBoard(board)
  checkOptions<FindStepsOptions>(options, FIND_CHECKS)
  return runInSlices(options, (watch) => findTask(board, options, watch))
}

export function* findTask(
  board: Board,
  options: Omit<FindStepsOptions, keyof Limits>,
  watch: Watch,
): Task<FoundStep[]> {
  const limit = options.limit ?? Number.POSITIVE_INFINITY
  const techniques = techniquesOf(options)
  const oneSolution = new OneSolution(board, options)
  const found: FoundStep[] = []
  if (limit <= 0 || contradictionOf(board)) return found
  for (const technique of techniques) {
    if (watch.isDue()) yield
    if (technique.assumes) yield* oneSolution.settle(watch)
    const findOptions = optionsFor(technique, options, oneSolution)
    if (!findOptions) continue
    const seen = new Set<string>()
    const instances: FoundStep[] = []
    const take = (step: Step): boolean => {
      if (!isWithinLength(step, options.maxLinks)) return false
      const key = identityOf(step)
      if (seen.has(key)) return false
      seen.add(key)
      instances.push({ ...step, before: board })
      return found.length + instances.length >= limit
    }
    const { search } = technique
    const own = options.allLengths ? { ...findOptions, allLengths: true } : findOptions
    if (search) yield* withMemory(watch, () => search(board, take, own, watch))
    else {
      useMemory()
      technique.find(board, take, own)
    }
    const stopped = found.length + instances.length >= limit
    found.push(...withoutPartial(instances))
    if (stopped) break
  }
  return found
}

/**
 * The easiest step that the choice allows on this board, or undefined when there is none.
 *
 * @throws as `findSteps` does
 */
export function nextStep(board: Board, choice: Choice & Limits = {}): FoundStep | undefined {
  checkOptions<Choice & Limits>(choice, NEXT_CHECKS)
  return findSteps(board, { ...choice, limit: 1 })[0]
}

/** The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time. */
export async function nextStepAsync(
  board: Board,
  choice: Choice & Limits = {},
): Promise<FoundStep | undefined> {
  checkOptions<Choice & Limits>(choice, NEXT_CHECKS)
  const [step] = await findStepsAsync(board, { ...choice, limit: 1 })
  return step
}
