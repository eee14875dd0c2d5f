import { blockOf } from './block.js'
import { FEWEST_SIXTEENS } from './grid-lines.js'
import { isNumberRemark } from './headings.js'
import type { TextLine } from './lines.js'

/**
 * Which lines are headings that only their place tells from rows: dates and the like that stand by themselves, above,
 * below or between whole grids, or among rows whose number does not come out.
 */
export function remarksAmong(lines: readonly TextLine[], order: number): (line: TextLine) => boolean {
  const remarks = new Set(lines.filter(({ text }) => isNumberRemark(text)))
  const block =
    remarks.size > 0 && (remarks.size < lines.length || lines.length >= FEWEST_SIXTEENS)
      ? blockOf(lines, order)
      : undefined
  if (block?.kind !== 'rows') return (line) => remarks.has(line)
  const { roles, rows, width } = block
  const isOpen = width === 0 || rows % width !== 0
  const strays = new Set(lines.filter((_, i) => roles[i] === 'stray' || (isOpen && roles[i] !== 'row')))
  return (line) => strays.has(line) && remarks.has(line)
}
