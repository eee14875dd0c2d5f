import { GeneralSearch } from '../../src/count/general-search.js'
import { layoutOf } from '../../src/grid/layout.js'
import type { Geometry } from '../../src/index.js'
import { seededRandom, shuffled } from '../../test/count/puzzles.js'

const numbers = (count: number) => Array.from({ length: count }, (_, i) => i)

/** A filled grid of a boxed geometry: the cyclic pattern with digits, bands, stacks and lines shuffled. */
function filledGrid(geometry: Geometry, random: () => number): number[] {
  const { order, box } = geometry
  if (!box) throw new Error(`${geometry.name} has no boxes`)
  const lines = (size: number) =>
    shuffled(numbers(order / size), random).flatMap((band) =>
      shuffled(numbers(size), random).map((line) => band * size + line),
    )
  const [rows, columns, digits] = [lines(box.rows), lines(box.columns), shuffled(numbers(order), random)]
  return rows.flatMap((row) =>
    columns.map((column) => {
      const place = (row % box.rows) * box.columns + Math.floor(row / box.rows) + column
      return digits[place % order]! + 1
    }),
  )
}

/**
 * A puzzle with one solution as a setter digs it: cells of a filled grid are emptied in random order while the rest
 * stays sound, down to `givens` of them. A cell whose removal 3,000 nodes cannot judge stays.
 */
export function digPuzzle(geometry: Geometry, givens: number, seed: number): number[] {
  const random = seededRandom(seed)
  const search = new GeneralSearch(layoutOf(geometry))
  const puzzle = filledGrid(geometry, random)
  let left = geometry.cellCount
  for (const cell of shuffled(numbers(geometry.cellCount), random)) {
    if (left <= givens) break
    const digit = puzzle[cell]!
    puzzle[cell] = 0
    search.start(puzzle)
    const sound = search.next(3000) === 'solution' && search.next(3000) === 'exhausted'
    if (sound) left--
    else puzzle[cell] = digit
  }
  return puzzle
}
