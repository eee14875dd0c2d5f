import { checkOptions } from '../check-arguments.js'
import { runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { type Board, checkBoard } from './board.js'
import { canonicalLabelling } from './canonical/labelling.js'
import { lineGraphOf } from './canonical/line-graph.js'
import { CANONICAL_CHECKS, type CanonicalOptions, geometryKey, USUAL_NODE_BUDGET } from './canonical.js'
import { type DigitSet, digitBit } from './digits.js'
import { boxedGeometry } from './geometry.js'
import { squareSymmetries } from './symmetry.js'

/**
 * A text that is equal exactly for half-solved boards that show the same, but for the names of digits and the order of
 * lines, as `canonicalKey` has it for puzzles. What a board shows is what each cell may still be: a digit that stands
 * in a cell counts as its only candidate, and which digits were printed makes no difference.
 *
 * @throws StoppedError `budget-spent` when the search takes more than `nodeBudget` steps, `time-limit` when that was
 *   over first, `aborted` when the signal has fired
 *
 * @example
 * const image = transformBoard(board, randomTransform(STANDARD, 7))
 * canonicalBoardKey(image) === canonicalBoardKey(board) // → true
 */
export function canonicalBoardKey(board: Board, options: CanonicalOptions = {}): string {
  checkBoard(board)
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runNow(options, (watch) => boardKeyTask(board, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const key = await canonicalBoardKeyAsync(board, { signal })
 */
export async function canonicalBoardKeyAsync(board: Board, options: CanonicalOptions = {}): Promise<string> {
  checkBoard(board)
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runInSlices(options, (watch) => boardKeyTask(board, options, watch))
}

export function* boardKeyTask(
  board: Board,
  { nodeBudget = USUAL_NODE_BUDGET }: CanonicalOptions,
  watch: Watch,
): Task<string> {
  const { geometry } = board
  const { box, order } = geometry
  const shown = shownBy(board)
  if (!box) return keyByTurns(board, shown)
  const turned = box.rows > box.columns
  const [rows, columns] = turned ? [box.columns, box.rows] : [box.rows, box.columns]
  const upright = turned
    ? shown.map((_, cell) => shown[(cell % order) * order + Math.floor(cell / order)]!)
    : shown
  const graph = lineGraphOf(order, rows, columns, upright)
  const { form } = yield* canonicalLabelling(graph, nodeBudget, watch)
  return keyOf(turned ? geometryKey(boxedGeometry(rows, columns)) : geometryKey(geometry), form)
}

function shownBy({ digits, candidates }: Board): DigitSet[] {
  return candidates.map((set, cell) => (digits[cell] ? digitBit(digits[cell]!) : set))
}

function keyOf(geometry: string, shown: ArrayLike<DigitSet>): string {
  return `${geometry}:${Array.from(shown, (set) => set.toString(36)).join()}`
}

/** Of all turns the smallest key; digits are named in the order of the cells that show them. */
function keyByTurns({ geometry }: Board, shown: readonly DigitSet[]): string {
  const name = geometryKey(geometry)
  const keys = squareSymmetries(geometry).map(({ cellTo }) => {
    const moved = new Array<DigitSet>(shown.length).fill(0)
    shown.forEach((set, cell) => {
      moved[cellTo[cell]!] = set
    })
    const cellsOf = Array.from({ length: geometry.order }, (_, i) =>
      moved.map((set) => (set >> i) & 1).join(''),
    )
    // digits that the same cells show may change names without any change to be seen
    return `${name}:${cellsOf.sort().join()}`
  })
  return keys.reduce((a, b) => (b < a ? b : a))
}
