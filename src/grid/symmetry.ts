import { argumentError, isWhole, listOf, object, shown } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { puzzleOf } from './board/ask.js'
import { boardFromParts } from './board/make.js'
import { type Board, type Candidate, type Conclusion, checkBoard } from './board.js'
import { type DigitSet, digitBit, digitsOf } from './digits.js'
import { boxedGeometry, checkGeometry, type Geometry } from './geometry.js'
import { layoutOf } from './layout.js'
import { checkPuzzle, makePuzzle, type Puzzle } from './puzzle.js'
import { seededRandom, shuffled } from './random.js'

/**
 * A change of a grid that keeps the puzzle: cells move so that houses stay houses, digits change names. Whatever is
 * true of a puzzle is true of its image, which is what property tests are made of.
 */
export interface GridTransform {
  readonly from: Geometry
  /** The image's geometry; another one only where boxes are turned on their side (2×3 to 3×2). */
  readonly to: Geometry
  /** old cell -> new cell */
  readonly cellTo: readonly number[]
  /** old digit -> new digit; index 0 stays 0 */
  readonly digitTo: readonly number[]
  /** old house -> new house */
  readonly houseTo: readonly number[]
}

/**
 * A transform from where cells and digits go.
 *
 * @throws InputError `argument` when these are no permutations, or when some house would not stay a house.
 *
 * @example
 * const cells = Array.from({ length: 81 }, (_, cell) => 80 - cell)
 * const halfTurn = makeTransform(STANDARD, STANDARD, cells)
 * transformPuzzle(puzzle, halfTurn).givens[80] // → 5
 */
export function makeTransform(
  from: Geometry,
  to: Geometry,
  cellTo: readonly number[],
  digitTo?: readonly number[],
): GridTransform {
  checkGeometry(from, 'from')
  checkGeometry(to, 'to')
  assertPermutation('Cells', cellTo, from.cellCount)
  const names = digitTo === undefined ? identity(from.order + 1) : digitTo
  assertPermutation('Digits', names, from.order + 1)
  if (names[0] !== 0) throw new InputError('argument', 'An empty cell stays empty: digitTo[0] must be 0.')
  const housesByCells = new Map(layoutOf(to).houses.map((house) => [house.cells.join(), house.index]))
  const houseTo = layoutOf(from).houses.map((house) => {
    const image = house.cells.map((cell) => cellTo[cell]!).sort((a, b) => a - b)
    const index = housesByCells.get(image.join())
    if (index === undefined)
      throw new InputError('argument', `The image of ${house.name} is no house of ${to.name}.`)
    return index
  })
  return { from, to, cellTo, digitTo: names, houseTo }
}

function assertPermutation(what: string, list: readonly number[], length: number): void {
  const isComplete = Array.isArray(list) && list.length === length && new Set(list).size === length
  if (!isComplete || !list.every((x) => Number.isInteger(x) && x >= 0 && x < length)) {
    throw new InputError(
      'argument',
      `${what} must be sent to every number from 0 to ${length - 1}, each once.`,
    )
  }
}

/**
 * New names for digits: `digitTo[d]` for digit d, index 0 unused (0).
 *
 * @example
 * const swap = relabelling(STANDARD, [0, 2, 1, 3, 4, 5, 6, 7, 8, 9])
 * transformCandidate({ cell: 0, digit: 1 }, swap) // → { cell: 0, digit: 2 }
 */
export function relabelling(geometry: Geometry, digitTo: readonly number[]): GridTransform {
  checkGeometry(geometry)
  assertPermutation('Digits', digitTo, geometry.order + 1)
  return makeTransform(geometry, geometry, identity(geometry.cellCount), digitTo)
}

