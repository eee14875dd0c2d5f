import { appendFileSync } from 'node:fs'
import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { CATALOGUE } from '../src/logic/catalogue.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const id = Number(process.argv[3]) - 1
for (const p of puzzles.slice(0, 500)) solve(p, { preset: 'chain' })
for (const p of puzzles) solve(p, { preset: 'chain' })
const times: Record<string, [number, number]> = {}
for (const tech of CATALOGUE as any[]) {
  const find = tech.find
  times[tech.name] = [0, 0]
  tech.find = (b: any, r: any, o: any) => { const a = performance.now(); find.call(tech, b, r, o); times[tech.name]![0] += performance.now() - a; times[tech.name]![1]++ }
}
let best = 1e9, bt: any
for (let k = 0; k < 3; k++) {
  for (const t of Object.values(times)) t[0] = t[1] = 0
  const a = performance.now(); solve(puzzles[id]!, { preset: 'chain' }); const d = performance.now() - a
  if (d < best) { best = d; bt = structuredClone(times) }
}
appendFileSync(process.argv[4]!, JSON.stringify({ best, bt }) + '\n')
