import { Board } from '../src/grid/board.js'
import { solutionsOf } from '../src/count/count-solutions.js'
import { seededRandom } from '../src/grid/random.js'
import { findSteps } from '../src/logic/find.js'
import { randomPuzzle } from '../test/support/random-boards.js'
for (const q of [0.2, 0.35, 0.5, 0.6, 0.7]) {
  const cnt: any = {}; let n = 0; const t0 = performance.now()
  for (let seed = 0; seed < 500; seed++) {
    const p = randomPuzzle(80000 + seed); const sol = solutionsOf(p, { limit: 1 }).solutions[0]!
    const start = Board.fromPuzzle(p)
    const random = seededRandom(seed)
    for (let k = 0; k < 6; k++) {
      const marks = start.candidates.map((set, c) => { let m = set; for (let d = 1; d <= 9; d++) if (d !== sol[c] && random() < q) m &= ~(1 << (d - 1)); return m })
      const b = Board.fromMarks(p, p.givens, marks); n++
      for (const t of ['unique-rectangle-type-5', 'junior-exocet']) if (findSteps(b, { techniques: [t] }).length) cnt[t] = (cnt[t] ?? 0) + 1
    }
  }
  console.log(q, n, cnt, (performance.now() - t0).toFixed(0))
}
