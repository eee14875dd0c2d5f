import { type Coverage, CoverageCounter } from '../../grade/coverage.js'
import type { GradeRecord } from './grade-record.js'

/** How many records there are of each kind. */
export interface Tallied {
  readonly records: number
  readonly errors: number
  readonly skipped: number
  /** Of all puzzles graded. */
  readonly coverage: Coverage
}

/** Counts records on their way. */
export class RecordTally {
  records = 0
  private errors = 0
  private skipped = 0
  private readonly coverage = new CoverageCounter()

  add(record: GradeRecord): void {
    this.records++
    if ('error' in record) this.errors++
    else if ('skipped' in record) this.skipped++
    else this.coverage.add(record.grade)
  }

  get result(): Tallied {
    const { records, errors, skipped, coverage } = this
    return { records, errors, skipped, coverage: coverage.result }
  }
}
