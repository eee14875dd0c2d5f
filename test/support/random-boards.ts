import { countSolutions, solutionsOf } from '../../src/count/count-solutions.js'
import { Board } from '../../src/grid/board.js'
import { type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import type { Step } from '../../src/logic/step.js'
import type { Technique } from '../../src/logic/technique.js'

/** Numbers in [0, 1) from a seed (mulberry32, a public-domain generator). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), state | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

export function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const list = [...items]
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1))
    ;[list[i], list[j]] = [list[j]!, list[i]!]
  }
  return list
}

/** A puzzle with one solution from which no given can be dropped, made from a seed. */
export function randomPuzzle(seed: number, geometry: Geometry = STANDARD): Puzzle {
  const random = randomFrom(seed)
  const { order, cellCount } = geometry
  const givens: number[] = new Array(cellCount).fill(0)
  const digits = Array.from({ length: order }, (_, i) => i + 1)
  // a few random digits that do not clash, then some solution of these
  for (const cell of shuffled([...givens.keys()], random).slice(0, order)) {
    const free = digits.filter((digit) => geometry.peersOf[cell]!.every((peer) => givens[peer] !== digit))
    const tried = shuffled(free, random)[0]!
    givens[cell] = tried
    if (countSolutions(makePuzzle(givens, geometry), { limit: 1 }).count === 0) givens[cell] = 0
  }
  const solution = solutionsOf(makePuzzle(givens, geometry), { limit: 1 }).solutions[0]!
  const left = [...solution]
  for (const cell of shuffled([...left.keys()], random)) {
    const digit = left[cell]!
    left[cell] = 0
    if (countSolutions(makePuzzle(left, geometry), { limit: 2 }).count !== 1) left[cell] = digit
  }
  return makePuzzle(left, geometry)
}

/** The board after the techniques have done all they can, easiest first. */
export function runToRest(start: Board, techniques: readonly Technique[]): Board {
  let board = start
  for (;;) {
    const step = firstStep(board, techniques)
    if (!step) return board
    board = board.apply(step)
  }
}

function firstStep(board: Board, techniques: readonly Technique[]): Step | undefined {
  let found: Step | undefined
  for (const technique of techniques) {
    technique.find(
      board,
      (step) => {
        found = step
        return true
      },
      {},
    )
    if (found) return found
  }
  return undefined
}

/** Every step a technique finds. */
export function allSteps(board: Board, technique: Technique, options = {}): Step[] {
  const steps: Step[] = []
  technique.find(
    board,
    (step) => {
      steps.push(step)
      return false
    },
    options,
  )
  return steps
}

/** Boards of random puzzles on which these techniques are stuck, made from consecutive seeds. */
export function stuckBoards(
  count: number,
  techniques: readonly Technique[],
  options: { readonly seed?: number; readonly geometry?: Geometry } = {},
): { board: Board; puzzle: Puzzle; seed: number }[] {
  const found: { board: Board; puzzle: Puzzle; seed: number }[] = []
  for (let seed = options.seed ?? 1; found.length < count; seed++) {
    const puzzle = randomPuzzle(seed, options.geometry)
    const board = runToRest(Board.fromPuzzle(puzzle), techniques)
    if (board.openCount > 0) found.push({ board, puzzle, seed })
  }
  return found
}
