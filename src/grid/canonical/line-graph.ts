import { type DigitSet, digitBit, lowestBit } from '../digits.js'
import type { Puzzle } from '../puzzle.js'

/**
 * A grid as what its symmetries move: lines (rows, then columns), digits, groups of lines (bands, then stacks) and the
 * two sides (all rows, all columns). Vertices are numbered in that order. Each digit that a cell shows ties a row, a
 * column and a digit; each line belongs to a group, each group to a side. Two grids are equivalent under relabelling,
 * line, band and stack swaps and transposition exactly when these structures are.
 */
export interface LineGraph {
  readonly order: number
  readonly vertexCount: number
  /** First digit, first group and first side among the vertices. */
  readonly firstDigit: number
  readonly firstGroup: number
  readonly firstSide: number
  /** What cells show as row, column, digit vertices, three entries each. */
  readonly ties: Uint8Array
  /** cell -> the digits that it shows: its given alone, or its marks */
  readonly shown: ArrayLike<DigitSet>
  /** line or group -> its group or side */
  readonly parentOf: Uint8Array
  /** How many ties a line, digit or group takes part in; all ties for a side. */
  readonly degree: Uint16Array
  /** Rows and columns may change places: boxes are square. */
  readonly squareBoxes: boolean
}

/** The graph of a puzzle's givens. */
export function lineGraph({ geometry, givens }: Puzzle, boxRows: number, boxColumns: number): LineGraph {
  const shown = Array.from(givens, (digit) => (digit === 0 ? 0 : digitBit(digit)))
  return lineGraphOf(geometry.order, boxRows, boxColumns, shown)
}

/** @param shown cell -> the digits it shows */
export function lineGraphOf(
  order: number,
  boxRows: number,
  boxColumns: number,
  shown: ArrayLike<DigitSet>,
): LineGraph {
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

  const ties: number[] = []
  const degree = new Uint16Array(vertexCount)
  for (let cell = 0; cell < shown.length; cell++) {
    const row = Math.floor(cell / order)
    const column = order + (cell % order)
    for (let rest = shown[cell]!; rest !== 0; rest &= rest - 1) {
      const digit = firstDigit + lowestBit(rest)
      ties.push(row, column, digit)
      degree[digit]!++
      for (const line of [row, column]) {
        degree[line]!++
        degree[parentOf[line]!]!++
        degree[parentOf[parentOf[line]!]!]!++
      }
    }
  }
  return {
    order,
    vertexCount,
    firstDigit,
    firstGroup,
    firstSide,
    ties: Uint8Array.from(ties),
    shown,
    parentOf,
    degree,
    squareBoxes: boxRows === boxColumns,
  }
}
