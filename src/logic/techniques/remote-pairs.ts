import type { Board } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { LINKS_OF_ALL } from '../chains/chain-length.js'
import { strongInCell, weakLink } from '../chains/link.js'
import { candidatesSeenByAll } from '../facts/facts.js'
import { cellPremise } from '../proof/premise-holds.js'
import type { ChainLink, Step } from '../steps/step.js'
import { slowTechnique, type Technique } from '../technique.js'

/**
 * Remote pairs: cells with the same two candidates, each seeing the next. An even number of them apart, four or more,
 * the first and the last differ, so that between them they hold both digits: cells that see both lose both.
 */
export const remotePairs: Technique = slowTechnique({
  name: 'remote-pairs',
  level: 'pattern',
  *search(facts, report, options, watch) {
    const { board, bivalue } = facts
    for (const first of bivalue) {
      const alike = bivalue.filter((cell) => board.candidates[cell] === board.candidates[first])
      if (alike.length < 4) continue
      const paths = options.allLengths
        ? allPaths(board, [first], alike, ((options.maxLinks ?? LINKS_OF_ALL) + 1) / 2)
        : shortestPaths(board, first, alike)
      for (const path of paths) {
        if (watch.isDue()) yield
        const last = path[path.length - 1]!
        // fewer cells are a naked pair; each chain is reported once, from its earlier end
        if (path.length < 4 || path.length % 2 !== 0 || last < first) continue
        const step = remotePair(board, path)
        if (step.removals.length > 0 && report(step)) return
      }
    }
  },
})

/** A shortest way from a cell to every other one that can be reached, cell by cell. */
function shortestPaths(board: Board, first: number, cells: readonly number[]): number[][] {
  const paths: number[][] = [[first]]
  const reached = new Set([first])
  for (const path of paths) {
    for (const cell of cells) {
      if (reached.has(cell) || !layoutOf(board.geometry).arePeers(path[path.length - 1]!, cell)) continue
      reached.add(cell)
      paths.push([...path, cell])
    }
  }
  return paths
}

/** Every way on from the end of a path through so many cells at most, none of them met twice. */
function* allPaths(
  board: Board,
  path: readonly number[],
  cells: readonly number[],
  most: number,
): Generator<readonly number[]> {
  yield path
  if (path.length + 1 > most) return
  for (const cell of cells) {
    if (path.includes(cell) || !layoutOf(board.geometry).arePeers(path[path.length - 1]!, cell)) continue
    yield* allPaths(board, [...path, cell], cells, most)
  }
}

function remotePair(board: Board, path: readonly number[]): Step {
  const [a, b] = digitsOf(board.candidates[path[0]!]!) as [number, number]
  const ends = [path[0]!, path[path.length - 1]!]
  // the chain for one digit; for the other it runs through the same cells the other way round
  const links: ChainLink[] = []
  path.forEach((cell, i) => {
    const digit = i % 2 === 0 ? a : b
    if (i > 0)
      links.push(weakLink(board.geometry, { digit, cells: [path[i - 1]!] }, { digit, cells: [cell] }))
    links.push(strongInCell(cell, i % 2 === 0 ? a : b, i % 2 === 0 ? b : a))
  })
  return {
    technique: 'remote-pairs',
    level: 'pattern',
    placements: [],
    removals: [a, b].flatMap((digit) =>
      candidatesSeenByAll(board, digit, ends).map((cell) => ({ cell, digit })),
    ),
    premises: path.map((cell) => cellPremise(board, cell)),
    pattern: { shape: 'chain', links, loop: false },
  }
}
