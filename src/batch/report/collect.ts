import { type Coverage, CoverageCounter } from '../../grade/coverage.js'
import type { Level } from '../../logic/level.js'
import type { SkipReason } from '../input/skipped.js'
import type { FailedRecord, GradedRecord, GradeRecord, Origin } from '../records/grade-record.js'
import { EffortCounts } from './effort-counts.js'
import type { Outcome } from './words.js'

/** Records of each kind that are shown one by one. */
const EXAMPLES = 20
const ENDS = 6

/** Canonical keys that are kept to find the same puzzle again; `mergeGrades` finds them among any number. */
const MOST_KEYS = 500_000

/** What a report says, gathered record by record in bounded memory. */
export class ReportCounts {
  failed = 0
  skipped = 0
  duplicates = 0
  certain = 0
  readonly effort = new EffortCounts()
  readonly outcomes = new Map<Outcome, number>()
  readonly failures = new Map<string, { count: number; readonly examples: FailedRecord[] }>()
  readonly skips = new Map<SkipReason, { count: number; readonly paths: string[] }>()
  readonly same: { readonly record: GradedRecord; readonly origin: Origin }[] = []
  readonly toCheck: GradedRecord[] = []
  check = 0
  /** Least effort first. */
  easiest: GradedRecord[] = []
  /** Most effort first. */
  hardest: GradedRecord[] = []
  private readonly counter = new CoverageCounter()
  private readonly firsts = new Map<string, Origin>()

  get coverage(): Coverage {
    return this.counter.result
  }

  add(record: GradeRecord): void {
    if ('skipped' in record) this.addSkipped(record.skipped.because, record.path)
    else if ('error' in record) this.addFailed(record)
    else this.addGraded(record)
  }

  private addSkipped(because: SkipReason, path: string): void {
    this.skipped++
    const entry = this.skips.get(because) ?? { count: 0, paths: [] }
    entry.count++
    if (entry.paths.length < EXAMPLES) entry.paths.push(path)
    this.skips.set(because, entry)
  }

  private addFailed(record: FailedRecord): void {
    this.failed++
    const entry = this.failures.get(record.error.code) ?? { count: 0, examples: [] }
    entry.count++
    if (entry.examples.length < EXAMPLES) entry.examples.push(record)
    this.failures.set(record.error.code, entry)
  }

  private addGraded(record: GradedRecord): void {
    const { grade, photo } = record
    this.counter.add(grade)
    if (photo?.status === 'certain') this.certain++
    if (photo?.status === 'check') {
      this.check++
      if (this.toCheck.length < EXAMPLES) this.toCheck.push(record)
    }
    const isAgain = this.isAgain(record)
    if (grade.status !== 'solved') {
      const outcome = grade.status === 'stuck' ? 'stuck' : (grade.verdict as Outcome)
      this.outcomes.set(outcome, (this.outcomes.get(outcome) ?? 0) + 1)
      return
    }
    this.effort.add(grade.level as Level, grade.effort)
    if (isAgain) return
    this.easiest = ends(this.easiest, record, (a, b) => a.grade.effort - b.grade.effort)
    this.hardest = ends(this.hardest, record, (a, b) => b.grade.effort - a.grade.effort)
  }

  /** Is it the same as a puzzle before it? */
  private isAgain(record: GradedRecord): boolean {
    const { canonical, path, line, spot } = record
    const origin = record.duplicateOf ?? (canonical === null ? undefined : this.firsts.get(canonical))
    if (origin) {
      this.duplicates++
      if (this.same.length < EXAMPLES) this.same.push({ record, origin })
    } else if (canonical !== null && this.firsts.size < MOST_KEYS)
      this.firsts.set(canonical, { path, line, grid: spot?.grid })
    return origin !== undefined
  }
}

function ends(
  list: GradedRecord[],
  record: GradedRecord,
  compare: (a: GradedRecord, b: GradedRecord) => number,
): GradedRecord[] {
  if (list.length === ENDS && compare(record, list.at(-1)!) >= 0) return list
  return [...list, record].sort(compare).slice(0, ENDS)
}
