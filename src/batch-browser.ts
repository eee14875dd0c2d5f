// gridreason/batch as browsers get it: photos on all cores. What needs files is in Node only, and says so.

import { needsNode } from './errors.js'

export { createPhotoPool } from './batch/photo-pool-browser.js'

export const gradeFolder = inNodeOnly('gradeFolder', 'gradePuzzle grades a puzzle')
export const gradeFiles = inNodeOnly('gradeFiles', 'gradePuzzle grades a puzzle')
export const gradeStream = inNodeOnly(
  'gradeStream',
  'read the text with readPuzzles and grade with gradePuzzle',
)
export const writeGrades = inNodeOnly('writeGrades', 'gradePuzzle grades a puzzle')
export const mergeGrades = inNodeOnly('mergeGrades', 'dedupePuzzles finds puzzles that are the same')
export const readGrades = inNodeOnly('readGrades', 'parseGrade reads a grade')
export const readFolder = inNodeOnly('readFolder', 'createPhotoPool reads photos')
export const gradeReport = inNodeOnly('gradeReport', 'coverage sums up grades')

function inNodeOnly(name: string, instead: string): () => never {
  return () => {
    throw needsNode(name, instead)
  }
}
