import type { Puzzle } from '../puzzle.js'

/**
 * A puzzle as what its symmetries move: lines (rows, then columns), digits, groups of lines (bands, then stacks) and the
 * two sides (all rows, all columns). Vertices are numbered in that order. Each given ties a row, a column and a digit;
 * each line belongs to a group, each group to a side. Two puzzles are equivalent under relabelling, line, band and
 * stack swaps and transposition exactly when these structures are.
 */
export interface LineGraph {
  readonly order: number
  readonly vertexCount: number
  /** First digit, first group and first side among the vertices. */
  readonly firstDigit: number
  readonly firstGroup: number
  readonly firstSide: number
  /** Givens as row, column, digit vertices, three entries each. */
  readonly givens: Uint8Array
  /** cell -> vertex of its digit, or 0 */
  readonly digitAt: Uint8Array
  /** line or group -> its group or side */
  readonly parentOf: Uint8Array
  /** How many givens a line, digit or group takes part in; all givens for a side. */
  readonly degree: Uint16Array
  /** Rows and columns may change places: boxes are square. */
  readonly squareBoxes: boolean
}

export function lineGraph(puzzle: Puzzle, boxRows: number, boxColumns: number): LineGraph {
  const { order } = puzzle.geometry
  const firstDigit = 2 * order
  const firstGroup = 3 * order
  const bands = order / boxRows
  const stacks = order / boxColumns
  const firstSide = firstGroup + bands + stacks
  const vertexCount = firstSide + 2

  const parentOf = new Uint8Array(vertexCount)
  for (let i = 0; i < order; i++) {
    parentOf[i] = firstGroup + Math.floor(i / boxRows)
    parentOf[order + i] = firstGroup + bands + Math.floor(i / boxColumns)
  }
  for (let g = 0; g < bands + stacks; g++) parentOf[firstGroup + g] = g < bands ? firstSide : firstSide + 1

  const givens: number[] = []
  const digitAt = new Uint8Array(order * order)
  const degree = new Uint16Array(vertexCount)
  puzzle.givens.forEach((digit, cell) => {
    if (digit === 0) return
    const row = Math.floor(cell / order)
    const column = order + (cell % order)
    givens.push(row, column, firstDigit + digit - 1)
    digitAt[cell] = firstDigit + digit - 1
    degree[firstDigit + digit - 1]!++
    for (const line of [row, column]) {
      degree[line]!++
      degree[parentOf[line]!]!++
      degree[parentOf[parentOf[line]!]!]!++
    }
  })
  return {
    order,
    vertexCount,
    firstDigit,
    firstGroup,
    firstSide,
    givens: Uint8Array.from(givens),
    digitAt,
    parentOf,
    degree,
    squareBoxes: boxRows === boxColumns,
  }
}
