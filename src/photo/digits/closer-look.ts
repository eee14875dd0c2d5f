import type { CellPicture, CellScores, DigitReader, ReadCellsOptions } from './digit-reader.js'

/** Cells of whose reading a reader is less sure than this are worth a closer look. */
const SURE = 0.98

/** Scores of a page's cells, the doubtful ones looked at more closely where the reader can. */
export async function withCloserLook(
  reader: DigitReader,
  pictures: readonly CellPicture[],
  scores: readonly CellScores[],
  options: ReadCellsOptions,
): Promise<readonly CellScores[]> {
  const doubtful = scores.flatMap(({ digits }, cell) => (Math.max(...digits) < SURE ? [cell] : []))
  if (!reader.readClosely || doubtful.length === 0) return scores
  const closer = await reader.readClosely(
    doubtful.map((cell) => pictures[cell]!),
    options,
  )
  const all = [...scores]
  for (const [k, cell] of doubtful.entries()) all[cell] = closer[k]!
  return all
}
