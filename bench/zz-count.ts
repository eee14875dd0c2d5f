import { makePuzzle } from '../src/grid/puzzle.js'
import { solve } from '../src/logic/solve.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { LinkGraph } from '../src/logic/links/graph.js'
import { almostLockedSets, looseSets } from '../src/logic/links/almost-locked.js'
import { implicationsOf } from '../src/logic/links/implications.js'
import { FinnedLinks } from '../src/logic/links/finned-links.js'
const puzzles = readPuzzleLines([process.argv[2]!]).map(({ givens }) => makePuzzle(givens))
for (const id of process.argv[3]!.split(',').map(Number)) {
  const path = solve(puzzles[id - 1]!, { preset: 'chain' })
  for (const s of path.steps.filter((s) => s.level === 'chain')) {
    const b = s.before
    const out: any[] = [s.technique, 'open', b.openCount, 'als', almostLockedSets(b).length, 'loose', looseSets(b).length]
    for (const [n, kinds] of Object.entries({ aic: { cells: true, houses: true, withinCells: true }, grp: { cells: true, houses: true, groups: true, withinCells: true }, als: { setsOf: 7 }, all: { cells: true, houses: true, groups: true, setsOf: 7, withinCells: true } })) {
      const g = new LinkGraph(b, kinds)
      let prod = 0, W = 0
      for (const x of g.linked) { W += g.weakTo(x).length; for (let k = g.strongStart[x]!; k < g.strongStart[x + 1]!; k++) prod += g.weakTo(g.strongTo[k]!).length }
      out.push(n, `L${g.linked.length}/${g.nodes.size} S${g.strongTo.length} W${W} P${prod} R${implicationsOf(g).refuted.length}`)
    }
    console.log(out.join(' '))
  }
}
