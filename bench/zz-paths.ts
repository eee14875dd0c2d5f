import { createHash } from 'node:crypto'
import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { findSteps } from '../src/logic/find.js'
import { CATALOGUE } from '../src/logic/catalogue.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { samplesOf } from '../test/support/confirm.js'
import { randomPuzzle } from '../test/support/random-boards.js'
const strip = (s: any) => { const { before, ...r } = s; return JSON.stringify(r) }
for (const f of ['clues17-2000', 'euler96-50', 'top95', 'hard-bank-2000']) {
  const h = createHash('sha1')
  for (const { givens } of readPuzzleLines([`../shared/puzzles/${f}.txt`])) {
    const p = solve(makePuzzle(givens), { preset: 'chain' })
    h.update(p.status); for (const s of p.steps) h.update(strip(s))
  }
  console.log(f, h.digest('hex').slice(0, 12))
}
const h: any = {}; const n: any = {}
for (let seed = 770001; seed < 770001 + Number(process.argv[2] ?? 15); seed++)
  for (const { board } of samplesOf(randomPuzzle(seed), '', 2))
    for (const t of CATALOGUE) { if (t.level === 'branch') continue
      h[t.name] ??= createHash('sha1'); n[t.name] ??= 0
      for (const s of findSteps(board, { techniques: [t.name] })) { h[t.name].update(strip(s)); n[t.name]++ } }
for (const k in h) console.log(k, n[k], h[k].digest('hex').slice(0, 12))
