import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { factsOf } from '../src/logic/facts.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import * as A from '../src/logic/links/almost-locked.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const b = solve(puzzles[466]!, { preset: 'chain' }).steps.filter((s) => s.level === 'chain')[8]!.before
factsOf(b)
const AA: any = A
let m1 = 1e9, m2 = 1e9, n = 0
for (let k = 0; k < 3000; k++) { let a = performance.now(); AA.fromAllHouses(b, AA.keptAlmostLocked, AA.almostLockedIn); m1 = Math.min(m1, performance.now() - a); a = performance.now(); n = 0; for (const h of b.geometry.houses) n += AA.almostLockedIn(b, h).length; m2 = Math.min(m2, performance.now() - a) }
console.log('assemble', 1000 * m1, 'all 27', 1000 * m2, n)
