import { createSearch } from '../../src/count/engine.js'
import { puzzleOf } from '../../src/grid/board/ask.js'
import { boardFromMarks, newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { allDigits, digitBit } from '../../src/grid/digits.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { shuffled } from '../../src/grid/random.js'
import { solve } from '../../src/logic/solving/solve.js'
import { DIAGONAL_9, JIGSAW_6, JIGSAW_9 } from '../count/geometries.js'

export type Random = () => number

export const below = (random: Random, n: number): number => Math.floor(random() * n)
export const pick = <Item>(random: Random, items: readonly Item[]): Item =>
  items[below(random, items.length)]!

/** The standard grid for the most part, and the others each now and then. */
export const GEOMETRIES: readonly Geometry[] = [
  ...new Array<Geometry>(6).fill(STANDARD),
  boxedGeometry(2, 3),
  boxedGeometry(2, 4),
  JIGSAW_6,
  JIGSAW_9,
  DIAGONAL_9,
]

/**
 * How the puzzle of a board came about: with one solution, with some of its givens gone, with a given that is wrong, or
 * with no givens at all.
 */
const PUZZLES = ['one', 'one', 'several', 'none', 'empty'] as const
/** How candidates were struck out: not at all, none of the solution's, or any. */
const STRIKES = ['not', 'knowing', 'any'] as const

/**
 * A board of any kind, with no, one or many solutions, at rest or not, and hardly ever one that shows a contradiction.
 */
export function someBoard(random: Random, geometry: Geometry = pick(random, GEOMETRIES)): Board {
  const kind = pick(random, PUZZLES)
  const solution = filledGrid(random, geometry)
  const strikes = kind === 'empty' ? pick(random, STRIKES.slice(1)) : pick(random, STRIKES)
  const puzzle = makePuzzle(
    kind === 'empty' ? solution.map(() => 0) : givensOf(random, geometry, solution, kind),
    geometry,
  )
  const start = newBoard(puzzle)
  const from = kind === 'empty' || random() < 0.4 ? start : onTheWay(random, start)
  if (strikes === 'not') return from
  const written = kind !== 'empty' && random() < 0.4 ? random() * 0.4 : 0
  return struck(random, from, solution, strikes === 'any', written)
}

/** A grid without empty cells. */
export function filledGrid(random: Random, geometry: Geometry): number[] {
  const search = createSearch(geometry)
  const givens = new Array<number>(geometry.cellCount).fill(0)
  const filled = new Array<number>(geometry.cellCount).fill(0)
  for (const cell of shuffled([...givens.keys()], random).slice(0, geometry.order)) {
    givens[cell] = 1 + below(random, geometry.order)
    search.start(givens)
    if (search.next(500) === 'solution') search.readSolution(filled)
    else givens[cell] = 0
  }
  // not even one of them may have fitted
  if (filled[0] === 0) {
    search.start(givens.fill(0))
    search.next(Number.POSITIVE_INFINITY)
    search.readSolution(filled)
  }
  return filled
}

function givensOf(
  random: Random,
  geometry: Geometry,
  solution: readonly number[],
  kind: 'one' | 'several' | 'none',
): number[] {
  const search = createSearch(geometry)
  const givens = [...solution]
  const hasOne = (): boolean => {
    search.start(givens)
    return search.next(2000) === 'solution' && search.next(2000) === 'exhausted'
  }
  // most puzzles are minimal, the others have givens to spare
  const tried = random() < 0.7 ? givens.length : below(random, givens.length)
  for (const cell of shuffled([...givens.keys()], random).slice(0, tried)) {
    givens[cell] = 0
    if (!hasOne()) givens[cell] = solution[cell]!
  }
  const standing = shuffled(
    [...givens.keys()].filter((cell) => givens[cell]),
    random,
  )
  if (kind === 'several') for (const cell of standing.slice(0, 1 + below(random, 4))) givens[cell] = 0
  if (kind === 'none') {
    const cell = standing[0]!
    const seen = new Set(layoutOf(geometry).peersOf[cell]!.map((peer) => givens[peer]))
    const others = Array.from({ length: geometry.order }, (_, i) => i + 1).filter(
      (digit) => digit !== solution[cell] && !seen.has(digit),
    )
    // where nothing else fits beside the others, it is left out
    givens[cell] = others.length > 0 ? pick(random, others) : 0
  }
  return givens
}

/** Somewhere along the path that easy techniques take. */
function onTheWay(random: Random, start: Board): Board {
  const { steps, board } = solve(start, { preset: random() < 0.5 ? 'mark' : 'pattern', oneSolution: false })
  const { digits, candidates } =
    random() < 0.3 ? board : (steps[below(random, steps.length)]?.before ?? board)
  // a board of its own, of which nothing is known from those before
  return boardFromMarks(puzzleOf(start), digits, candidates)
}

/** With marks struck out and digits written at random, as by somebody who knows the solution, or does not. */
function struck(
  random: Random,
  board: Board,
  solution: readonly number[],
  any: boolean,
  written: number,
): Board {
  const { digits, candidates, geometry } = board
  const puzzle = puzzleOf(board)
  const chance = random() * (any ? 0.6 : 0.85)
  const marks = candidates.map((set, cell) => {
    let left = set & allDigits(geometry.order)
    for (let digit = 1; digit <= geometry.order; digit++)
      if ((any || digit !== solution[cell]) && random() < chance) left &= ~digitBit(digit)
    return left === 0 ? set : left
  })
  const placed = digits.map((digit, cell) => (digit === 0 && random() < written ? solution[cell]! : digit))
  // a wrong given may stand against the solution
  const clashes = placed.some((digit, cell) =>
    layoutOf(geometry).peersOf[cell]!.some((peer) => digit && placed[peer] === digit),
  )
  return boardFromMarks(puzzle, clashes ? digits : placed, marks)
}
