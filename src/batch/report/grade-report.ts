import { argumentError, checkOptions, type OptionChecks, string } from '../../check-arguments.js'
import type { GradeRecord } from '../records/grade-record.js'
import { fittedRecord } from '../records/record-shape.js'
import { ReportCounts } from './collect.js'
import { reportPage } from './page.js'
import { ENGLISH_REPORT, type ReportLanguage } from './words.js'

/** What a report has. */
export interface GradeReportOptions {
  /** The heading of the page; a plain word of the language when left out. */
  readonly title?: string
  /** `ENGLISH_REPORT` when left out; `GERMAN_REPORT` is the other. */
  readonly language?: ReportLanguage
}

const REPORT_CHECKS: OptionChecks<GradeReportOptions> = {
  title: string,
  language: (value, name) => {
    if (typeof (value as ReportLanguage | null)?.wording?.technique !== 'function')
      throw argumentError(name, 'a language of reports, such as ENGLISH_REPORT or GERMAN_REPORT', value)
  },
}

/**
 * A page of HTML about many records: how many puzzles of each level, effort as a distribution, techniques, the hardest
 * and the easiest, the same puzzle more than once, what should be checked, and what could not be read and why. It
 * carries its pictures, and prints on A4.
 *
 * ```ts
 * await writeFile('report.html', await gradeReport(gradeFolder('puzzles'), { title: 'November' }))
 * ```
 *
 * Memory stays bounded; the same puzzle is looked for among the first half million, or is where `mergeGrades` found it.
 *
 * @param records those of `gradeFolder` and its like, or read from the files of `writeGrades` and `mergeGrades`
 * @throws InputError `argument` for what is no record
 */
export async function gradeReport(
  records: Iterable<GradeRecord> | AsyncIterable<GradeRecord>,
  options: GradeReportOptions = {},
): Promise<string> {
  const { [Symbol.iterator]: plain, [Symbol.asyncIterator]: async } = Object(records)
  if (typeof records === 'string' || (typeof plain !== 'function' && typeof async !== 'function'))
    throw argumentError('records', 'records in a list or a stream', records)
  checkOptions<GradeReportOptions>(options, REPORT_CHECKS)
  const counts = new ReportCounts()
  let index = 0
  for await (const record of records) {
    const { ok } = fittedRecord(record)
    if (!ok)
      throw argumentError(`records[${index}]`, 'a record of this version, such as gradeFolder gives', record)
    index++
    counts.add(record)
  }
  const language = options.language ?? ENGLISH_REPORT
  return reportPage(counts, options.title ?? language.title, language)
}
