import type { Board } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { HouseCells } from './clue.js'

/** Small questions to a board, as a person asks them who hunts for a pattern. */

export function openCells(board: Board): number[] {
  return Array.from(board.digits.keys()).filter((cell) => board.digits[cell] === 0)
}

export function candidatesIn(board: Board, cell: number): number[] {
  return digitsOf(board.candidates[cell]!)
}

/** The digits that cells have between them. */
export function digitsBetween(board: Board, cells: readonly number[]): number[] {
  return digitsOf(cells.reduce<DigitSet>((set, cell) => set | board.candidates[cell]!, 0))
}

/** Open cells of the house that have the digit. */
export function placesOf(board: Board, house: number, digit: number): number[] {
  return layoutOf(board.geometry).houses[house]!.cells.filter(
    (cell) => board.digits[cell] === 0 && candidatesIn(board, cell).includes(digit),
  )
}

export function openIn(board: Board, house: number): number[] {
  return layoutOf(board.geometry).houses[house]!.cells.filter((cell) => board.digits[cell] === 0)
}

export function cellsOfFew(board: Board, most: number): number[] {
  return openCells(board).filter((cell) => {
    const count = digitCount(board.candidates[cell]!)
    return count > 1 && count <= most
  })
}

/** The houses of these kinds in which the digit has from two to so many places. */
export function housesOfFew(
  board: Board,
  digit: number,
  within: 'row' | 'column' | 'any',
  most: number,
): HouseCells[] {
  return layoutOf(board.geometry).houses.flatMap(({ index, kind }) => {
    if (within !== 'any' && kind !== within) return []
    const cells = placesOf(board, index, digit)
    return cells.length >= 2 && cells.length <= most ? [{ house: index, cells }] : []
  })
}

/** Cells with just these candidates. */
export function cellsAlike(board: Board, digits: readonly number[]): number[] {
  return openCells(board).filter((cell) => candidatesIn(board, cell).join() === digits.join())
}

/** Open cells with the digit that see all of these cells and are none of them. */
export function seenByAll(board: Board, digit: number, cells: readonly number[]): number[] {
  const layout = layoutOf(board.geometry)
  return openCells(board).filter(
    (cell) =>
      !cells.includes(cell) &&
      candidatesIn(board, cell).includes(digit) &&
      cells.every((other) => layout.arePeers(cell, other)),
  )
}

/** All choices of so many of the items, few enough to be gone through. */
export function choices<T>(items: readonly T[], size: number): T[][] {
  if (size === 0) return [[]]
  return items.flatMap((item, i) => choices(items.slice(i + 1), size - 1).map((rest) => [item, ...rest]))
}

export function housesWith(board: Board, cells: readonly number[]): number[] {
  const layout = layoutOf(board.geometry)
  return (layout.housesOf[cells[0]!] ?? []).filter((house) =>
    cells.every((cell) => layout.positionIn(house, cell) >= 0),
  )
}
