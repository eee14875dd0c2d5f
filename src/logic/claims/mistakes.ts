import type { Board, Candidate } from '../../grid/board.js'
import { type Clash, findClashes } from '../../grid/puzzle.js'

/** Something on a person's board that keeps it from the solution. */
export type Mistake =
  /** A house has a digit more than once. `wrong` are those of its cells in which it is not the solution's. */
  | {
      readonly kind: 'clash'
      readonly house: number
      readonly digit: number
      readonly cells: readonly number[]
      readonly wrong: readonly number[]
    }
  /** A digit that clashes with none and yet is not the solution's. */
  | ({ readonly kind: 'not-the-solution' } & Candidate)
  /** A pencil mark that was removed although the solution has it. */
  | ({ readonly kind: 'removed' } & Candidate)

/** What is wrong as a person would see it, plainest first: clashes, other wrong digits, removed marks. */
export function mistakesOf(
  board: Board,
  wrongDigits: readonly Candidate[],
  wrongRemovals: readonly Candidate[],
): Mistake[] {
  const clashes = wrongDigits.length > 0 ? largest(findClashes(board.geometry, board.digits)) : []
  const isIn = ({ cells }: Clash, cell: number): boolean => cells.includes(cell)
  return [
    ...clashes.map(({ house, digit, cells }) => {
      const wrong = cells.filter((cell) => wrongDigits.some((other) => other.cell === cell))
      return { kind: 'clash' as const, house, digit, cells, wrong }
    }),
    ...wrongDigits
      .filter(({ cell }) => !clashes.some((clash) => isIn(clash, cell)))
      .map(({ cell, digit }) => ({ kind: 'not-the-solution' as const, cell, digit })),
    ...wrongRemovals.map(({ cell, digit }) => ({ kind: 'removed' as const, cell, digit })),
  ]
}

/** Two cells may clash in a row and in a box: that is said once, for the first house that has all the cells. */
function largest(clashes: readonly Clash[]): readonly Clash[] {
  const holds = (one: Clash, other: Clash) => other.cells.every((cell) => one.cells.includes(cell))
  return clashes.filter(
    (clash, i) =>
      !clashes.some(
        (other, j) => j !== i && holds(other, clash) && (other.cells.length > clash.cells.length || j < i),
      ),
  )
}
