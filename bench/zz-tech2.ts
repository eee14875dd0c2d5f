import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { CATALOGUE } from '../src/logic/catalogue.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const times: Record<string, [number, number]> = {}
for (const tech of CATALOGUE as any[]) {
  const find = tech.find
  times[tech.name] = [0, 0]
  tech.find = (b: any, r: any, o: any) => { const a = performance.now(); find.call(tech, b, r, o); times[tech.name]![0] += performance.now() - a; times[tech.name]![1]++ }
}
for (const id of process.argv[3]!.split(',').map(Number)) {
  const min: Record<string, number> = {}
  let best = 1e9
  for (let k = 0; k < 200; k++) {
    for (const t of Object.values(times)) t[0] = t[1] = 0
    const a = performance.now(); solve(puzzles[id - 1]!, { preset: 'chain' }); best = Math.min(best, performance.now() - a)
    for (const [n, t] of Object.entries(times)) min[n] = Math.min(min[n] ?? 1e9, t[0])
  }
  console.log(id, best.toFixed(2), Object.entries(min).sort((a, b) => b[1] - a[1]).slice(0, +process.argv[4]!).map(([k, v]) => `${k} ${v.toFixed(2)} (${times[k]![1]})`).join(', '))
}
