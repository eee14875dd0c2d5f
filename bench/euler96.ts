// Project Euler, problem 96: the sum of the three-digit numbers in the top left corners of its 50 solutions is 24702
// (the published answer). `npm run bench:euler96 -- FILE` prints the sum and fails if it is another.
import { checkUniqueness, makePuzzle } from '../src/index.js'
import { readPuzzleLines } from './support/puzzle-lines.js'

const PUBLISHED_SUM = 24_702

const puzzles = readPuzzleLines(process.argv.slice(2))
let sum = 0
for (const { givens, line } of puzzles) {
  const verdict = checkUniqueness(makePuzzle(givens))
  if (verdict.kind !== 'unique') throw new Error(`line ${line}: expected one solution, found ${verdict.kind}`)
  sum += 100 * verdict.solution[0]! + 10 * verdict.solution[1]! + verdict.solution[2]!
}
console.log(`${puzzles.length} puzzles, sum ${sum}, published ${PUBLISHED_SUM}`)
console.log(JSON.stringify({ puzzles: puzzles.length, sum, published: PUBLISHED_SUM }))
process.exitCode = sum === PUBLISHED_SUM ? 0 : 1
