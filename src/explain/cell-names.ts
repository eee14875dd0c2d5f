import { argumentError, string } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { cellName, checkCell, checkGeometry, type Geometry } from '../grid/geometry.js'

/**
 * Names of several cells at once, and back. `r4c56` is common practice among solvers and belongs to no language, so
 * it lives outside the wording tables.
 *
 * Up to order 9 a number is one character, and a row or column number stands next to another: `r14c2` is r1c2 and
 * r4c2. Above order 9 commas part the numbers, so that `r14c11` is one cell and `r1,4c11` is two.
 */
function numbers(order: number, values: readonly number[]): string {
  return values.join(order <= 9 ? '' : ',')
}

/** Cells that share their far numbers are one group: rows 1 and 2 with columns 3 and 4 give `r12c34`. */
function groups(cells: readonly number[], near: (cell: number) => number, far: (cell: number) => number) {
  const farsOf = new Map<number, number[]>()
  for (const cell of cells) {
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

function checkCells(geometry: Geometry, cells: readonly number[]): void {
  checkGeometry(geometry)
  if (!Array.isArray(cells)) throw argumentError('cells', 'a list of cells', cells)
  for (let i = 0; i < cells.length; i++) checkCell(geometry, cells[i], `cells[${i}]`)
}

/**
 * Cells in as few compact groups as rows or columns allow, each group a name of its own. A cell named twice counts
 * once.
 *
 * `cellGroups(STANDARD, [0, 1, 9, 10, 80])` is `['r12c12', 'r9c9']`; on a 16×16 grid the first would be `r1,2c1,2`.
 *
 * @throws InputError `argument` when there is no such cell
 *
 * @example
 * cellGroups(STANDARD, [1, 28, 80]) // → ['r14c2', 'r9c9']
 */
export function cellGroups(geometry: Geometry, cells: readonly number[]): string[] {
  checkCells(geometry, cells)
  const { order } = geometry
  const ascending = [...new Set(cells)].sort((a, b) => a - b)
  if (ascending.length === 1) return [cellName(geometry, ascending[0]!)]
  const row = (cell: number) => Math.floor(cell / order) + 1
  const column = (cell: number) => (cell % order) + 1
  const byRow = groups(ascending, row, column)
  const byColumn = groups(ascending, column, row)
  return byRow.length <= byColumn.length
    ? byRow.map(({ nears, fars }) => `r${numbers(order, nears)}c${numbers(order, fars)}`)
    : byColumn.map(({ nears, fars }) => `r${numbers(order, fars)}c${numbers(order, nears)}`)
}

/** `cellGroups` in one word, groups parted by commas: for notation, not for prose. `parseCells` reads it back. */
export function cellsNotation(geometry: Geometry, cells: readonly number[]): string {
  return cellGroups(geometry, cells).join(',')
}

/**
 * Reads what `cellGroups` writes, one group or several with commas between them, and gives the cells in ascending
 * order.
 *
 * ```ts
 * parseCells(STANDARD, 'r14c2,r9c9')              // r1c2, r4c2 and r9c9: [1, 28, 80]
 * parseCells(boxedGeometry(4, 4), 'r14c11')       // one cell: [218]
 * parseCells(boxedGeometry(4, 4), 'r1,4c11')      // r1c11 and r4c11: [10, 58]
 * ```
 *
 * @throws InputError `text-symbol` for a text that names no cells of the geometry, `argument` for what is no text
 */
export function parseCells(geometry: Geometry, text: string): number[] {
  checkGeometry(geometry)
  string(text, 'text')
  if (text.trim() === '') return []
  const cells = text
    .split(/,(?=\s*r)/)
    .map((group) => group.trim())
    .flatMap((group) => {
      const [, rows, columns] = /^r([\d,]+)c([\d,]+)$/.exec(group) ?? []
      if (rows === undefined || columns === undefined) throw notCells(geometry, group)
      const across = lineNumbers(geometry, columns, group)
      return lineNumbers(geometry, rows, group).flatMap((row) =>
        across.map((column) => (row - 1) * geometry.order + column - 1),
      )
    })
  return [...new Set(cells)].sort((a, b) => a - b)
}

/** Row or column numbers of a group, each once. */
function lineNumbers(geometry: Geometry, text: string, group: string): number[] {
  const { order } = geometry
  const parts = order <= 9 ? [...text] : text.split(',')
  const values = parts.map((part) => (/^[1-9]\d?$/.test(part) ? Number(part) : 0))
  const fit = values.every((value) => value >= 1 && value <= order)
  if (!fit || new Set(values).size !== values.length) throw notCells(geometry, group)
  return values
}

function notCells({ order }: Geometry, found: string): InputError {
  const shown = found.length > 24 ? `${found.slice(0, 24)}…` : found
  const expected =
    order <= 9
      ? `cells such as r1c2 or r14c2 (rows 1 and 4), with numbers from 1 to ${order}`
      : `cells such as r1c12 or r1,4c12 (rows 1 and 4), with numbers from 1 to ${order}`
  return new InputError('text-symbol', `"${shown}" names no cells here; expected ${expected}.`, {
    found: shown,
    expected,
  })
}
