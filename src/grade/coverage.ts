import { checkOptions, iterable, object, whole } from '../check-arguments.js'
import { checkPuzzle, type Puzzle } from '../grid/puzzle.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { CATALOGUE, checkTechniqueName } from '../logic/catalogue.js'
import { LEVELS, type Level } from '../logic/level.js'
import type { Choice } from '../logic/solving/choice.js'
import { SOLVE_CHECKS, type SolveOptions, solveTask } from '../logic/solving/solve.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { checkGrade, type Grade } from './grade.js'

/** What one technique did over many puzzles. */
export interface TechniqueCoverage {
  readonly technique: TechniqueName
  readonly level: Level
  /** Puzzles that it is used in. */
  readonly puzzles: number
  /** Rounds that use it. */
  readonly rounds: number
  /** Puzzles in whose hardest moment it is what to look for. */
  readonly bottleneckIn: number
}

/** How far a set of techniques reaches over many puzzles. */
export interface Coverage {
  readonly puzzles: number
  readonly solved: number
  readonly stuck: number
  /** Puzzles without exactly one solution. */
  readonly notTried: number
  readonly rounds: number
  /** Solved puzzles by the hardest level they ask for. */
  readonly levels: Readonly<Record<Level, number>>
  /** Techniques in use, in the catalogue's order. */
  readonly techniques: readonly TechniqueCoverage[]
}

/**
 * Adds up grades; any number of them, without keeping one.
 *
 * @example
 * const { puzzles, solved } = coverage([gradePuzzle(puzzle)])
 * solved // → 1
 */
export function coverage(grades: Iterable<Grade>): Coverage {
  iterable(grades, 'grades')
  const counter = new CoverageCounter()
  for (const grade of grades) counter.add(grade)
  return counter.result
}

/**
 * Adds up coverages of parts: what `coverage` says of all their grades together.
 *
 * @throws InputError `argument` for what is no coverage
 *
 * @example
 * const north = coverage([gradePuzzle(puzzle)])
 * mergeCoverage([north, north]).puzzles // → 2
 */
export function mergeCoverage(parts: Iterable<Coverage>): Coverage {
  iterable(parts, 'parts')
  const counter = new CoverageCounter()
  for (const part of parts) counter.addCoverage(part)
  return counter.result
}

const checkCount = whole(0)

function checkCoverage(part: Coverage, name: string): void {
  object(part, name)
  for (const count of ['puzzles', 'solved', 'stuck', 'rounds'] as const)
    checkCount(part[count], `${name}.${count}`)
  object(part.levels, `${name}.levels`)
  for (const level of LEVELS) checkCount(part.levels[level], `${name}.levels.${level}`)
  iterable(part.techniques, `${name}.techniques`)
  for (const row of part.techniques) {
    object(row, `${name}.techniques`)
    checkTechniqueName(row.technique, `${name}.techniques`)
    for (const count of ['puzzles', 'rounds', 'bottleneckIn'] as const)
      checkCount(row[count], `${name}.techniques.${row.technique}.${count}`)
  }
}

/** The same piece by piece, for grades that arrive one after another. */
export class CoverageCounter {
  private puzzles = 0
  private solved = 0
  private stuck = 0
  private rounds = 0
  private readonly levels = Object.fromEntries(LEVELS.map((level) => [level, 0])) as Record<Level, number>
  private readonly techniques = new Map<
    TechniqueName,
    { puzzles: number; rounds: number; bottleneckIn: number }
  >()

  /** @throws InputError `argument` for what is no grade */
  add(grade: Grade): void {
    checkGrade(grade, 'grade')
    this.puzzles++
    this.rounds += grade.rounds
    if (grade.status === 'solved') {
      this.solved++
      if (grade.level) this.levels[grade.level]++
    }
    if (grade.status === 'stuck') this.stuck++
    for (const [technique, rounds] of Object.entries(grade.techniques) as [TechniqueName, number][]) {
      const row = this.techniques.get(technique) ?? { puzzles: 0, rounds: 0, bottleneckIn: 0 }
      row.puzzles++
      row.rounds += rounds
      if (grade.bottleneck?.technique === technique) row.bottleneckIn++
      this.techniques.set(technique, row)
    }
  }

  /**
   * Adds what another counter has counted.
   *
   * @throws InputError `argument` for what is no coverage
   */
  addCoverage(part: Coverage): void {
    checkCoverage(part, 'part')
    const { puzzles, solved, stuck, rounds, levels, techniques } = part
    this.puzzles += puzzles
    this.solved += solved
    this.stuck += stuck
    this.rounds += rounds
    for (const level of LEVELS) this.levels[level] += levels[level]
    for (const { technique, puzzles, rounds, bottleneckIn } of techniques) {
      const row = this.techniques.get(technique) ?? { puzzles: 0, rounds: 0, bottleneckIn: 0 }
      row.puzzles += puzzles
      row.rounds += rounds
      row.bottleneckIn += bottleneckIn
      this.techniques.set(technique, row)
    }
  }

  get result(): Coverage {
    return {
      puzzles: this.puzzles,
      solved: this.solved,
      stuck: this.stuck,
      notTried: this.puzzles - this.solved - this.stuck,
      rounds: this.rounds,
      levels: { ...this.levels },
      techniques: CATALOGUE.flatMap(({ name, level }) => {
        const row = this.techniques.get(name)
        return row ? [{ technique: name, level, ...row }] : []
      }),
    }
  }
}

/**
 * Techniques that a puzzle cannot do without: of those its path uses, each one without which, all others allowed, it
 * is no longer solved. Costs one solve for each technique of the path; empty when the puzzle is not solved at all.
 *
 * @throws StoppedError `time-limit` when that was over first, `aborted` when the signal has fired
 *
 * @example
 * indispensableTechniques(puzzle) // those without which it is not solved
 */
export function indispensableTechniques(puzzle: Puzzle, options: SolveOptions = {}): TechniqueName[] {
  checkPuzzle(puzzle)
  checkOptions<SolveOptions>(options, SOLVE_CHECKS)
  return runNow(options, (watch) => indispensableTask(puzzle, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const needed = await indispensableTechniquesAsync(puzzle, { signal })
 */
export async function indispensableTechniquesAsync(
  puzzle: Puzzle,
  options: SolveOptions = {},
): Promise<TechniqueName[]> {
  checkPuzzle(puzzle)
  checkOptions<SolveOptions>(options, SOLVE_CHECKS)
  return runInSlices(options, (watch) => indispensableTask(puzzle, options, watch))
}

function* indispensableTask(puzzle: Puzzle, choice: Choice, watch: Watch): Task<TechniqueName[]> {
  const path = yield* solveTask(puzzle, choice, watch)
  if (path.status === 'stopped') throw watch.timeIsOver()
  if (path.status !== 'solved') return []
  const limit = choice.preset === undefined ? LEVELS.length : LEVELS.indexOf(choice.preset) + 1
  const allowed =
    choice.techniques ??
    CATALOGUE.filter(({ level }) => LEVELS.indexOf(level) < limit).map(({ name }) => name)
  const indispensable: TechniqueName[] = []
  for (const name of new Set(path.steps.map((step) => step.technique))) {
    const techniques = allowed.filter((other) => other !== name)
    const { status } = yield* solveTask(puzzle, { ...choice, techniques }, watch)
    if (status === 'stopped') throw watch.timeIsOver()
    if (status !== 'solved') indispensable.push(name)
  }
  return indispensable
}
