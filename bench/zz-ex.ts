import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { techniqueNamed } from '../src/logic/catalogue.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const tech: any = techniqueNamed(process.argv[4]!)
const find = tech.find
let ts: number[] = []
tech.find = (b: any, r: any, o: any) => { const a = performance.now(); find.call(tech, b, r, o); ts.push(1000 * (performance.now() - a)) }
const p = puzzles[Number(process.argv[3]) - 1]!
let min: number[] = []
for (let k = 0; k < 100; k++) { ts = []; solve(p, { preset: 'chain' }); min = ts.map((t, i) => Math.min(t, min[i] ?? 1e9)) }
console.log(min.map((x) => x.toFixed(0)).join(' '))
