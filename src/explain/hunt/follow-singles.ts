import { contradictionOf } from '../../grid/board/ask.js'
import { applyTo } from '../../grid/board/edit.js'
import type { Board, Candidate } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import { candidatesIn, openCells, placesOf } from './board-facts.js'

/** The board with a candidate supposed true and all singles placed; `undefined` where something has nothing left. */
export function followSingles(board: Board, supposed: Candidate): Board | undefined {
  let next: Candidate | undefined = supposed
  let now = board
  while (next) {
    now = applyTo(now, { placements: [next], removals: [] })
    if (contradictionOf(now)) return undefined
    next = singleOf(now)
  }
  return now
}

function singleOf(board: Board): Candidate | undefined {
  for (const cell of openCells(board)) {
    const [digit, ...more] = candidatesIn(board, cell)
    if (digit !== undefined && more.length === 0) return { cell, digit }
  }
  for (const { index } of layoutOf(board.geometry).houses)
    for (let digit = 1; digit <= board.geometry.order; digit++) {
      const [cell, ...more] = placesOf(board, index, digit)
      if (cell !== undefined && more.length === 0) return { cell, digit }
    }
  return undefined
}

/** Is there a candidate of the board that neither of two later boards has? */
export function shareSomething(board: Board, one: Board, other: Board): boolean {
  const has = (after: Board, cell: number, digit: number) =>
    after.digits[cell] === 0 ? candidatesIn(after, cell).includes(digit) : after.digits[cell] === digit
  return openCells(board).some((cell) =>
    candidatesIn(board, cell).some((digit) => !has(one, cell, digit) && !has(other, cell, digit)),
  )
}
