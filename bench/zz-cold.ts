import { Session } from 'node:inspector'
import { writeFileSync } from 'node:fs'
import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const ids = process.argv[3]!.split(',').map((n) => Number(n) - 1)
const out = process.argv[4]!
for (const p of puzzles) solve(p, { preset: 'chain' })
const s = new Session(); s.connect()
const post = (m: string, p: any = {}) => new Promise<any>((r, j) => s.post(m, p, (e: any, v: any) => e ? j(e) : r(v)))
await post('Profiler.enable'); await post('Profiler.setSamplingInterval', { interval: 40 }); await post('Profiler.start')
for (let k = 0; k < 3; k++) for (const i of ids) { const a = performance.now(); solve(puzzles[i]!, { preset: 'chain' }); console.log(i + 1, (performance.now() - a).toFixed(1)) }
const { profile } = await post('Profiler.stop'); writeFileSync(out, JSON.stringify(profile))
