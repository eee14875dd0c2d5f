import { checkOptions, type OptionChecks } from '../../check-arguments.js'
import { soundnessTask } from '../../count/soundness.js'
import { InputError } from '../../errors.js'
import { openCount } from '../../grid/board/ask.js'
import { type Board, type Candidate, checkBoard } from '../../grid/board.js'
import { digitBit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { checkPuzzle, type Puzzle } from '../../grid/puzzle.js'
import {
  LIMIT_CHECKS,
  type Limits,
  runInSlices,
  runNow,
  type StoppedBy,
  type Task,
  type Watch,
} from '../../limits.js'
import { assertOnBoard, type Claim } from './claim.js'
import { type Mistake, mistakesOf } from './mistakes.js'

export interface ProgressOptions extends Limits {
  /** The person's entries in the order in which they were made: digits written and candidates struck out. */
  readonly history?: readonly Claim[]
}

/** How a board stands against the one solution. */
export interface JudgedProgress {
  readonly status: 'on-track' | 'off-track'
  /** Digits that are not those of the solution. */
  readonly wrongDigits: readonly Candidate[]
  /** Candidates of the solution that were removed by hand, but for those that a wrong digit in sight explains. */
  readonly wrongRemovals: readonly Candidate[]
  /** The same as a person would see it, plainest first. */
  readonly mistakes: readonly Mistake[]
  /** The first entry of the history that the solution contradicts. */
  readonly firstWrong?: { readonly index: number; readonly entry: Claim }
  /** Cells still without a digit. */
  readonly open: number
}

/** How a person's board stands. */
export type Progress =
  | JudgedProgress
  /** Right and wrong mean nothing: the puzzle has no solution, or several, or counting gave up. */
  | {
      readonly status: 'unsound-puzzle'
      readonly solutions: 'none' | 'many' | 'undecided'
      /** What counting gave up for, when undecided. */
      readonly stopped?: 'budget-spent' | StoppedBy
    }

/** Entries have a check of their own, which says where one is wrong. */
const PROGRESS_CHECKS: OptionChecks<ProgressOptions> = { ...LIMIT_CHECKS, history: () => {} }

/**
 * How a half-solved board stands against the one solution of its puzzle. Cells without a digit or without notes are no
 * mistakes, and neither are candidates that only a wrong digit rules out: they come back when it is erased or
 * overwritten.
 *
 * @throws InputError `board-foreign` when the board is not one of this puzzle: of other houses, or without its givens;
 *   `claim-shape` when an entry of the history is neither a placement nor a removal, or lies outside the board;
 *   StoppedError `aborted` when the signal has fired
 *
 * @example
 * const wrong = applyTo(board, { placements: [{ cell: 64, digit: 1 }], removals: [] })
 * checkProgress(puzzle, wrong).status // → 'off-track'
 * checkProgress(puzzle, board).status // → 'on-track'
 */
export function checkProgress(puzzle: Puzzle, board: Board, options: ProgressOptions = {}): Progress {
  checkPuzzle(puzzle)
  checkBoard(board)
  checkOptions<ProgressOptions>(options, PROGRESS_CHECKS)
  return runNow(options, (watch) => progressTask(puzzle, board, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const progress = await checkProgressAsync(puzzle, board, { signal })
 */
export async function checkProgressAsync(
  puzzle: Puzzle,
  board: Board,
  options: ProgressOptions = {},
): Promise<Progress> {
  checkPuzzle(puzzle)
  checkBoard(board)
  checkOptions<ProgressOptions>(options, PROGRESS_CHECKS)
  return runInSlices(options, (watch) => progressTask(puzzle, board, options, watch))
}

export function* progressTask(
  puzzle: Puzzle,
  board: Board,
  options: Omit<ProgressOptions, keyof Limits>,
  watch: Watch,
): Task<Progress> {
  const { history = [] } = options
  assertOfPuzzle(puzzle, board)
  assertOnBoard(board.geometry, history)
  const sound = yield* soundnessTask(puzzle, watch)
  if (sound.verdict === 'many') return { status: 'unsound-puzzle', solutions: 'many' }
  if (sound.verdict === 'none') return { status: 'unsound-puzzle', solutions: 'none' }
  if (sound.verdict === 'undecided')
    return { status: 'unsound-puzzle', solutions: 'undecided', stopped: sound.stopped }
  const { solution } = sound

  const wrongDigits: Candidate[] = []
  const wrongRemovals: Candidate[] = []
  for (let cell = 0; cell < solution.length; cell++) {
    const digit = board.digits[cell]!
    if (digit !== 0 && digit !== solution[cell]) wrongDigits.push({ cell, digit })
  }
  for (let cell = 0; cell < solution.length; cell++) {
    const digit = solution[cell]!
    // what digits rule out is nobody's removal, and goes with the wrong one among them
    if (board.digits[cell] !== 0 || (board.removed[cell]! & digitBit(digit)) === 0) continue
    const explained = wrongDigits.some(
      (wrong) => wrong.digit === digit && layoutOf(board.geometry).arePeers(wrong.cell, cell),
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
    mistakes: mistakesOf(board, wrongDigits, wrongRemovals),
    ...(index >= 0 && { firstWrong: { index, entry: history[index]! } }),
    open: openCount(board),
  }
}

/**
 * What stands on a board apart from the givens may be entries, even printed ones; but a given that is missing was never
 * there.
 */
function assertOfPuzzle({ geometry, givens }: Puzzle, board: Board): void {
  const foreign = (found: string, expected: string): InputError =>
    new InputError(
      'board-foreign',
      `The board is not of this puzzle: it has ${found}, the puzzle ${expected}. Hand in the puzzle that the board began from.`,
      { found, expected },
    )
  const cells = board.geometry.cellCount
  if (cells !== geometry.cellCount) throw foreign(`${cells} cells`, `${geometry.cellCount}`)
  if (!haveSameHouses(board.geometry, geometry))
    throw foreign(`the houses of ${board.geometry.name}`, `those of ${geometry.name}`)
  const missing = givens.findIndex((given, cell) => given !== 0 && board.digits[cell] !== given)
  if (missing >= 0)
    throw foreign(`${board.digits[missing] || 'nothing'} in cell ${missing}`, `the given ${givens[missing]}`)
}

function haveSameHouses(one: Geometry, other: Geometry): boolean {
  if (one.key === other.key) return true
  const cellsOf = (geometry: Geometry): string[] =>
    layoutOf(geometry)
      .houses.map(({ cells }) => cells.join())
      .sort()
  return cellsOf(one).join(' ') === cellsOf(other).join(' ')
}
