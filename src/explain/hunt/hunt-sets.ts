import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { CellGroup, FoundStep, Pattern } from '../../logic/steps/step.js'
import { crossingCount, isRing } from '../argument/argue-sets.js'
import { candidatesIn, choices, digitsBetween, housesWith, openIn, seenByAll } from './board-facts.js'
import type { Clue, NearMiss, Way } from './clue.js'
import { crossingOneShort, petalsApart } from './larger-misses.js'
import { type Quarry, works } from './quarry.js'
import { sharedHouses } from './why-here.js'

type Sets = Extract<Pattern, { shape: 'sets' }>

/** Larger sets are rarely seen by themselves. */
const MOST = 3

export function huntSets(step: FoundStep, pattern: Sets): Quarry {
  const { before } = step
  const { sets, stem } = pattern
  const crossing = crossingCount(step, pattern)
  const way: Way =
    stem !== undefined
      ? 'blossom'
      : crossing
        ? 'crossing'
        : isRing(pattern)
          ? 'ring-of-sets'
          : sets.length > 2
            ? 'row-of-sets'
            : 'two-sets'
  const cells = [...new Set(sets.flatMap((set) => set.cells))]
  const digits = [...new Set(sets.flatMap((set) => set.digits))].sort((a, b) => a - b)
  const look: Clue =
    stem !== undefined
      ? { kind: 'cells-of-few', most: candidatesIn(before, stem).length, cells: fewOf(step, stem) }
      : crossing
        ? { kind: 'few-in-house', ...crossingCells(step, crossing.sides[0]!.house, MOST) }
        : setsOfHouse(step, sets[0]!)
  const struck = step.removals[0]?.digit ?? step.placements[0]?.digit
  return {
    digit: undefined,
    houses: sharedHouses(before, cells),
    clues: [
      look,
      { kind: 'try', way, size: sets.length },
      ...(stem === undefined ? [] : petalsApart(step, stem)),
      ...(crossing ? crossingOneShort(step, crossing) : []),
      ...(way === 'two-sets' || way === 'row-of-sets' || way === 'ring-of-sets'
        ? setMisses(step, pattern).slice(0, 1)
        : []),
      works(step, way, {
        cells: stem === undefined ? cells : [stem],
        digits: crossing ? digits : struck === undefined ? [] : [struck],
        sets: sets.map((set) => set.cells),
        houses: crossing ? crossing.sides.map(({ house }) => house) : [],
      }),
    ],
  }
}

function fewOf({ before }: FoundStep, stem: number): number[] {
  const most = candidatesIn(before, stem).length
  return Array.from(before.digits.keys()).filter((cell) => {
    const count = candidatesIn(before, cell).length
    return before.digits[cell] === 0 && count > 1 && count <= most
  })
}

function crossingCells({ before }: FoundStep, house: number, most: number) {
  const cells = openIn(before, house).filter((cell) => candidatesIn(before, cell).length <= most)
  return { house, most, cells }
}

function setsOfHouse(step: FoundStep, set: CellGroup): Clue {
  const { before } = step
  const most = Math.min(MOST, set.cells.length)
  // one cell is in several houses; the fullest is the easiest to go through
  const houses = housesWith(before, set.cells)
  const house = houses.sort((a, b) => openIn(before, a).length - openIn(before, b).length)[0]!
  const open = openIn(before, house)
  const sets = Array.from({ length: most }, (_, i) => choices(open, i + 1))
    .flat()
    .map((cells) => ({ cells, digits: digitsBetween(before, cells) }))
    .filter(({ cells, digits }) => digits.length === cells.length + 1)
  return { kind: 'spare-one', house, most, sets }
}

/** Two cells or pairs of cells joined by a digit, with another in common that strikes nothing. */
function setMisses({ before }: FoundStep, { sets }: Sets): NearMiss[] {
  const layout = layoutOf(before.geometry)
  const small = layout.houses.flatMap(({ index }) =>
    choices(openIn(before, index), 2)
      .map((cells) => ({ cells, digits: digitsBetween(before, cells) }))
      .filter(({ digits }) => digits.length === 3),
  )
  const placesIn = (cells: readonly number[], digit: number) =>
    cells.filter((cell) => digitsOf(before.candidates[cell]!).includes(digit))
  const isOwn = (cells: readonly number[]) => sets.some((set) => set.cells.join() === cells.join())
  const own = small.filter(({ cells }) => isOwn(cells))
  for (const one of own.length > 0 ? own : small.slice(0, 12))
    for (const other of small) {
      if (one.cells.some((cell) => other.cells.includes(cell)) || (isOwn(one.cells) && isOwn(other.cells)))
        continue
      const common = one.digits.filter((digit) => other.digits.includes(digit))
      for (const join of common) {
        const [a, b] = [placesIn(one.cells, join), placesIn(other.cells, join)]
        if (!a.every((cell) => b.every((far) => layout.arePeers(cell, far)))) continue
        for (const digit of common) {
          if (digit === join) continue
          const ends = [...placesIn(one.cells, digit), ...placesIn(other.cells, digit)]
          if (seenByAll(before, digit, ends).length === 0) return [{ kind: 'unseen', digit, cells: ends }]
        }
      }
    }
  return []
}
