import { boolean, checkOptions, type OptionChecks } from '../check-arguments.js'
import { COUNT_CHECKS, type CountBudget } from '../count/budget.js'
import { soundnessInTime } from '../count/soundness.js'
import { openCount } from '../grid/board/ask.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { LEVELS } from '../logic/level.js'
import { CHOICE_CHECKS, type Choice } from '../logic/solving/choice.js'
import type { SolveOptions } from '../logic/solving/solve.js'
import { TECHNIQUE_NAMES, type TechniqueName } from '../logic/technique-names.js'
import { routeTask } from '../route/find-route.js'
import { keyStep } from '../route/key-step.js'
import { rulesFor } from '../route/rules.js'
import { looksFor } from './ease.js'
import type { Grade } from './grade.js'
import { type Round, roundsTask } from './rounds.js'

export interface GradeOptions extends SolveOptions, CountBudget {
  /** Find the route through the puzzle as well, and name its key step. It takes many times as long. */
  readonly route?: boolean
}

export const GRADE_CHECKS: OptionChecks<GradeOptions> = { ...COUNT_CHECKS, ...CHOICE_CHECKS, route: boolean }

/**
 * Grades a puzzle by what it takes to find the steps that solve it, in rounds: each takes every step of the easiest
 * kind that is open on the board. No path is chosen, so turned, mirrored and relabelled puzzles have the same grade.
 *
 * ```ts
 * const { level, effort, bottleneck } = gradePuzzle(puzzle)
 * gradePuzzle(puzzle, { route: true }).key // the key step of the route that findRoute finds
 * ```
 *
 * Effort is in looks: a look is one open cell, or one pencil mark, thought about once. A round of singles takes
 *
 *     digits placed × open cells / (ease of all open singles, added up)^¾
 *
 * looks, and any other round marks × 3^level × (pieces / candidates removed)^¼. `stepEffort` says what these words
 * mean. So a round with 48 open cells in which sixteen digits are the only place of a box, and no other single is open,
 * takes 16 × 48 / 16^¾ = 96 looks.
 *
 * A puzzle that does not have exactly one solution is not solved: its grade says so and nothing more.
 *
 * @throws StoppedError `time-limit` when that was over first, `aborted` when the signal has fired; InputError
 *   `argument` for an unknown technique or preset
 */
export function gradePuzzle(puzzle: Puzzle, options: GradeOptions = {}): Grade {
  checkPuzzle(puzzle)
  checkOptions<GradeOptions>(options, GRADE_CHECKS)
  return runNow(options, (watch) => gradeTask(puzzle, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const { level, effort } = await gradePuzzleAsync(puzzle, { signal })
 */
export async function gradePuzzleAsync(puzzle: Puzzle, options: GradeOptions = {}): Promise<Grade> {
  checkPuzzle(puzzle)
  checkOptions<GradeOptions>(options, GRADE_CHECKS)
  return runInSlices(options, (watch) => gradeTask(puzzle, options, watch))
}

function* gradeTask(puzzle: Puzzle, options: GradeOptions, watch: Watch): Task<Grade> {
  const { verdict } = yield* soundnessInTime(puzzle, watch, options)
  const givens = puzzle.givens.filter((digit) => digit !== 0).length
  if (verdict !== 'unique') return { ...NOTHING, verdict, status: 'not-tried', givens }
  const { rounds, board } = yield* roundsTask(puzzle, options, true, watch)
  const grade = {
    verdict,
    status: openCount(board) === 0 ? 'solved' : 'stuck',
    givens,
    ...sumOf(rounds),
  } as const
  return options.route ? { ...grade, key: yield* keyOf(puzzle, options, watch) } : grade
}

const NOTHING = { rounds: 0, level: null, effort: 0, bottleneck: null, techniques: {} } as const

/** The part of a grade that the rounds give. */
function sumOf(
  rounds: readonly Round[],
): Pick<Grade, 'rounds' | 'level' | 'effort' | 'bottleneck' | 'techniques'> {
  const counts = new Map<TechniqueName, number>()
  let effort = 0
  let hardest = -1
  let mostLooks = 0
  for (const [index, { level, techniques, seen, steps }] of rounds.entries()) {
    for (const technique of techniques) counts.set(technique, (counts.get(technique) ?? 0) + 1)
    const looks = looksFor(seen)
    effort += steps * looks
    const before = rounds[hardest]
    const harder = before ? LEVELS.indexOf(level) - LEVELS.indexOf(before.level) : 1
    if (harder < 0 || (harder === 0 && looks <= mostLooks)) continue
    hardest = index
    mostLooks = looks
  }
  const bottleneck = rounds[hardest]
  return {
    rounds: rounds.length,
    level: bottleneck?.level ?? null,
    effort: toTenth(effort),
    bottleneck: bottleneck
      ? {
          round: hardest + 1,
          technique: bottleneck.techniques[0]!,
          level: bottleneck.level,
          effort: toTenth(mostLooks),
        }
      : null,
    techniques: Object.fromEntries(
      TECHNIQUE_NAMES.flatMap((name) => (counts.has(name) ? [[name, counts.get(name)!]] : [])),
    ),
  }
}

function toTenth(looks: number): number {
  return Math.round(looks * 10) / 10
}

/** @throws StoppedError `time-limit` */
function* keyOf(puzzle: Puzzle, choice: Choice, watch: Watch): Task<NonNullable<Grade['key']> | null> {
  const route = yield* routeTask(puzzle, rulesFor(choice), watch)
  if (route.stopped) throw watch.timeIsOver()
  const key = route.status === 'solved' ? keyStep(route.steps) : undefined
  if (route.status !== 'solved' || key === undefined) return null
  const { technique, level } = route.steps[key]!
  return { technique, level }
}
