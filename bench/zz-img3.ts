import { Board } from '../src/grid/board.js'
import { transformBoard, randomTransform, inverse, transformCandidate } from '../src/grid/symmetry.js'
import { findSteps } from '../src/logic/find.js'
import { linkGraph } from '../src/logic/links/graph.js'
import { ChainSearch } from '../src/logic/links/search.js'
import { samplesOf } from '../test/support/confirm.js'
import { randomPuzzle, ruledOut } from '../test/support/random-boards.js'
const K: any = { 'xy-chain': { cells: true }, 'alternating-inference-chain': { cells: true, houses: true, withinCells: true }, 'grouped-alternating-inference-chain': { cells: true, houses: true, groups: true, withinCells: true }, 'alternating-inference-chain-with-sets,finned-chain': { cells: true, houses: true, groups: true, setsOf: 7, withinCells: true } }
for (const [seed, i, cell, digit, kind] of [[910006, 2, 44, 5, 'xy-chain'], [910025, 1, 24, 8, 'grouped-alternating-inference-chain'], [910029, 0, 29, 2, 'alternating-inference-chain'], [910030, 2, 31, 2, 'alternating-inference-chain-with-sets,finned-chain'], [910036, 1, 5, 3, 'alternating-inference-chain'], [910036, 1, 4, 3, 'alternating-inference-chain-with-sets,finned-chain']] as any) {
  const board = samplesOf(randomPuzzle(seed), '', 2)[i]!.board
  const tr = randomTransform(board.geometry, seed + i)
  const c = transformCandidate({ cell, digit }, inverse(tr))
  for (const [b, at] of [[board, c], [transformBoard(board, tr), { cell, digit }]] as const) {
  const g = linkGraph(b, K[kind]); const s = new ChainSearch(g)
  const st = findSteps(b, { techniques: kind.split(',') }).filter((st) => ruledOut(b, [st]).has(`${at.cell}.${at.digit}`)).map((st) => st.technique + JSON.stringify([st.placements, st.removals, st.pattern.shape]))
  console.log(seed, i, kind, at, 'shortest', s.run(g.nodes.candidate(at.cell, at.digit), 99), st.join(' | '))
  }
}
