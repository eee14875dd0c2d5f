import type { Candidate } from '../grid/board.js'
import { cellName, type Geometry } from '../grid/geometry.js'
import { digitSymbol } from '../grid/text/symbols.js'
import type { ChainLink, ChainNode } from '../logic/step.js'

/**
 * How cells, digits and links are written. The `r4c56` manner of naming several cells at once and the
 * `(3=7)r1c1-(7)r1c5` manner of writing chains are common practice among solvers; neither belongs to a language, so
 * both live outside the wording tables.
 */

/** Rows and columns past 9 need a separator: `r4c(5,10)` beside `r4c56`. */
function numbers(values: readonly number[]): string {
  if (values.length === 1) return `${values[0]}`
  return values.every((value) => value <= 9) ? values.join('') : `(${values.join(',')})`
}

/** Cells that share their far numbers are one group: rows 1 and 2 with columns 3 and 4 give `r12c34`. */
function groups(cells: readonly number[], near: (cell: number) => number, far: (cell: number) => number) {
  const farsOf = new Map<number, number[]>()
  for (const cell of [...cells].sort((a, b) => a - b)) {
    const fars = farsOf.get(near(cell))
    if (fars) fars.push(far(cell))
    else farsOf.set(near(cell), [far(cell)])
  }
  const nearsOf = new Map<string, { nears: number[]; fars: number[] }>()
  for (const [n, fars] of farsOf) {
    const group = nearsOf.get(fars.join())
    if (group) group.nears.push(n)
    else nearsOf.set(fars.join(), { nears: [n], fars })
  }
  return [...nearsOf.values()]
}

/**
 * Cells in as few compact groups as rows or columns allow, each group a name of its own.
 *
 * `cellGroups(STANDARD, [0, 1, 9, 10, 80])` is `['r12c12', 'r9c9']`.
 */
export function cellGroups(geometry: Geometry, cells: readonly number[]): string[] {
  const row = (cell: number) => Math.floor(cell / geometry.order) + 1
  const column = (cell: number) => (cell % geometry.order) + 1
  const byRow = groups(cells, row, column)
  const byColumn = groups(cells, column, row)
  return byRow.length <= byColumn.length
    ? byRow.map(({ nears, fars }) => `r${numbers(nears)}c${numbers(fars)}`)
    : byColumn.map(({ nears, fars }) => `r${numbers(fars)}c${numbers(nears)}`)
}

/** `cellGroups` in one word, groups parted by commas: for notation, not for prose. */
export function cellsNotation(geometry: Geometry, cells: readonly number[]): string {
  return cellGroups(geometry, cells).join(',')
}

/** `r1c1=5`, `r1c1<>5`: a digit placed, a candidate removed (common practice in solving threads). */
export function conclusionNotation(
  geometry: Geometry,
  placements: readonly Candidate[],
  removals: readonly Candidate[],
): string {
  const placed = placements.map(({ cell, digit }) => `${cellName(geometry, cell)}=${digitSymbol(digit)}`)
  const cellsOf = new Map<number, number[]>()
  for (const { cell, digit } of removals) {
    const cells = cellsOf.get(digit)
    if (cells) cells.push(cell)
    else cellsOf.set(digit, [cell])
  }
  const removed = [...cellsOf].map(
    ([digit, cells]) => `${cellsNotation(geometry, cells)}<>${digitSymbol(digit)}`,
  )
  return [...placed, ...removed].join(', ')
}

export function sameNode(a: ChainNode, b: ChainNode): boolean {
  return a.digit === b.digit && a.cells.length === b.cells.length && a.cells.every((c) => b.cells.includes(c))
}

function sameCells(a: ChainNode, b: ChainNode): boolean {
  return sameNode({ digit: 0, cells: a.cells }, { digit: 0, cells: b.cells })
}

/**
 * Links in alternating inference notation: `=` is strong, `-` is weak, digits stand in brackets before their cells.
 * Two digits joined inside the same cells share one bracket: `(3=7)r1c1-(7)r1c5=(7)r4c5`.
 * Links that do not join end to end (those of a colouring) are written one after the other, parted by semicolons.
 */
export function linkNotation(geometry: Geometry, links: readonly ChainLink[], loop = false): string {
  let text = ''
  let digits = ''
  let cells: ChainNode | undefined
  const close = () => {
    if (cells) text += `(${digits})${cellsNotation(geometry, cells.cells)}`
    cells = undefined
  }
  links.forEach((link, i) => {
    const sign = link.kind === 'strong' ? '=' : '-'
    const previous = links[i - 1]
    if (!previous || !sameNode(previous.to, link.from)) {
      close()
      if (previous) text += '; '
      cells = link.from
      digits = digitSymbol(link.from.digit)
    }
    if (link.kind === 'strong' && sameCells(link.from, link.to)) {
      digits += `${sign}${digitSymbol(link.to.digit)}`
    } else {
      close()
      text += sign
      digits = digitSymbol(link.to.digit)
    }
    cells = link.to
  })
  close()
  return loop ? `${text} loop` : text
}
