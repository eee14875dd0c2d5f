// How long does the uniqueness check take on grids of other orders? `npx tsx bench/count-orders.ts [--each 10]`
//
// Puzzles are dug from shuffled grids (bench/support/dig.ts) down to about the share of givens that printed puzzles of
// the order have, and once more to fewer. A blank grid and a grid of a few givens show what the node budget does.
import { parseArgs } from 'node:util'
import { boxedGeometry, checkUniqueness, countSolutions, makePuzzle } from '../src/index.js'
import { digPuzzle } from './support/dig.js'
import { printResult, printTable, significant } from './support/report.js'
import { wholeNumber } from './support/whole-number.js'

const { values } = parseArgs({ options: { each: { type: 'string', default: '10' } } })
const each = wholeNumber('each', values.each, 1)

const rows: (string | number)[][] = []
let worst = 0
for (const [boxRows, boxColumns, givens] of [
  [2, 3, 12],
  [2, 4, 20],
  [2, 5, 36],
  [3, 4, 55],
  [2, 7, 80],
  [3, 5, 95],
  [4, 4, 120],
  [4, 4, 100],
] as const) {
  const geometry = boxedGeometry(boxRows, boxColumns)
  const times: number[] = []
  let fewest = geometry.cellCount
  for (let seed = 1; seed <= each; seed++) {
    const puzzle = makePuzzle(digPuzzle(geometry, givens, seed), geometry)
    fewest = Math.min(fewest, puzzle.givens.filter((digit) => digit !== 0).length)
    const begin = performance.now()
    const { kind } = checkUniqueness(puzzle)
    times.push(performance.now() - begin)
    if (kind !== 'unique') throw new Error(`a dug puzzle of order ${geometry.order} is ${kind}`)
  }
  times.sort((a, b) => a - b)
  worst = Math.max(worst, times.at(-1)!)
  rows.push([
    `${geometry.order}, boxes ${geometry.name}`,
    each,
    fewest,
    significant(times[Math.floor(each / 2)]!, 3),
    significant(times.at(-1)!, 3),
  ])
}
printTable(['order', 'puzzles', 'givens', 'median ms', 'worst ms'], rows)

const hexadecimal = boxedGeometry(4, 4)
const blank = makePuzzle(new Array(256).fill(0), hexadecimal)
const begin = performance.now()
const { count, complete, stopped } = countSolutions(blank, { nodeBudget: 20_000 })
console.log(
  `\nblank order 16, 20,000 nodes: ${count} solutions, complete ${complete}, stopped ${stopped}, ` +
    `${significant(performance.now() - begin, 3)} ms`,
)
printResult({ puzzles: each * rows.length, worstMs: significant(worst, 3) })
