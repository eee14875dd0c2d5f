import { Board } from '../src/grid/board.js'
import { randomTransform, transformBoard, transformCandidate } from '../src/grid/symmetry.js'
import { CATALOGUE } from '../src/logic/catalogue.js'
import { findSteps } from '../src/logic/find.js'
import { samplesOf } from '../test/support/confirm.js'
import { randomPuzzle, ruledOut } from '../test/support/random-boards.js'
const FAMILIES = [/^als-/, /^(finned-chain|alternating-inference-chain-with-sets)$/, /(franken|mutant)-x-wing$/, /(franken|mutant)-swordfish$/, /(franken|mutant)-jellyfish$/, /forcing|nishio/]
const found: string[][] = []
for (const { name, level } of CATALOGUE) { if (level === 'branch') continue; const pattern = FAMILIES.find((o) => o.test(name)); const k = pattern && found.find(([f]) => pattern.test(f!)); if (k) k.push(name); else found.push([name]) }
const from = Number(process.argv[2]), n = Number(process.argv[3]); const only = process.argv[4] && new RegExp(process.argv[4])
let pairs = 0; const diff: Record<string, number> = {}
for (let seed = from; seed < from + n; seed++) {
  const puzzle = randomPuzzle(seed)
  const boards = samplesOf(puzzle, '', 2).map((s) => s.board)
  for (const [i, board] of boards.entries()) {
    pairs++
    const transform = randomTransform(board.geometry, seed + i)
    for (const names of found) {
      if (only && !only.test(names.join())) continue
      const all = (on: Board) => ruledOut(on, findSteps(on, { techniques: names }))
      const moved = new Set([...all(board)].map((name) => { const [cell, digit] = name.split('.').map(Number); const to = transformCandidate({ cell: cell!, digit: digit! }, transform); return `${to.cell}.${to.digit}` }))
      const image = all(transformBoard(board, transform))
      const miss = [...moved].filter((x) => !image.has(x)), more = [...image].filter((x) => !moved.has(x))
      if (miss.length + more.length) { diff[names.join()] = (diff[names.join()] ?? 0) + 1; console.log(seed, i, names.join(), 'missed', miss.join(' '), 'more', more.join(' ')) }
    }
  }
}
console.log(pairs, diff)
