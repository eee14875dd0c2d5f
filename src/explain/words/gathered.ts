import type { Candidate } from '../../grid/board.js'

/** Candidates named together: digits that stand in the same cells, with these cells. */
export function gathered(candidates: readonly Candidate[]): { digits: number[]; cells: number[] }[] {
  const cellsOf = new Map<number, number[]>()
  for (const { cell, digit } of candidates) {
    const cells = cellsOf.get(digit)
    if (cells) cells.push(cell)
    else cellsOf.set(digit, [cell])
  }
  const groups = new Map<string, { digits: number[]; cells: number[] }>()
  for (const [digit, cells] of cellsOf) {
    const own = [...cells].sort((a, b) => a - b)
    const group = groups.get(own.join())
    if (group) group.digits.push(digit)
    else groups.set(own.join(), { digits: [digit], cells: own })
  }
  return [...groups.values()]
}