/**
 * Rows and columns to new places: row r goes to `rowTo[r]`. Rows of a band must stay together, and so must the columns
 * of a stack.
 *
 * @throws InputError `argument` when they do not.
 *
 * @example
 * const swap = lineSwap(STANDARD, [1, 0, 2, 3, 4, 5, 6, 7, 8])
 * transformCandidate({ cell: 0, digit: 5 }, swap) // → { cell: 9, digit: 5 }
 */
export function lineSwap(
  geometry: Geometry,
  rowTo: readonly number[],
  columnTo?: readonly number[],
): GridTransform {
  checkGeometry(geometry)
  assertPermutation('Rows', rowTo, geometry.order)
  const columns = columnTo === undefined ? identity(geometry.order) : columnTo
  assertPermutation('Columns', columns, geometry.order)
  return makeTransform(
    geometry,
    geometry,
    cellMap(geometry.order, (r, c) => [rowTo[r]!, columns[c]!]),
  )
}

/**
 * Rows become columns. Boxes of 2×3 become boxes of 3×2.
 *
 * @example
 * transformCandidate({ cell: 1, digit: 5 }, transposition(STANDARD)) // → { cell: 9, digit: 5 }
 */
export function transposition(geometry: Geometry): GridTransform {
  checkGeometry(geometry)
  return turned(geometry, (r, c) => [c, r])
}

/**
 * A quarter turn clockwise.
 *
 * @example
 * transformCandidate({ cell: 0, digit: 5 }, quarterTurn(STANDARD)) // → { cell: 8, digit: 5 }
 */
export function quarterTurn(geometry: Geometry): GridTransform {
  checkGeometry(geometry)
  return turned(geometry, (r, c) => [c, geometry.order - 1 - r])
}

/**
 * Left and right change places.
 *
 * @example
 * transformCandidate({ cell: 0, digit: 5 }, mirroring(STANDARD)) // → { cell: 8, digit: 5 }
 */
export function mirroring(geometry: Geometry): GridTransform {
  checkGeometry(geometry)
  return turned(geometry, (r, c) => [r, geometry.order - 1 - c])
}

function turned(
  geometry: Geometry,
  move: (r: number, c: number) => readonly [number, number],
): GridTransform {
  const { order, box } = geometry
  const swapsSides = move(0, 0)[0] !== move(0, 1)[0]
  const to = box && swapsSides ? boxedGeometry(box.columns, box.rows) : geometry
  return makeTransform(geometry, to, cellMap(order, move))
}

/**
 * First one, then the other.
 *
 * @example
 * const halfTurn = followedBy(quarterTurn(STANDARD), quarterTurn(STANDARD))
 * halfTurn.cellTo[0] // → 80
 */
export function followedBy(first: GridTransform, second: GridTransform): GridTransform {
  checkTransform(first, 'first')
  checkTransform(second, 'second')
  if (first.to.key !== second.from.key) {
    throw new InputError(
      'argument',
      `A transform to ${first.to.name} cannot be followed by one from ${second.from.name}.`,
    )
  }
  return {
    from: first.from,
    to: second.to,
    cellTo: first.cellTo.map((cell) => second.cellTo[cell]!),
    digitTo: first.digitTo.map((digit) => second.digitTo[digit]!),
    houseTo: first.houseTo.map((house) => second.houseTo[house]!),
  }
}

/**
 * The transform that undoes this one.
 *
 * @example
 * inverse(quarterTurn(STANDARD)).cellTo[8] // → 0
 */
export function inverse(transform: GridTransform): GridTransform {
  checkTransform(transform)
  const { from, to, cellTo, digitTo, houseTo } = transform
  return {
    from: to,
    to: from,
    cellTo: inverted(cellTo),
    digitTo: inverted(digitTo),
    houseTo: inverted(houseTo),
  }
}

/**
 * A transform drawn from all that keep the geometry: digits always; for boxed grids bands, stacks, lines within them
 * and, with square boxes, transposition; for other grids the turns and mirrorings that send regions to regions. Each
 * is as likely as any other.
 *
 * @throws InputError `argument` for a seed that is no whole number
 *
 * @example
 * transformPuzzle(puzzle, randomTransform(STANDARD, 7)) // the same puzzle in other clothes
 */
