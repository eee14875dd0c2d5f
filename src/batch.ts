// gridreason/batch: many puzzles at once, on all cores. Node only.

// batch
export type { BatchOptions, BatchProgress } from './batch/batch-options.js'
export {
  type GradeFolderOptions,
  type GradeRecord,
  gradeFolder,
  recordedPuzzle,
} from './batch/grade-folder.js'
export type { BatchError } from './batch/jobs.js'
export { type ReadFolderOptions, type ReadRecord, readFolder } from './batch/read-folder.js'
