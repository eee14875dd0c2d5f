import type { Board } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { candidatesIn, cellsOfFew, housesOfFew, openCells } from './board-facts.js'
import type { Clue, NearMiss } from './clue.js'
import { type Quarry, works } from './quarry.js'

export function huntColours(
  step: FoundStep,
  { clusters, links }: Extract<Pattern, { shape: 'colouring' }>,
): Quarry {
  const { before } = step
  const all = clusters.flatMap(({ one, other }) => [...one, ...other])
  const digits = [...new Set(all.map(({ digit }) => digit))].sort((a, b) => a - b)
  const only = digits.length === 1 ? digits[0]! : undefined
  const look: Clue =
    only === undefined
      ? { kind: 'cells-of-few', most: 2, cells: cellsOfFew(before, 2) }
      : {
          kind: 'houses-of-few',
          digit: only,
          within: 'any',
          most: 2,
          houses: housesOfFew(before, only, 'any', 2),
        }
  const way = clusters.length > 1 ? 'two-colourings' : 'colours'
  return {
    digit: only,
    houses: links.flatMap(({ by }) => (by.kind === 'house' ? [by.house] : [])),
    clues: [
      look,
      { kind: 'try', way, size: clusters.length },
      ...(only === undefined ? [] : quietColours(before, only)).slice(0, 1),
      works(step, way, { cells: [...new Set(all.map(({ cell }) => cell))], digits }),
    ],
  }
}

/** Clusters of other digits whose colours strike nothing. */
function quietColours(board: Board, own: number): NearMiss[] {
  const layout = layoutOf(board.geometry)
  const out: NearMiss[] = []
  for (let digit = 1; digit <= board.geometry.order; digit++) {
    if (digit === own) continue
    const pairs = housesOfFew(board, digit, 'any', 2)
    const colour = new Map<number, 0 | 1>()
    for (const { cells } of pairs) {
      if (colour.has(cells[0]!)) continue
      const cluster: number[] = []
      const queue: [number, 0 | 1][] = [[cells[0]!, 0]]
      let clash = false
      for (let next = queue.pop(); next; next = queue.pop()) {
        const [cell, side] = next
        const known = colour.get(cell)
        if (known !== undefined) {
          clash ||= known !== side
          continue
        }
        colour.set(cell, side)
        cluster.push(cell)
        for (const pair of pairs)
          if (pair.cells.includes(cell))
            queue.push([pair.cells.find((other) => other !== cell)!, side === 0 ? 1 : 0])
      }
      const sees = (cell: number, side: 0 | 1) =>
        cluster.some((other) => colour.get(other) === side && layout.arePeers(cell, other))
      const strikes = openCells(board).some(
        (cell) =>
          !cluster.includes(cell) &&
          candidatesIn(board, cell).includes(digit) &&
          sees(cell, 0) &&
          sees(cell, 1),
      )
      const doubled = ([0, 1] as const).some((side) =>
        cluster.some((cell) => colour.get(cell) === side && sees(cell, side)),
      )
      if (cluster.length > 3 && !clash && !strikes && !doubled)
        out.push({ kind: 'quiet-colours', digit, cells: cluster.sort((a, b) => a - b) })
    }
  }
  return out
}
