import { type DigitSet, digitCount } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'
import { cellsAt } from '../facts/facts.js'
import { oncePerPlaces } from '../facts/path-memory.js'

/** A house whose places for a digit are these two sets of cells, so that one set or the other holds the digit. */
export interface HouseTie {
  readonly one: readonly number[]
  readonly other: readonly number[]
  /** What the link that it gives rests on. */
  readonly reason: { readonly kind: 'house'; readonly house: number; readonly digit: number }
}

/** The houses with two places for a digit, which are the two ends. */
export const plainTies = oncePerPlaces((facts, digit): readonly HouseTie[] =>
  facts.bilocal(digit).map(({ house, ends: [one, other] }) => ({
    one: cellAlone(facts.board.geometry, house, one),
    other: cellAlone(facts.board.geometry, house, other),
    reason: { kind: 'house', house, digit },
  })),
)

/**
 * Every way to part a digit's three places or more in a house into two, each a single cell or a group within a crossing
 * with another house.
 */
export const groupedTies = oncePerPlaces((facts, digit): readonly HouseTie[] => {
  const { board, places } = facts
  const ties: HouseTie[] = []
  const { geometry } = board
  const layout = layoutOf(geometry)
  for (let house = 0; house < layout.houses.length; house++) {
    const all = places[house * geometry.order + digit - 1]!
    if (digitCount(all) < 3) continue
    const reason: HouseTie['reason'] = { kind: 'house', house, digit }
    for (const part of partings(geometry, house, all)) {
      const one = partCells(geometry, house, part)
      ties.push({ one, other: partCells(geometry, house, all ^ part), reason })
    }
  }
  return ties
})

/** house -> lists by position sets, filled as these are asked about. */
const partLists = perLayout(({ houses }) => houses.map((): (readonly number[] | undefined)[] => []))
const partingLists = perLayout(({ houses }) => houses.map((): (readonly DigitSet[] | undefined)[] => []))

/** The cells of a house at these positions, always the same list. */
export function partCells(geometry: Geometry, house: number, positions: DigitSet): readonly number[] {
  const lists = partLists(geometry)[house]!
  let cells = lists[positions]
  if (!cells) {
    cells = cellsAt(geometry, house, positions)
    lists[positions] = cells
  }
  return cells
}

function cellAlone(geometry: Geometry, house: number, cell: number): readonly number[] {
  return partCells(geometry, house, 1 << layoutOf(geometry).positionIn(house, cell))
}

/** The ways to part these positions of a house into two parts, as one of the parts: see `isPart`. */
export function partings(geometry: Geometry, house: number, places: DigitSet): readonly DigitSet[] {
  const lists = partingLists(geometry)[house]!
  let parts = lists[places]
  if (!parts) {
    parts = partingsOf(geometry, house, places)
    lists[places] = parts
  }
  return parts
}

function partingsOf(geometry: Geometry, house: number, places: DigitSet): DigitSet[] {
  const count = digitCount(places)
  if (count < 2) return []
  if (count === 2) return [places & -places]
  const crossings = crossingsOf(geometry)[house]!
  const parts: number[] = []
  for (const crossing of crossings) {
    const part = places & crossing
    const size = digitCount(part)
    if (size < 2 || size === count) continue
    const rest = places ^ part
    if (isPart(geometry, house, rest)) addPart(parts, part, places)
    // one cell of this group may belong to another group that holds the rest
    for (let bits = part; bits !== 0; bits &= bits - 1) {
      const shifted = rest | (bits & -bits)
      if (isPart(geometry, house, shifted)) addPart(parts, shifted, places)
    }
  }
  return parts
}

function addPart(parts: number[], part: DigitSet, places: DigitSet): void {
  const least = Math.min(part, places ^ part)
  if (!parts.includes(least)) parts.push(least)
}

/** A single position, or positions within one crossing with another house: what can stand at the end of a link. */
export function isPart(geometry: Geometry, house: number, places: DigitSet): boolean {
  if ((places & (places - 1)) === 0) return true
  for (const crossing of crossingsOf(geometry)[house]!) if ((places & ~crossing) === 0) return true
  return false
}

/** house -> the sets of positions that it shares with other houses, two or more. */
const crossingsOf = perLayout(({ houses, positionIn }) =>
  houses.map((own) =>
    houses.flatMap((other): DigitSet[] => {
      if (other === own) return []
      let shared = 0
      own.cells.forEach((cell, i) => {
        if (positionIn(other.index, cell) >= 0) shared |= 1 << i
      })
      return digitCount(shared) > 1 ? [shared] : []
    }),
  ),
)
