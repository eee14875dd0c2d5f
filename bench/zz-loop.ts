import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const ids = process.argv[3]!.split(',').map((n) => Number(n) - 1)
for (let k = 0; k < Number(process.argv[4]); k++) for (const i of ids) solve(puzzles[i]!, { preset: 'chain' })
