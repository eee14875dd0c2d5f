import { argumentError, type Check } from '../check-arguments.js'
import type { DigitStyle } from '../grid/digit-names.js'
import { cellName, type Geometry } from '../grid/geometry.js'
import { cellGroups } from './cell-names.js'

/**
 * How cells are named: `short` for print (`r4c2`, several as `r4c26`), `spoken` for the ear (`row 4, column 2`), or a
 * function of an app's own, whose names must not be empty.
 */
export type CellNaming = 'short' | 'spoken' | ((cell: number, geometry: Geometry) => string)

/** What a language needs to know to name cells, houses and digits. */
export interface Names {
  readonly geometry: Geometry
  readonly digits: DigitStyle
  readonly cells: CellNaming
}

/** Cells of one line, as a language speaks of them. */
export interface CellsOfLine {
  readonly row: readonly number[]
  readonly column: readonly number[]
}

export const checkCellNaming: Check = (value, name) => {
  if (value !== 'short' && value !== 'spoken' && typeof value !== 'function')
    throw argumentError(name, 'short, spoken or a function that names a cell', value)
}

/** The cells as items of a list: names of their own, or groups. `speak` says a group whose rows or columns are one. */
export function namedCells(
  { geometry, cells: naming }: Names,
  cells: readonly number[],
  speak: (group: CellsOfLine) => string,
): string[] {
  if (typeof naming === 'function') return cells.map((cell) => ownName(naming(cell, geometry)))
  if (naming === 'short')
    return cells.length === 1 ? [cellName(geometry, cells[0]!)] : cellGroups(geometry, cells)
  return linesOf(geometry.order, cells).map(speak)
}

/** Names come from the caller's function, whose types may have been passed by. */
function ownName(name: unknown): string {
  if (typeof name !== 'string' || name === '')
    throw argumentError('cells', 'a function that gives each cell a name', name)
  return name
}

/** By rows or by columns, whichever gives fewer groups; numbers from 1, ascending. */
function linesOf(order: number, cells: readonly number[]): CellsOfLine[] {
  const rowOf = (cell: number) => Math.floor(cell / order) + 1
  const columnOf = (cell: number) => (cell % order) + 1
  const gather = (near: (cell: number) => number, far: (cell: number) => number) => {
    const lines = new Map<number, number[]>()
    for (const cell of [...cells].sort((a, b) => a - b)) {
      const line = lines.get(near(cell))
      if (line) line.push(far(cell))
      else lines.set(near(cell), [far(cell)])
    }
    return [...lines]
  }
  const rows = gather(rowOf, columnOf)
  const columns = gather(columnOf, rowOf)
  return rows.length <= columns.length
    ? rows.map(([row, column]) => ({ row: [row], column }))
    : columns.map(([column, row]) => ({ row, column: [column] }))
}