export function randomTransform(geometry: Geometry, seed: number): GridTransform {
  checkGeometry(geometry)
  const random = seededRandom(seed)
  const digitTo = [0, ...shuffled(identity(geometry.order), random).map((digit) => digit + 1)]
  const moved = geometry.box ? randomLines(geometry, geometry.box, random) : randomTurn(geometry, random)
  return followedBy(moved, relabelling(geometry, digitTo))
}

function randomLines(
  geometry: Geometry,
  box: { readonly rows: number; readonly columns: number },
  random: () => number,
): GridTransform {
  const lines = lineSwap(
    geometry,
    randomWithinGroups(geometry.order, box.rows, random),
    randomWithinGroups(geometry.order, box.columns, random),
  )
  return box.rows === box.columns && random() < 0.5 ? followedBy(lines, transposition(geometry)) : lines
}

function randomWithinGroups(order: number, size: number, random: () => number): number[] {
  return shuffled(identity(order / size), random).flatMap((group) =>
    shuffled(identity(size), random).map((i) => group * size + i),
  )
}

function randomTurn(geometry: Geometry, random: () => number): GridTransform {
  const turns = squareSymmetries(geometry)
  return turns[Math.floor(random() * turns.length)]!
}

/**
 * Those of the eight turns and mirrorings of the square that send every house to a house, the identity first.
 *
 * @example
 * squareSymmetries(STANDARD).length // → 8
 * squareSymmetries(boxedGeometry(2, 3)).length // → 4
 */
export function squareSymmetries(geometry: Geometry): GridTransform[] {
  checkGeometry(geometry)
  const last = geometry.order - 1
  const moves: ((r: number, c: number) => readonly [number, number])[] = [
    (r, c) => [r, c],
    (r, c) => [c, last - r],
    (r, c) => [last - r, last - c],
    (r, c) => [last - c, r],
    (r, c) => [r, last - c],
    (r, c) => [last - r, c],
    (r, c) => [c, r],
    (r, c) => [last - c, last - r],
  ]
  return moves.flatMap((move) => {
    try {
      return [makeTransform(geometry, geometry, cellMap(geometry.order, move))]
    } catch (error) {
      if (error instanceof InputError) return []
      throw error
    }
  })
}

/**
 * The image of a puzzle; what is true of the one is true of the other.
 *
 * @throws InputError `argument` when the transform is for another geometry
 *
 * @example
 * transformPuzzle(puzzle, quarterTurn(STANDARD)).givens[8] // → 5
 */
export function transformPuzzle(puzzle: Puzzle, transform: GridTransform): Puzzle {
  checkPuzzle(puzzle)
  checkTransform(transform)
  assertFrom(puzzle.geometry, transform)
  return makePuzzle(moveDigits(puzzle.givens, transform), transform.to)
}

/**
 * The same half-solved board seen through the transform: givens, placed digits, removals and notes.
 *
 * @example
 * transformBoard(board, quarterTurn(STANDARD)).digits[8] // → 5
 */
export function transformBoard(board: Board, transform: GridTransform): Board {
  checkBoard(board)
  checkTransform(transform)
  assertFrom(board.geometry, transform)
  const removed = new Array<DigitSet>(board.geometry.cellCount).fill(0)
  const noted = new Array<number>(board.geometry.cellCount).fill(0)
  for (let cell = 0; cell < removed.length; cell++) {
    removed[transform.cellTo[cell]!] = moveSet(board.removed[cell]!, transform)
    noted[transform.cellTo[cell]!] = board.noted[cell]!
  }
  const digits = moveDigits(board.digits, transform)
  return boardFromParts(transformPuzzle(puzzleOf(board), transform), { digits, removed, noted })
}

