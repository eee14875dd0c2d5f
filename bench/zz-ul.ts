import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { techniqueNamed } from '../src/logic/catalogue.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const tech: any = techniqueNamed('unique-loop')
const find = tech.find
tech.find = (b: any, r: any, o: any) => { (globalThis as any).LL = []; find.call(tech, b, r, o); console.log(JSON.stringify((globalThis as any).LL)) }
solve(puzzles[Number(process.argv[3]) - 1]!, { preset: 'chain' })
