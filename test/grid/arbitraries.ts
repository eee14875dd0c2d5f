import fc from 'fast-check'
import { isNoted } from '../../src/grid/board/ask.js'
import { boardFromMarks } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { allDigits } from '../../src/grid/digits.js'
import { boxedGeometry, type Geometry, regionGeometry } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { seededRandom, shuffled } from '../../src/grid/random.js'

/** The standard seed of the property tests here, so that a failure comes back. */
export const SEED = 20_240_611

/** A 9×9 jigsaw: the boxes of the standard grid with their borders moved about. */
export const JIGSAW = regionGeometry('jigsaw 9', [
  ...[0, 0, 0, 1, 1, 1, 1, 2, 2],
  ...[0, 0, 0, 1, 1, 1, 2, 2, 2],
  ...[0, 0, 3, 1, 1, 4, 2, 2, 2],
  ...[0, 3, 3, 3, 4, 4, 4, 2, 5],
  ...[3, 3, 3, 3, 4, 4, 5, 5, 5],
  ...[3, 6, 6, 4, 4, 4, 5, 5, 5],
  ...[6, 6, 6, 7, 7, 7, 7, 5, 5],
  ...[6, 6, 7, 7, 7, 8, 8, 8, 8],
  ...[6, 6, 7, 7, 8, 8, 8, 8, 8],
])

/** A standard grid whose diagonals hold each digit once as well. */
export const DIAGONAL = regionGeometry(
  'diagonal 9',
  Array.from({ length: 81 }, (_, cell) => Math.floor(cell / 27) * 3 + Math.floor((cell % 9) / 3)),
  { diagonals: true },
)

export const BOXED_GEOMETRIES: readonly Geometry[] = [
  boxedGeometry(2, 2),
  boxedGeometry(2, 3),
  boxedGeometry(3, 2),
  boxedGeometry(3, 3),
  boxedGeometry(3, 4),
  boxedGeometry(4, 3),
  boxedGeometry(2, 6),
  boxedGeometry(4, 4),
]

export const GEOMETRIES: readonly Geometry[] = [...BOXED_GEOMETRIES, JIGSAW, DIAGONAL]

/** Any givens at all: few or many, clashing or not. */
export function anyPuzzle(geometry: Geometry): fc.Arbitrary<Puzzle> {
  return fc
    .constantFrom(0, 1, 3, 9)
    .chain((weight) =>
      fc.array(
        fc.oneof(
          { weight: 3, arbitrary: fc.constant(0) },
          { weight, arbitrary: fc.integer({ min: 1, max: geometry.order }) },
        ),
        { minLength: geometry.cellCount, maxLength: geometry.cellCount },
      ),
    )
    .map((givens) => shownAsText(makePuzzle(givens, geometry)))
}

/** A puzzle with digits placed and candidates struck out at will, down to none or one in a cell. */
export function anyBoard(geometry: Geometry): fc.Arbitrary<Board> {
  const all = allDigits(geometry.order)
  const cells = { minLength: geometry.cellCount, maxLength: geometry.cellCount }
  const someDigit = fc.integer({ min: 1, max: geometry.order })
  const marks = fc.oneof(
    fc.constant(undefined),
    fc.constant(all),
    fc.constant(0),
    someDigit.map((digit) => 1 << (digit - 1)),
    fc.integer({ min: 0, max: all }),
  )
  const placed = fc.oneof({ weight: 6, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: someDigit })
  return fc
    .tuple(anyPuzzle(geometry), fc.array(placed, cells), fc.array(marks, cells))
    .map(([puzzle, digits, candidates]) => {
      const standing = puzzle.givens.map((given, cell) => given || digits[cell]!)
      return shownAsText(boardFromMarks(puzzle, standing, candidates))
    })
}

/** A full grid without clashes, drawn from a seed by backtracking on the cell with the fewest digits left. */
export function fullGrid(geometry: Geometry, seed: number): Puzzle {
  const layout = layoutOf(geometry)
  const random = seededRandom(seed)
  const digits = new Array<number>(geometry.cellCount).fill(0)
  const open = (cell: number) =>
    Array.from({ length: geometry.order }, (_, i) => i + 1).filter(
      (digit) => !layout.peersOf[cell]!.some((peer) => digits[peer] === digit),
    )
  const fill = (): boolean => {
    let next = -1
    let choices: number[] = []
    for (const cell of digits.keys()) {
      if (digits[cell]) continue
      const here = open(cell)
      if (next < 0 || here.length < choices.length) {
        next = cell
        choices = here
      }
    }
    if (next < 0) return true
    for (const digit of shuffled(choices, random)) {
      digits[next] = digit
      if (fill()) return true
    }
    digits[next] = 0
    return false
  }
  fill()
  return makePuzzle(digits, geometry)
}

/** Part of a full grid, from a few givens to all of it: no clashes, and as regular as puzzles get. */
export function anyPartOfAGrid(geometry: Geometry): fc.Arbitrary<Puzzle> {
  return fc
    .tuple(fc.integer(), fc.constantFrom(0, 0.05, 0.4, 0.7), fc.integer())
    .map(([seed, blank, holes]) => {
      const random = seededRandom(holes)
      const { givens } = fullGrid(geometry, seed)
      return shownAsText(
        makePuzzle(
          givens.map((digit) => (random() < blank ? 0 : digit)),
          geometry,
        ),
      )
    })
}

/** Everything that a board shows, for comparison. */
export function boardFacts(board: Board) {
  return {
    houses: layoutOf(board.geometry)
      .houses.map((house) => house.cells.join())
      .join(' '),
    given: Array.from(board.given),
    digits: Array.from(board.digits),
    candidates: Array.from(board.candidates),
    noted: Array.from(board.digits, (digit, cell) => digit !== 0 || isNoted(board, cell)),
  }
}

/** So that a failing property prints a drawing and not every peer of every cell. */
function shownAsText<T extends Puzzle | Board>(value: T): T {
  const board: Puzzle | Board = value
  const facts = () => JSON.stringify('candidates' in board ? boardFacts(board) : board.givens)
  // a puzzle is frozen, so its copy bears the method
  return Object.defineProperty('candidates' in board ? value : { ...value }, fc.toStringMethod, {
    value: facts,
  })
}
