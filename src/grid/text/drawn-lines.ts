import { type Role, rowsIn, rowsOf } from './block.js'
import { hasRules, type TextLine } from './lines.js'
import type { Part } from './part.js'

/**
 * Which lines are drawn and longer than any row: such lines stand between grids, never within one.
 *
 * @param slack characters by which a line within a grid may stick out
 */
export function drawnBeyondRows(
  lines: readonly TextLine[],
  roles: readonly Role[],
  slack = 1,
): (i: number) => boolean {
  const lengthOf = ({ text }: TextLine) => text.trim().length
  let longestRow = 0
  for (const [i, line] of lines.entries())
    if (roles[i] === 'row') longestRow = Math.max(longestRow, lengthOf(line))
  return (i) => roles[i] === 'drawn' && lengthOf(lines[i]!) > longestRow + slack
}

/**
 * Do the drawn lines stand between grids, or between bands of one height? Lines that do not show where a row is lost.
 */
export function isDrawnEvenly({ lines, roles, width }: Part): boolean {
  const drawn = roles.filter((role) => role === 'drawn').length
  // where cells have lines all around, there is one below every row
  if (lines.some(({ text }) => hasRules(text)) && (rowsIn(roles) <= width || drawn >= rowsIn(roles)))
    return true
  const offsets: number[] = []
  const isLonger = drawnBeyondRows(lines, roles)
  let rows = 0
  for (const [i, role] of roles.entries()) {
    if (role !== 'drawn') rows += rowsOf(role)
    else if (isLonger(i) && rows % width !== 0) return false
    else offsets.push(rows % width)
  }
  for (let height = width; height > 1; height--)
    if (width % height === 0 && offsets.every((offset) => offset % height === 0)) return true
  return offsets.length === 0
}

/** The lines between those. */
export function cutAt(lines: readonly TextLine[], isCut: (i: number) => boolean): TextLine[][] {
  const pieces: TextLine[][] = [[]]
  lines.forEach((line, i) => {
    if (!isCut(i)) pieces.at(-1)!.push(line)
    else if (pieces.at(-1)!.length > 0) pieces.push([])
  })
  return pieces.filter((piece) => piece.length > 0)
}
