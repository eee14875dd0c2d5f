import type { TextLine } from './lines.js'
import { shapeError } from './sheet.js'

/**
 * Spaces in different places from line to line may have stood for empty cells: not a thing to guess about.
 *
 * @param words of each row, in each space between vertical rules
 * @throws InputError `text-shape` where words have other lengths than in the first row
 */
export function refuseRaggedGroups(
  rows: readonly TextLine[],
  words: readonly (readonly (readonly string[])[])[],
): void {
  const groups = words.map((row) =>
    row.map((texts) => texts.map((text) => text.length).join(' ')).join(' | '),
  )
  const odd = groups.findIndex((here) => here !== groups[0])
  if (odd < 0) return
  throw shapeError(
    rows[odd]!.number,
    `groups of ${groups[odd]} cells`,
    `groups of ${groups[0]} as on line ${rows[0]!.number} (write 0 . _ or * for an empty cell, not a space)`,
  )
}
