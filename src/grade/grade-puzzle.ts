import type { CountBudget } from '../count/budget.js'
import { countSolutions } from '../count/count-solutions.js'
import { throwIfAborted } from '../errors.js'
import type { Puzzle } from '../grid/puzzle.js'
import { LEVELS } from '../logic/level.js'
import { type SolveOptions, type SolvePath, solve } from '../logic/solve.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { stepEffort } from './effort.js'
import type { Grade } from './grade.js'

export interface GradeOptions extends SolveOptions, CountBudget {}

/**
 * Grades a puzzle by the path that takes the easiest technique each time.
 *
 * ```ts
 * const { level, effort, bottleneck } = gradePuzzle(puzzle)
 * ```
 *
 * A puzzle that does not have exactly one solution is not solved: its grade says so and nothing more.
 *
 * @throws StoppedError `aborted` when the signal fires; RangeError for an unknown technique or preset
 */
export function gradePuzzle(puzzle: Puzzle, options: GradeOptions = {}): Grade {
  const verdict = verdictOf(puzzle, options)
  throwIfAborted(options.signal)
  const givens = puzzle.givens.filter((digit) => digit !== 0).length
  if (verdict !== 'unique') return { ...NOTHING, verdict, status: 'not-tried', givens }
  return { verdict, givens, ...gradePath(solve(puzzle, options)) }
}

function verdictOf(puzzle: Puzzle, options: CountBudget): Grade['verdict'] {
  const { count, complete } = countSolutions(puzzle, { ...options, limit: 2 })
  if (count >= 2) return 'many'
  if (!complete) return 'undecided'
  return count === 1 ? 'unique' : 'none'
}

const NOTHING = { steps: 0, level: null, effort: 0, bottleneck: null, techniques: {} } as const

/** The part of a grade that a path alone gives. */
export function gradePath(
  path: SolvePath,
): Pick<Grade, 'status' | 'steps' | 'level' | 'effort' | 'bottleneck' | 'techniques'> {
  const techniques: Partial<Record<TechniqueName, number>> = {}
  let effort = 0
  let bottleneck: Grade['bottleneck'] = null
  path.steps.forEach((step, index) => {
    techniques[step.technique] = (techniques[step.technique] ?? 0) + 1
    const own = stepEffort(step)
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
