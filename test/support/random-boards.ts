import { countSolutions, solutionsOf } from '../../src/count/count-solutions.js'
import { openCount } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { digitsOf } from '../../src/grid/digits.js'
import { type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { seededRandom, shuffled } from '../../src/grid/random.js'
import { Context } from '../../src/logic/facts/context.js'
import { type Facts, factsOf } from '../../src/logic/facts/facts.js'
import type { Step } from '../../src/logic/steps/step.js'
import type { Technique } from '../../src/logic/technique.js'
import { freshFacts } from './facts.js'

/** A puzzle with one solution from which no given can be dropped, made from a seed. */
export function randomPuzzle(seed: number, geometry: Geometry = STANDARD): Puzzle {
  const layout = layoutOf(geometry)
  const random = seededRandom(seed)
  const { order, cellCount } = geometry
  const givens: number[] = new Array(cellCount).fill(0)
  const digits = Array.from({ length: order }, (_, i) => i + 1)
  // a few random digits that do not clash, then some solution of these
  for (const cell of shuffled([...givens.keys()], random).slice(0, order)) {
    const free = digits.filter((digit) => layout.peersOf[cell]!.every((peer) => givens[peer] !== digit))
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
  const context = new Context()
  let board = start
  for (;;) {
    const step = firstStep(factsOf(context, board), techniques)
    if (!step) return board
    board = applyTo(board, step)
  }
}

function firstStep(facts: Facts, techniques: readonly Technique[]): Step | undefined {
  let found: Step | undefined
  for (const technique of techniques) {
    technique.find(
      facts,
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
  return stepsOn(freshFacts(board), technique, options)
}

/** The same in the context of these facts. */
export function stepsOn(facts: Facts, technique: Technique, options = {}): Step[] {
  const steps: Step[] = []
  technique.find(
    facts,
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
    const board = runToRest(newBoard(puzzle), techniques)
    if (openCount(board) > 0) found.push({ board, puzzle, seed })
  }
  return found
}

/** Every candidate that these steps eliminate, as `cell.digit`: removed, or ruled out by a digit placed. */
export function ruledOut(board: Board, steps: readonly Step[]): Set<string> {
  const gone = new Set<string>()
  for (const step of steps) {
    const after = applyTo(board, step)
    for (let cell = 0; cell < board.geometry.cellCount; cell++) {
      const placed = step.placements.find((placement) => placement.cell === cell)?.digit
      for (const digit of digitsOf(board.candidates[cell]! & ~after.candidates[cell]!)) {
        if (digit !== placed) gone.add(`${cell}.${digit}`)
      }
    }
  }
  return gone
}
