import { type DigitSet, digitCount } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { cellsAt, factsOf, oncePerBoard } from '../facts.js'

/** A house whose places for a digit are these two sets of cells, so that one set or the other holds the digit. */
export interface HouseTie {
  readonly house: number
  readonly digit: number
  readonly one: readonly number[]
  readonly other: readonly number[]
}

/**
 * Every way to part a digit's places in a house into two, each a single cell or a group within a crossing with another
 * house: the strong links of the board, plain ones first. Computed once for a board.
 */
export const houseTies = oncePerBoard((board): readonly HouseTie[] => {
  const plain: HouseTie[] = []
  const grouped: HouseTie[] = []
  const { geometry } = board
  const { places } = factsOf(board)
  for (const { index: house } of geometry.houses) {
    for (let digit = 1; digit <= geometry.order; digit++) {
      const all = places[house * geometry.order + digit - 1]!
      const list = digitCount(all) === 2 ? plain : grouped
      for (const part of partings(geometry, house, all)) {
        const one = cellsAt(geometry, house, part)
        list.push({ house, digit, one, other: cellsAt(geometry, house, all ^ part) })
      }
    }
  }
  return [...plain, ...grouped]
})

/** The ways to part these positions of a house into two parts, as one of the parts: see `isPart`. */
export function partings(geometry: Geometry, house: number, places: DigitSet): DigitSet[] {
  const count = digitCount(places)
  if (count < 2) return []
  if (count === 2) return [places & -places]
  const crossings = crossingsOf(geometry, house)
  const parts: number[] = []
  const add = (part: DigitSet) => {
    const least = Math.min(part, places ^ part)
    if (!parts.includes(least)) parts.push(least)
  }
  for (const crossing of crossings) {
    const part = places & crossing
    const size = digitCount(part)
    if (size < 2 || size === count) continue
    const rest = places ^ part
    if (isPart(geometry, house, rest)) add(part)
    // one cell of this group may belong to another group that holds the rest
    for (let bits = part; bits !== 0; bits &= bits - 1) {
      const shifted = rest | (bits & -bits)
      if (isPart(geometry, house, shifted)) add(shifted)
    }
  }
  return parts
}

/** A single position, or positions within one crossing with another house: what can stand at the end of a link. */
export function isPart(geometry: Geometry, house: number, places: DigitSet): boolean {
  if ((places & (places - 1)) === 0) return true
  for (const crossing of crossingsOf(geometry, house)) if ((places & ~crossing) === 0) return true
  return false
}

const crossingCache = new WeakMap<Geometry, readonly (readonly DigitSet[])[]>()

/** The sets of positions that a house shares with other houses, two or more. */
function crossingsOf(geometry: Geometry, house: number): readonly DigitSet[] {
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
