import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { CATALOGUE } from '../src/logic/catalogue.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const file = process.argv[2]!
const warm = Number(process.argv[3] ?? 0)
const lines = readPuzzleLines([file])
const puzzles = lines.map(({ givens }) => makePuzzle(givens))
const t = (p: any) => { const a = performance.now(); solve(p, { preset: 'chain' }); return performance.now() - a }
for (const p of puzzles.slice(0, 500)) t(p)
const ms = puzzles.map(t)
const sorted = [...ms].sort((a, b) => a - b)
const med = sorted[sorted.length >> 1]!
console.log('median', med)
const slow = [...ms.keys()].sort((a, b) => ms[b]! - ms[a]!).slice(0, 14)
const rows = slow.map((i) => ({ line: lines[i]!.line, i, first: ms[i]!, again: Math.min(t(puzzles[i]), t(puzzles[i]), t(puzzles[i])) }))
for (const r of rows) {
  let best = 1e9
  for (let k = 0; k < warm; k++) best = Math.min(best, t(puzzles[r.i]))
  const path = solve(puzzles[r.i]!, { preset: 'chain' })
  const hard = path.steps.filter((s) => s.level === 'chain').map((s) => s.technique).join(' ')
  console.log(r.line, r.first.toFixed(1), r.again.toFixed(1), 'x' + (r.again / med).toFixed(0), 'warm', best.toFixed(1), 'x' + (best / med).toFixed(0), hard)
}
const sumAgain = rows.reduce((s, r) => s + r.again, 0)
console.log('sum again', sumAgain.toFixed(1))
if (process.argv[4]) {
  const one = rows[0]!
  const times: Record<string, [number, number]> = {}
  for (const tech of CATALOGUE as any[]) {
    const find = tech.find
    times[tech.name] = [0, 0]
    tech.find = (b: any, r: any, o: any) => { const a = performance.now(); find.call(tech, b, r, o); times[tech.name]![0] += performance.now() - a; times[tech.name]![1]++ }
  }
  const reps = Number(process.argv[4])
  for (let k = 0; k < reps; k++) for (const r of rows.slice(0, Number(process.argv[5] ?? 1))) solve(puzzles[r.i]!, { preset: 'chain' })
  for (const [n, [m, c]] of Object.entries(times).sort((a, b) => b[1][0] - a[1][0]).slice(0, 32)) console.log(n.padEnd(40), (m / reps).toFixed(3), c / reps, (1000 * m / c).toFixed(0) + 'us')
}
