import { solve } from '../src/logic/solve.js'
import { randomPuzzle } from '../test/support/random-boards.js'
import { digitCount } from '../src/grid/digits.js'
import { cellPremise } from '../src/logic/premise-holds.js'
import { candidatesAgainstAll, extrasOf } from '../src/logic/exchange/pattern.js'
import { isProvenBy } from '../src/logic/links/trim.js'
let pat = 0, drafts = 0, plain = 0, boards = 0, given = 0
for (let s = 0; s < 1500; s++) {
  const path = solve(randomPuzzle(70000 + s), { preset: 'chain' })
  for (const [i, st] of path.steps.entries()) {
    if (i > 0 && st.level === 'scan') continue
    boards++
    const b = st.before
    for (let r1 = 0; r1 < 9; r1++) for (let r2 = r1 + 1; r2 < 9; r2++) for (let c1 = 0; c1 < 9; c1++) for (let c2 = c1 + 1; c2 < 9; c2++) {
      const sameBand = Math.floor(r1 / 3) === Math.floor(r2 / 3), sameStack = Math.floor(c1 / 3) === Math.floor(c2 / 3)
      if (sameBand === sameStack) continue
      const cells = [r1 * 9 + c1, r1 * 9 + c2, r2 * 9 + c1, r2 * 9 + c2]
      let shared = cells.reduce((m, c) => m & b.candidates[c]!, 511)
      if (digitCount(shared) < 2) continue
      for (let a = 1; a <= 9; a++) for (let d = a + 1; d <= 9; d++) {
        const both = (1 << (a - 1)) | (1 << (d - 1))
        if ((shared & both) !== both) continue
        const extras = extrasOf(b, cells, cells.map(() => both))
        const holders = [...new Set(extras.map((e) => e.cell))]
        if (new Set(extras.map((e) => e.digit)).size !== 1) continue
        const diag = holders.length === 3 || (holders.length === 2 && cells.indexOf(holders[0]!) + cells.indexOf(holders[1]!) === 3)
        if (!diag) continue
        pat++
        const rem = candidatesAgainstAll(b, extras)
        if (rem.length === 0) continue
        drafts++
        if (isProvenBy(b.geometry, cells.map((c) => cellPremise(b, c)), { placements: [], removals: rem })) plain++
      }
    }
  }
}
console.log({ boards, pat, drafts, plain })
