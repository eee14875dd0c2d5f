import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/step.js'
import { candidatesIn, cellsOfFew, digitsBetween, housesOfFew } from './board-facts.js'
import type { Clue } from './clue.js'
import { type Quarry, works } from './quarry.js'
import { sharedHouses } from './why-here.js'

type Shape<Name extends Pattern['shape']> = Extract<Pattern, { shape: Name }>

/** Cells that cannot be filled together with what is to go. */
export function huntExclusion(step: FoundStep, { cells }: Shape<'exclusion'>): Quarry {
  const { before } = step
  const few = cellsOfFew(before, 2)
  return {
    digit: undefined,
    houses: sharedHouses(before, cells),
    clues: [
      { kind: 'cells-of-few', most: 2, cells: few },
      { kind: 'try', way: 'fill-two', size: cells.length },
      works(step, 'fill-two', { cells, digits: digitsBetween(before, cells) }),
    ],
  }
}

export function huntExocet(step: FoundStep, { base, targets, digits }: Shape<'exocet'>): Quarry {
  return {
    digit: undefined,
    houses: sharedHouses(step.before, base),
    clues: [
      { kind: 'base-pair', cells: base, digits: digitsBetween(step.before, base) },
      { kind: 'try', way: 'base-and-targets', size: digits.length },
      works(step, 'base-and-targets', { cells: targets, digits }),
    ],
  }
}

export function huntSectors(step: FoundStep, { cells, houses }: Shape<'sectors'>): Quarry {
  const { before } = step
  return {
    digit: undefined,
    houses: houses.map(({ house }) => house),
    clues: [
      { kind: 'cells-of-few', most: 3, cells: cellsOfFew(before, 3) },
      { kind: 'try', way: 'sectors', size: cells.length },
      works(step, 'sectors', { cells, digits: [], houses: houses.map(({ house }) => house) }),
    ],
  }
}

/** Nothing to see but the premises: one supposes what is to go. */
export function huntPremises(step: FoundStep): Quarry {
  const struck = step.removals[0] ?? step.placements[0]
  return suppose(step, struck ? [struck.cell] : [])
}

export function huntCases(step: FoundStep, { tree }: Shape<'cases'>): Quarry {
  const { before } = step
  const { split } = tree
  if (split.kind === 'suppose') return suppose(step, [split.cell])
  const look: Clue =
    split.kind === 'cell'
      ? { kind: 'cells-of-few', most: split.digits.length, cells: cellsOfFew(before, split.digits.length) }
      : {
          kind: 'houses-of-few',
          digit: split.digit,
          within: 'any',
          most: split.cells.length,
          houses: housesOfFew(before, split.digit, 'any', split.cells.length),
        }
  return {
    digit: split.kind === 'house' ? split.digit : undefined,
    houses: split.kind === 'house' ? [split.house] : [...layoutOf(before.geometry).housesOf[split.cell]!],
    clues: [
      look,
      { kind: 'try', way: 'cases', size: tree.branches.length },
      works(step, 'cases', {
        cells: split.kind === 'cell' ? [split.cell] : split.cells,
        digits: split.kind === 'cell' ? split.digits : [split.digit],
        houses: split.kind === 'house' ? [split.house] : [],
      }),
    ],
  }
}

function suppose(step: FoundStep, cells: readonly number[]): Quarry {
  const { before } = step
  return {
    digit: undefined,
    houses: cells.flatMap((cell) => layoutOf(before.geometry).housesOf[cell]!),
    clues: [
      { kind: 'cells-of-few', most: 2, cells: cellsOfFew(before, 2) },
      { kind: 'try', way: 'suppose', size: 1 },
      works(step, 'suppose', { cells, digits: cells.flatMap((cell) => candidatesIn(before, cell)) }),
    ],
  }
}
