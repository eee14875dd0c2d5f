import { findSteps } from '../src/logic/find.js'
import { solve } from '../src/logic/solve.js'
import { randomPuzzle } from '../test/support/random-boards.js'
import { makePuzzle } from '../src/grid/puzzle.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
const cnt: any = {}; let boards = 0; const t0 = performance.now()
const list = process.argv[2] === 'r' ? Array.from({ length: Number(process.argv[3]) }, (_, i) => randomPuzzle(70000 + i)) : readPuzzleLines([process.argv[2]!]).map((l) => makePuzzle(l.givens))
const T = ['unique-rectangle-type-2', 'unique-rectangle-type-5', 'junior-exocet']
for (const p of list) {
  const path = solve(p, { preset: 'chain', techniques: undefined })
  for (const [i, s] of path.steps.entries()) { if (i > 0 && s.level === 'scan') continue; boards++; for (const t of T) { if (findSteps(s.before, { techniques: [t] }).length) cnt[t] = (cnt[t] ?? 0) + 1 } }
}
console.log(process.argv[2], list.length, boards, cnt, performance.now() - t0)
