import { solutionsOf } from '../../src/count/count-solutions.js'
import { boardFromMarks, newBoard } from '../../src/grid/board/make.js'
import { digitBit } from '../../src/grid/digits.js'
import { seededRandom } from '../../src/grid/random.js'
import { findSteps } from '../../src/logic/solving/find.js'
import type { TechniqueName } from '../../src/logic/technique-names.js'
import type { Sample } from './confirm.js'
import { randomPuzzle } from './random-boards.js'

/** How likely a wrong candidate is struck out: many patterns need cells with few, and others to remove. */
const STRUCK = 0.5
/** How likely the digit of a cell is written, on every other board: some patterns are made of such digits. */
const WRITTEN = 0.25
const BOARDS_A_PUZZLE = 6

/**
 * Random puzzles on whose first boards wrong candidates are struck out and digits written at random, as by somebody who
 * knows the solution: patterns that hardly ever come about on the way of a puzzle occur on some of these. Endless.
 */
export function* struckBoards(firstSeed: number): Generator<Sample> {
  for (let seed = firstSeed; ; seed++) {
    const puzzle = randomPuzzle(seed)
    const [solution] = solutionsOf(puzzle, { limit: 1 }).solutions
    const start = newBoard(puzzle)
    const random = seededRandom(seed)
    for (let number = 1; number <= BOARDS_A_PUZZLE; number++) {
      const marks = start.candidates.map((set, cell) => {
        let left = set
        for (let digit = 1; digit <= start.geometry.order; digit++)
          if (digit !== solution![cell] && random() < STRUCK) left &= ~digitBit(digit)
        return left
      })
      const written = (given: number, cell: number): number =>
        given || (number % 2 === 0 && random() < WRITTEN ? solution![cell]! : 0)
      const board = boardFromMarks(puzzle, puzzle.givens.map(written), marks)
      yield { board, solution: solution!, name: `seed ${seed}, struck ${number}` }
    }
  }
}

/** The first such boards that have a technique, so many of them, among those that may be tried. */
export function boardsWith(
  technique: TechniqueName,
  firstSeed: number,
  wanted: number,
  tries: number,
): Sample[] {
  const found: Sample[] = []
  let tried = 0
  for (const sample of struckBoards(firstSeed)) {
    if (found.length === wanted || tried++ === tries) break
    if (findSteps(sample.board, { techniques: [technique], limit: 1 }).length > 0) found.push(sample)
  }
  return found
}
