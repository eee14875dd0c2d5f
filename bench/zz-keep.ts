import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { satSolver } from './support/sat-solver.js'
const lines = readPuzzleLines(['../shared/puzzles/clues17-2000.txt'])
const puzzles = lines.map(({ givens }) => makePuzzle(givens))
const mode = process.argv[2]!
const kept: any[] = []
const t = (p: any) => { const a = performance.now(); const r = solve(p, { preset: 'chain' }); const d = performance.now() - a; if (mode.includes('k')) kept.push(r); return d }
for (const p of puzzles.slice(0, 500)) solve(p, { preset: 'chain' })
const sat = satSolver()
const ms: number[] = []
for (let i = 0; i < puzzles.length; i += 50) { const some = puzzles.slice(i, i + 50); for (const p of some) ms.push(t(p)); if (mode.includes('s')) for (const p of some) sat.solve(p.givens) }
const med = [...ms].sort((a, b) => a - b)[1000]!
const again = [467, 1166].map((l) => Math.min(t(puzzles[l - 1]), t(puzzles[l - 1]), t(puzzles[l - 1])).toFixed(1))
console.log(mode, med.toFixed(3), 'first', ms[466]!.toFixed(1), ms[1165]!.toFixed(1), 'again', again.join(' '), process.memoryUsage().heapUsed >> 20)
