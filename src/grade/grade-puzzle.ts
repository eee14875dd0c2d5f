import { checkOptions, type OptionChecks } from '../check-arguments.js'
import { COUNT_CHECKS, type CountBudget } from '../count/budget.js'
import { solutionsTask } from '../count/count-solutions.js'
import { StoppedError } from '../errors.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { checkSolvePath } from '../logic/check-step.js'
import { CHOICE_CHECKS } from '../logic/choice.js'
import { LEVELS } from '../logic/level.js'
import { type SolveOptions, type SolvePath, solveTask } from '../logic/solve.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { effortOf } from './effort.js'
import type { Grade } from './grade.js'

export interface GradeOptions extends SolveOptions, CountBudget {}

export const GRADE_CHECKS: OptionChecks<GradeOptions> = { ...COUNT_CHECKS, ...CHOICE_CHECKS }

/**
 * Grades a puzzle by the path that takes the easiest technique each time.
 *
 * ```ts
 * const { level, effort, bottleneck } = gradePuzzle(puzzle)
 * ```
 *
 * A puzzle that does not have exactly one solution is not solved: its grade says so and nothing more.
 *
 * @throws StoppedError `time-limit` when that was over first, `aborted` when the signal has fired; InputError `argument` for an unknown technique or preset
 */
export function gradePuzzle(puzzle: Puzzle, options: GradeOptions = {}): Grade {
  checkPuzzle(puzzle)
  checkOptions<GradeOptions>(options, GRADE_CHECKS)
  return runNow(options, (watch) => gradeTask(puzzle, options, watch))
}

/** The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time. */
export async function gradePuzzleAsync(puzzle: Puzzle, options: GradeOptions = {}): Promise<Grade> {
  checkPuzzle(puzzle)
  checkOptions<GradeOptions>(options, GRADE_CHECKS)
  return runInSlices(options, (watch) => gradeTask(puzzle, options, watch))
}

function* gradeTask(puzzle: Puzzle, options: GradeOptions, watch: Watch): Task<Grade> {
  const verdict = yield* verdictOf(puzzle, options, watch)
  const givens = puzzle.givens.filter((digit) => digit !== 0).length
  if (verdict !== 'unique') return { ...NOTHING, verdict, status: 'not-tried', givens }
  return { verdict, givens, ...gradePath(yield* solveTask(puzzle, options, watch)) }
}

function* verdictOf(puzzle: Puzzle, { nodeBudget }: CountBudget, watch: Watch): Task<Grade['verdict']> {
  const counting = nodeBudget === undefined ? { limit: 2 } : { limit: 2, nodeBudget }
  const { count, complete, stopped } = yield* solutionsTask(puzzle, counting, watch)
  if (stopped === 'time-limit') throw watch.timeIsOver()
  if (count >= 2) return 'many'
  if (!complete) return 'undecided'
  return count === 1 ? 'unique' : 'none'
}

const NOTHING = { steps: 0, level: null, effort: 0, bottleneck: null, techniques: {} } as const

/**
 * The part of a grade that a path alone gives.
 *
 * @throws StoppedError `time-limit` for a path that was stopped by it
 */
export function gradePath(
  path: SolvePath,
): Pick<Grade, 'status' | 'steps' | 'level' | 'effort' | 'bottleneck' | 'techniques'> {
  checkSolvePath(path)
  if (path.status === 'stopped')
    throw new StoppedError(
      'time-limit',
      'The path was stopped by its time limit, and part of a path has no grade.',
    )
  const techniques: Partial<Record<TechniqueName, number>> = {}
  let effort = 0
  let bottleneck: Grade['bottleneck'] = null
  path.steps.forEach((step, index) => {
    techniques[step.technique] = (techniques[step.technique] ?? 0) + 1
    const own = effortOf(step)
    effort += own
    const harder = bottleneck ? LEVELS.indexOf(step.level) - LEVELS.indexOf(bottleneck.level) : 1
    if (harder > 0 || (harder === 0 && bottleneck && own > bottleneck.effort)) {
      bottleneck = { step: index + 1, technique: step.technique, level: step.level, effort: own }
    }
  })
  return {
    status: path.status === 'solved' ? 'solved' : 'stuck',
    steps: path.steps.length,
    level: (bottleneck as Grade['bottleneck'])?.level ?? null,
    effort,
    bottleneck,
    techniques,
  }
}
