import { randomPuzzle } from '../test/support/random-boards.js'
import { solve } from '../src/logic/solve.js'
let hard = 0, t0 = performance.now(), g = 0
for (let s = 0; s < 300; s++) { const a = performance.now(); const p = randomPuzzle(520000 + s); g += performance.now() - a; const path = solve(p, { preset: 'chain' }); const c = path.steps.filter((x) => x.level === 'chain').length; if (c >= 3) hard++ }
console.log(hard, g, performance.now() - t0)
