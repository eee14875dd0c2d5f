import { transformBoard, randomTransform, inverse, transformCandidate } from '../src/grid/symmetry.js'
import { techniquesUpTo } from '../src/logic/catalogue.js'
import { findSteps } from '../src/logic/find.js'
import { implicationsOf } from '../src/logic/links/implications.js'
import { linkGraph } from '../src/logic/links/graph.js'
import { ChainSearch } from '../src/logic/links/search.js'
import { samplesOf } from '../test/support/confirm.js'
import { randomPuzzle } from '../test/support/random-boards.js'
const K: any = { aic: { cells: true, houses: true, withinCells: true }, grp: { cells: true, houses: true, groups: true, withinCells: true }, all: { cells: true, houses: true, groups: true, setsOf: 7, withinCells: true } }
for (const [seed, i, cell, digit, kind] of [[910004, 2, 51, 3, 'aic'], [910004, 2, 51, 3, 'grp'], [910025, 1, 19, 1, 'all'], [910029, 0, 29, 2, 'grp'], [910029, 1, 50, 6, 'all'], [910029, 1, 77, 7, 'all'], [910029, 2, 34, 5, 'all'], [910029, 2, 42, 5, 'all'], [910030, 2, 31, 2, 'all']] as any) {
  const board = samplesOf(randomPuzzle(seed), '', 2)[i]!.board
  const tr = randomTransform(board.geometry, seed + i)
  const inv = inverse(tr)
  const c = transformCandidate({ cell, digit }, inv)
  const g = linkGraph(board, K[kind]); const s = new ChainSearch(g)
  const easy = findSteps(board, { preset: 'mark' }).filter((st) => st.removals.some((r) => r.cell === c.cell && r.digit === c.digit)).map((st) => st.technique)
  console.log(seed, i, kind, c, 'shortest', s.run(g.nodes.candidate(c.cell, c.digit), 99), 'by', easy.join())
}
