// gridreason/batch: many puzzles at once, on all cores. Node only.

export type { BatchError } from './batch/batch-error.js'
export { type BatchOptions, RECORD_ORDERS, type RecordOrder } from './batch/batch-options.js'
export {
  type GradeFilesOptions,
  type GradeFolderOptions,
  type GradeStreamOptions,
  gradeFiles,
  gradeFolder,
  gradeStream,
} from './batch/grade-files.js'
// batch
export type { About } from './batch/input/about.js'
export { SKIP_REASONS, type Skipped, type SkipReason } from './batch/input/skipped.js'
export { type MergedGrades, type MergeGradesOptions, mergeGrades } from './batch/merge-grades.js'
export { createPhotoPool } from './batch/photo-pool.js'
export type { PhotoPoolOptions } from './batch/photo-pool-options.js'
export type { BatchProgress } from './batch/progress.js'
export { type ReadFolderOptions, type ReadRecord, readFolder } from './batch/read-folder.js'
export { type ReadGradesOptions, readGrades } from './batch/read-grades.js'
export {
  type FailedRecord,
  type GradedRecord,
  type GradeRecord,
  type Origin,
  RECORD_VERSION,
  type RecordPlace,
  recordedPuzzle,
  type SkippedRecord,
} from './batch/records/grade-record.js'
export type { PhotoStatus, Spot } from './batch/records/graded-page.js'
export { RECORD_FORMATS, type RecordFormatName } from './batch/records/record-format.js'
export type { Tallied } from './batch/records/tally.js'
export { type GradeReportOptions, gradeReport } from './batch/report/grade-report.js'
export {
  ENGLISH_REPORT,
  GERMAN_REPORT,
  type Outcome as ReportOutcome,
  type ReportLanguage,
} from './batch/report/words.js'
export type { PhotoPool } from './batch/threads/pool-reader.js'
export type { ThreadOptions } from './batch/threads/thread-options.js'
export { type WriteGradesOptions, type WrittenGrades, writeGrades } from './batch/write-grades.js'
