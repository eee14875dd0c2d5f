import type { Board } from '../../grid/board.js'
import { digitCount } from '../../grid/digits.js'

/** A house whose places for a digit are these two sets of cells, so that one set or the other holds the digit. */
export interface HouseTie {
  readonly house: number
  readonly digit: number
  readonly one: readonly number[]
  readonly other: readonly number[]
}

const cache = new WeakMap<Board, readonly HouseTie[]>()

/**
 * Every way to part a digit's places in a house into two, each a single cell or a group within a crossing with another
 * house: the strong links of the board, plain ones first. Computed once for a board.
 */
export function houseTies(board: Board): readonly HouseTie[] {
  const known = cache.get(board)
  if (known) return known
  const plain: HouseTie[] = []
  const grouped: HouseTie[] = []
  const { geometry } = board
  for (const house of geometry.houses) {
    const crossings = crossingsOf(board, house.index)
    for (let digit = 1; digit <= geometry.order; digit++) {
      const places = board.placesIn(house.index, digit)
      const count = digitCount(places)
      if (count < 2) continue
      const cellsAt = (set: number) => house.cells.filter((_, i) => set & (1 << i))
      if (count === 2) {
        const [first, second] = cellsAt(places)
        plain.push({ house: house.index, digit, one: [first!], other: [second!] })
        continue
      }
      const parts = new Set<number>()
      for (const crossing of crossings) {
        const part = places & crossing
        const size = digitCount(part)
        if (size < 2 || size === count) continue
        const rest = places ^ part
        if (isPart(rest, crossings)) parts.add(Math.min(part, rest))
        // one cell of this group may belong to another group that holds the rest
        for (let bits = part; bits !== 0; bits &= bits - 1) {
          const shifted = rest | (bits & -bits)
          if (isPart(shifted, crossings)) parts.add(Math.min(shifted, places ^ shifted))
        }
      }
      for (const part of parts) {
        grouped.push({ house: house.index, digit, one: cellsAt(part), other: cellsAt(places ^ part) })
      }
    }
  }
  const ties = [...plain, ...grouped]
  cache.set(board, ties)
  return ties
}

/** A single place, or places within one crossing. */
function isPart(places: number, crossings: readonly number[]): boolean {
  return (places & (places - 1)) === 0 || crossings.some((crossing) => (places & ~crossing) === 0)
}

const crossingCache = new WeakMap<Board['geometry'], readonly (readonly number[])[]>()

/** house -> the sets of positions it shares with other houses, two or more. */
function crossingsOf(board: Board, house: number): readonly number[] {
  const { geometry } = board
  let all = crossingCache.get(geometry)
  if (!all) {
    all = geometry.houses.map((own) =>
      geometry.houses.flatMap((other) => {
        if (other === own) return []
        let shared = 0
        own.cells.forEach((cell, i) => {
          if (geometry.positionIn(other.index, cell) >= 0) shared |= 1 << i
        })
        return digitCount(shared) > 1 ? [shared] : []
      }),
    )
    crossingCache.set(geometry, all)
  }
  return all[house]!
}
