import { randomTransform, transformBoard, transformCandidate, inverse } from '../src/grid/symmetry.js'
import { findSteps } from '../src/logic/find.js'
import { linkNotation } from '../src/explain/notation.js'
import { samplesOf } from '../test/support/confirm.js'
import { randomPuzzle } from '../test/support/random-boards.js'
const seed = Number(process.argv[2])
samplesOf(randomPuzzle(seed), '', 2).forEach(({ board }, i) => {
  const tr = randomTransform(board.geometry, seed + i)
  const img = transformBoard(board, tr)
  const inv = inverse(tr)
  const name = (s: any, t?: any) => s.removals.map((r: any) => { const c = t ? transformCandidate(r, t) : r; return c.cell + '.' + c.digit }).sort().join(' ') + ' links ' + s.pattern.links?.length + ' nodes ' + s.pattern.links?.map((l: any) => { const f = (n: any) => n.cells.map((cell: number) => { const c = t ? transformCandidate({ cell, digit: n.digit }, t) : { cell, digit: n.digit }; return c.cell + '.' + c.digit }).sort().join('+'); return f(l.from) }).sort().join(',')
  const a = findSteps(board, { techniques: ['continuous-loop'] }).map((s) => name(s)), b = findSteps(img, { techniques: ['continuous-loop'] }).map((s) => name(s, inv))
  console.log(i, 'only board:', a.filter((x) => !b.includes(x)), 'only image:', b.filter((x) => !a.includes(x)))
})
