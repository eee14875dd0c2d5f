import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { techniqueNamed } from '../src/logic/catalogue.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const tech: any = techniqueNamed(process.argv[4]!)
const find = tech.find
let rows: any[] = [], cur: any, last = 0
tech.find = (b: any, r: any, o: any) => { cur = []; rows.push(cur); last = performance.now(); (globalThis as any).TT = (n: string) => { const t = performance.now(); cur.push([n, 1000 * (t - last)]); last = t }; find.call(tech, b, r, o); (globalThis as any).TT('rest'); (globalThis as any).TT = undefined }
const p = puzzles[Number(process.argv[3]) - 1]!
let min: any[]
for (let k = 0; k < 150; k++) { rows = []; solve(p, { preset: 'chain' }); if (!min!) min = rows; else rows.forEach((r, i) => r.forEach((x: any, j: number) => { if (min[i][j]) min[i][j][1] = Math.min(min[i][j][1], x[1]) })) }
for (const r of min!) console.log(r.map((x: any) => x[0] + ' ' + x[1].toFixed(0)).join('  '))
