import { Board } from '../src/grid/board.js'
import { findSteps } from '../src/logic/find.js'
import { solve } from '../src/logic/solve.js'
import { randomPuzzle } from '../test/support/random-boards.js'
const cnt: any = {}; let boards = 0; const t0 = performance.now()
for (let seed = 1; seed <= Number(process.argv[2]); seed++) {
  const p = randomPuzzle(seed)
  for (const preset of ['scan', 'pattern', 'chain'] as const) {
  const path = solve(p, { preset })
  for (const [i, s] of path.steps.entries()) {
    if (preset === 'scan' && i > 0) break
    if (i > 0 && s.level === 'scan') continue
    boards++
    for (const t of ['unique-rectangle-type-5', 'junior-exocet']) { const k = findSteps(s.before, { techniques: [t], oneSolution: true }).length; if (k) { cnt[t + ' ' + preset] = (cnt[t + ' ' + preset] ?? 0) + 1 } }
  }
  if (path.board.openCount > 0) { boards++; for (const t of ['unique-rectangle-type-5', 'junior-exocet']) { const k = findSteps(path.board, { techniques: [t] }).length; if (k) cnt[t + ' end ' + preset] = (cnt[t + ' end ' + preset] ?? 0) + 1 } }
  }
}
console.log(boards, cnt, performance.now() - t0)