/**
 * Where a candidate goes.
 *
 * @throws InputError `argument` for a cell or digit that the geometry does not have
 *
 * @example
 * transformCandidate({ cell: 0, digit: 5 }, transposition(STANDARD)) // → { cell: 0, digit: 5 }
 */
export function transformCandidate(candidate: Candidate, transform: GridTransform): Candidate {
  checkTransform(transform)
  object(candidate, 'candidate')
  const { cell, digit } = candidate
  const { cellCount, order } = transform.from
  if (!isWhole(cell, 0, cellCount - 1) || !isWhole(digit, 1, order))
    throw new InputError(
      'argument',
      `There is no digit ${shown(digit)} in cell ${shown(cell)} of ${transform.from.name}.`,
    )
  return { cell: transform.cellTo[cell]!, digit: transform.digitTo[digit]! }
}

/**
 * What a deduction does to a board, in the transformed grid; candidates in order of cell and digit.
 *
 * @example
 * transformConclusion(step, transposition(STANDARD)).removals // → [{ cell: 78, digit: 1 }]
 */
export function transformConclusion(conclusion: Conclusion, transform: GridTransform): Conclusion {
  checkTransform(transform)
  object(conclusion, 'conclusion')
  checkList(conclusion.placements, 'conclusion.placements')
  checkList(conclusion.removals, 'conclusion.removals')
  const move = (candidates: readonly Candidate[]) =>
    candidates
      .map((candidate) => transformCandidate(candidate, transform))
      .sort((a, b) => a.cell - b.cell || a.digit - b.digit)
  return { placements: move(conclusion.placements), removals: move(conclusion.removals) }
}

const checkList = listOf(object)

/** Transforms are plain data of known shape; what made them has looked at the numbers. */
function checkTransform(transform: GridTransform, name = 'transform'): void {
  object(transform, name)
  const { from, to, cellTo, digitTo, houseTo } = transform
  checkGeometry(from, `${name}.from`)
  checkGeometry(to, `${name}.to`)
  checkMap(cellTo, from.cellCount, `${name}.cellTo`)
  checkMap(digitTo, from.order + 1, `${name}.digitTo`)
  checkMap(houseTo, layoutOf(from).houses.length, `${name}.houseTo`)
}

function checkMap(list: readonly number[], length: number, name: string): void {
  if (!Array.isArray(list) || list.length !== length)
    throw argumentError(name, `a list of ${length} numbers`, list)
  for (let i = 0; i < length; i++)
    if (!isWhole(list[i], 0, length - 1))
      throw argumentError(`${name}[${i}]`, `a whole number from 0 to ${length - 1}`, list[i])
}

function assertFrom(geometry: Geometry, transform: GridTransform): void {
  if (geometry.key !== transform.from.key) {
    throw new InputError(
      'argument',
      `A transform of ${transform.from.name} cannot be applied to ${geometry.name}.`,
    )
  }
}

function moveDigits(digits: ArrayLike<number>, { cellTo, digitTo }: GridTransform): number[] {
  const moved = new Array<number>(digits.length).fill(0)
  for (let cell = 0; cell < digits.length; cell++) moved[cellTo[cell]!] = digitTo[digits[cell]!]!
  return moved
}

function moveSet(set: DigitSet, { digitTo }: GridTransform): DigitSet {
  return digitsOf(set).reduce((moved, digit) => moved | digitBit(digitTo[digit]!), 0)
}

function cellMap(order: number, move: (r: number, c: number) => readonly [number, number]): number[] {
  return Array.from({ length: order * order }, (_, cell) => {
    const [r, c] = move(Math.floor(cell / order), cell % order)
    return r * order + c
  })
}

function identity(length: number): number[] {
  return Array.from({ length }, (_, i) => i)
}

function inverted(list: readonly number[]): number[] {
  const back = new Array<number>(list.length)
  list.forEach((x, i) => {
    back[x] = i
  })
  return back
}
