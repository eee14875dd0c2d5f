import { DancingLinks } from 'dancing-links'

const library = new DancingLinks<number>()

// 243 conditions "digit d stands in this row / column / box", numbered row, column, box × 9 + digit - 1.
function conditionsOf(cell: number, digit: number): [number, number, number] {
  const row = Math.floor(cell / 9)
  const column = cell % 9
  const box = 3 * Math.floor(row / 3) + Math.floor(column / 3)
  return [9 * row + digit - 1, 81 + 9 * column + digit - 1, 162 + 9 * box + digit - 1]
}

/**
 * Puzzles as exact cover for a general library, in its fastest input format: only columns still to be covered, only
 * rows that no given rules out. The encodings differ in the order of columns and rows, which decides ties of the
 * library's choice of column.
 */
export const COVER_ENCODINGS = ['cells first', 'houses first', 'cells first, rows by digit'] as const
export type CoverEncoding = (typeof COVER_ENCODINGS)[number]

/**
 * Up to `limit` solutions of a 9×9 puzzle, counted by the general library. Clashing givens are the caller's to rule
 * out.
 */
export function countByCover(givens: ArrayLike<number>, encoding: CoverEncoding, limit: number): number {
  const met = new Uint8Array(243)
  let open = 0
  for (let cell = 0; cell < 81; cell++) {
    const digit = givens[cell]!
    if (digit === 0) open++
    else for (const condition of conditionsOf(cell, digit)) met[condition] = 1
  }
  if (open === 0) return 1
  const columnOfCell = new Int16Array(81)
  const columnOfCondition = new Int16Array(243)
  let columns = 0
  const numberCells = () => {
    for (let cell = 0; cell < 81; cell++) if (givens[cell] === 0) columnOfCell[cell] = columns++
  }
  const numberConditions = () => {
    for (let i = 0; i < 243; i++) if (met[i] === 0) columnOfCondition[i] = columns++
  }
  if (encoding === 'houses first') {
    numberConditions()
    numberCells()
  } else {
    numberCells()
    numberConditions()
  }
  const rows: { data: number; columnIndices: number[] }[] = []
  const addRow = (cell: number, digit: number) => {
    const [a, b, c] = conditionsOf(cell, digit)
    if (givens[cell] !== 0 || met[a] || met[b] || met[c]) return
    rows.push({
      data: 10 * cell + digit,
      columnIndices: [
        columnOfCell[cell]!,
        columnOfCondition[a]!,
        columnOfCondition[b]!,
        columnOfCondition[c]!,
      ],
    })
  }
  if (encoding === 'cells first, rows by digit') {
    for (let digit = 1; digit <= 9; digit++) for (let cell = 0; cell < 81; cell++) addRow(cell, digit)
  } else {
    for (let cell = 0; cell < 81; cell++) for (let digit = 1; digit <= 9; digit++) addRow(cell, digit)
  }
  const solver = library.createSolver({ columns })
  solver.addSparseConstraints(rows)
  return solver.find(limit).length
}
