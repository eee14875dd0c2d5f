import { solutionsOf } from '../../src/count/count-solutions.js'
import type { Board } from '../../src/grid/board.js'
import { digitsOf } from '../../src/grid/digits.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { linesOf } from '../../src/logic/facts/lines.js'

/** Cells that have as many digits of houses to share as they are, and what the other cells lose. */
export interface LockedSet {
  readonly cells: readonly number[]
  /** `cell.digit`, ascending. */
  readonly removals: readonly string[]
  /** The fewest houses that the digits are counted in. */
  readonly houses: number
}

/**
 * The locked sets that remove something which no smaller one removes, by trying every way to count each digit by rows,
 * by columns or by blocks. With a digit of a house goes the cell where it is in the solution; a set is that cell and,
 * again and again, the cells that the candidates of its cells go with. Slow and plain: this is what the search of the
 * library is compared with.
 */
export function everyLockedSet(board: Board): LockedSet[] {
  const { geometry, digits, candidates } = board
  const [solution] = solutionsOf(makePuzzle(digits, geometry), { limit: 1 }).solutions
  if (!solution) return []
  const { rows, columns, blocks } = linesOf(geometry)
  const kinds = [rows, columns, blocks].filter((kind) => kind.length > 0)
  const houseOf = kinds.map((kind) =>
    candidates.map((_, cell) => kind.find(({ cells }) => cells.includes(cell))!),
  )
  const open = [...candidates.keys()].filter((cell) => digits[cell] === 0)
  const openDigits = [...new Set(open.flatMap((cell) => digitsOf(candidates[cell]!)))]
  const marks = open.flatMap((cell) => digitsOf(candidates[cell]!).map((digit) => ({ cell, digit })))
  /** kind -> mark -> the cell of the solution that it goes with */
  const goesWith = houseOf.map((houses) =>
    marks.map(({ cell, digit }) => houses[cell]!.cells.find((other) => solution[other] === digit)!),
  )
  const marksOf = candidates.map((_, cell) => [...marks.keys()].filter((i) => marks[i]!.cell === cell))
  const found = new Map<string, { cells: number[]; removals: Set<string>; houses: number }>()
  const chosen: number[] = new Array(geometry.order + 1).fill(0)

  const setOf = (from: number): number[] => {
    const set = [from]
    const isIn = new Uint8Array(geometry.cellCount)
    isIn[from] = 1
    for (let at = 0; at < set.length; at++) {
      const own = marksOf[set[at]!]!
      for (let i = 0; i < own.length; i++) {
        const cell = goesWith[chosen[marks[own[i]!]!.digit]!]![own[i]!]!
        if (isIn[cell]) continue
        isIn[cell] = 1
        set.push(cell)
      }
    }
    return set
  }
  const look = () => {
    const sets: (readonly number[])[] = []
    for (let i = 0; i < marks.length; i++) {
      const { cell, digit } = marks[i]!
      const from = goesWith[chosen[digit]!]![i]!
      if (from === cell) continue
      sets[from] ??= setOf(from)
      const set = sets[from]!
      if (set.length === open.length || set.includes(cell)) continue
      const cells = [...set].sort((a, b) => a - b)
      const houses = new Set(cells.map((one) => houseOf[chosen[solution[one]!]!]![one]!.index)).size
      const known = found.get(cells.join()) ?? { cells, removals: new Set(), houses }
      known.removals.add(`${cell}.${digit}`)
      known.houses = Math.min(known.houses, houses)
      found.set(cells.join(), known)
    }
  }
  const choose = (left: number): void => {
    if (left === 0) look()
    for (let kind = 0; left > 0 && kind < kinds.length; kind++) {
      chosen[openDigits[left - 1]!] = kind
      choose(left - 1)
    }
  }
  choose(openDigits.length)

  const least = new Map<string, number>()
  for (const { cells, removals } of found.values())
    for (const removal of removals)
      least.set(removal, Math.min(least.get(removal) ?? cells.length, cells.length))
  return [...found.values()]
    .filter(({ cells, removals }) => [...removals].some((removal) => least.get(removal) === cells.length))
    .map(({ cells, removals, houses }) => ({ cells, removals: [...removals].sort(), houses }))
}
