import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { LinkGraph } from '../src/logic/links/graph.js'
import { factsOf } from '../src/logic/facts.js'
import { almostLockedSets, looseSets } from '../src/logic/links/almost-locked.js'
import { implicationsOf } from '../src/logic/links/implications.js'
import { nodesOf } from '../src/logic/links/nodes.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const boards = process.argv[3]!.split(',').flatMap((id) => solve(puzzles[Number(id) - 1]!, { preset: 'chain' }).steps.filter((s) => s.level === 'chain').map((s) => s.before))
const T: any = (globalThis as any).T = {}
let n = 0
for (let r = 0; r < 200; r++) for (const board of boards) {
  const b = board.apply({ placements: [], removals: [] })
  factsOf(b); nodesOf(b); almostLockedSets(b)
  const g = new LinkGraph(b, { cells: true, houses: true, groups: true, setsOf: 7, withinCells: true })
  const a = performance.now()
  for (const x of g.linked) g.weakTo(x)
  const c = performance.now()
  implicationsOf(g)
  const d = performance.now()
  if (r > 100) { T.weak = (T.weak ?? 0) + c - a; T.impl = (T.impl ?? 0) + d - c; n++ }
}
for (const k in T) console.log(k, (1000 * T[k] / n).toFixed(1))
