import type { Board } from '../grid/board.js'
import type { Task, Watch } from '../limits.js'
import { findTask } from '../logic/solving/find.js'
import type { Step } from '../logic/steps/step.js'
import { SINGLES } from './workaday.js'

/** The easiest single by which this digit is seen on the board as it stands. */
export function* asSeen(board: Board, single: Step, watch: Watch): Task<Step> {
  const [{ cell, digit }] = single.placements as [{ cell: number; digit: number }]
  const singles = yield* findTask(board, { techniques: SINGLES }, watch)
  const seen = singles.find(({ placements }) =>
    placements.some((placed) => placed.cell === cell && placed.digit === digit),
  )
  return seen ?? single
}
