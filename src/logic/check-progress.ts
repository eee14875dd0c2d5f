import { solutionsOf } from '../count/count-solutions.js'
import type { Board, Candidate } from '../grid/board.js'
import type { Puzzle } from '../grid/puzzle.js'
import { assertOnBoard, type Claim } from './claim.js'

export interface ProgressOptions {
  /** The person's entries in the order in which they were made: digits written and candidates struck out. */
  readonly history?: readonly Claim[]
}

export type Progress =
  | {
      readonly status: 'on-track' | 'off-track'
      /** Digits that are not those of the solution. */
      readonly wrongDigits: readonly Candidate[]
      /** Candidates of the solution that are struck out, but for those that a wrong digit in sight explains. */
      readonly wrongRemovals: readonly Candidate[]
      /** The first entry of the history that the solution contradicts. */
      readonly firstWrong?: { readonly index: number; readonly entry: Claim }
      /** Cells still without a digit. */
      readonly open: number
    }
  /** Right and wrong mean nothing: the puzzle has no solution, or several, or counting gave up. */
  | { readonly status: 'unsound-puzzle'; readonly solutions: 'none' | 'several' | 'undecided' }

const COUNT_BUDGET = 1_000_000

/**
 * How a half-solved board stands against the one solution of its puzzle.
 *
 * @throws RangeError when the board is of another size than the puzzle, or an entry of the history lies outside it
 */
export function checkProgress(puzzle: Puzzle, board: Board, options: ProgressOptions = {}): Progress {
  const history = options.history ?? []
  if (board.geometry.cellCount !== puzzle.geometry.cellCount)
    throw new RangeError(
      `The board has ${board.geometry.cellCount} cells, the puzzle ${puzzle.geometry.cellCount}: it is not this puzzle's.`,
    )
  assertOnBoard(board.geometry, history)
  const { solutions, complete } = solutionsOf(puzzle, { limit: 2, nodeBudget: COUNT_BUDGET })
  if (solutions.length > 1) return { status: 'unsound-puzzle', solutions: 'several' }
  if (!complete) return { status: 'unsound-puzzle', solutions: 'undecided' }
  const [solution] = solutions
  if (!solution) return { status: 'unsound-puzzle', solutions: 'none' }

  const wrongDigits: Candidate[] = []
  const wrongRemovals: Candidate[] = []
  for (let cell = 0; cell < solution.length; cell++) {
    const digit = board.digits[cell]!
    if (digit !== 0 && digit !== solution[cell]) wrongDigits.push({ cell, digit })
  }
  for (let cell = 0; cell < solution.length; cell++) {
    const digit = solution[cell]!
    if (board.digits[cell] !== 0 || board.hasCandidate(cell, digit)) continue
    const explained = wrongDigits.some(
      (wrong) => wrong.digit === digit && board.geometry.arePeers(wrong.cell, cell),
    )
    if (!explained) wrongRemovals.push({ cell, digit })
  }
  const index = history.findIndex(
    ({ kind, candidate: { cell, digit } }) => (solution[cell] === digit) === (kind === 'removal'),
  )
  return {
    status: wrongDigits.length + wrongRemovals.length === 0 ? 'on-track' : 'off-track',
    wrongDigits,
    wrongRemovals,
    ...(index >= 0 && { firstWrong: { index, entry: history[index]! } }),
    open: board.openCount,
  }
}
