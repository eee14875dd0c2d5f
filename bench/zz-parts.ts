import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { LinkGraph } from '../src/logic/links/graph.js'
import { nodesOf } from '../src/logic/links/nodes.js'
import { factsOf } from '../src/logic/facts.js'
import { almostLockedSets, looseSets } from '../src/logic/links/almost-locked.js'
import { implicationsOf } from '../src/logic/links/implications.js'
import { FinnedLinks } from '../src/logic/links/finned-links.js'
import { FinnedSearch } from '../src/logic/links/finned-search.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
const boards = process.argv[3]!.split(',').flatMap((id) => solve(puzzles[Number(id) - 1]!, { preset: 'chain' }).steps.filter((s) => s.level === 'chain').map((s) => s.before))
const names = ['facts', 'nodes', 'als', 'loose', 'g aic', 'i aic', 'g grp', 'i grp', 'g als', 'i als', 'g all', 'i all', 'finned', 'refuted']
let t: number[] = []
const reps = Number(process.argv[4])
for (let r = 0; r < reps; r++) {
  if (r === reps >> 1 || r === 3) { if (r > 0) console.log(r, names.map((n, i) => n + ' ' + (1000 * t[i]! / boards.length / (r === 3 ? 3 : (reps >> 1) - 3)).toFixed(0)).join(', ')); t = [] }
  for (const board of boards) {
    const b = board.apply({ placements: [], removals: [] })
    let i = 0
    let last = performance.now()
    const lap = () => { const n = performance.now(); t[i] = (t[i] ?? 0) + n - last; i++; last = performance.now() }
    factsOf(b); lap(); nodesOf(b); lap(); almostLockedSets(b); lap(); looseSets(b); lap()
    let g: any
    for (const kinds of [{ cells: true, houses: true, withinCells: true }, { cells: true, houses: true, groups: true, withinCells: true }, { setsOf: 7 }, { cells: true, houses: true, groups: true, setsOf: 7, withinCells: true }]) {
      g = new LinkGraph(b, kinds); lap(); implicationsOf(g); lap()
    }
    const s = new FinnedSearch(g); lap(); s.refuted(); lap()
  }
}
console.log('last', names.map((n, i) => n + ' ' + (1000 * t[i]! / boards.length / (reps >> 1)).toFixed(0)).join(', '))
