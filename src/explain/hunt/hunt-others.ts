import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { candidatesIn, cellsOfFew, digitsBetween, housesOfFew, openCells } from './board-facts.js'
import type { Clue } from './clue.js'
import { followSingles, shareSomething } from './follow-singles.js'
import { fittingFilling, roomyBase, sectorsOneShort } from './larger-misses.js'
import { type Quarry, works } from './quarry.js'
import { sharedHouses } from './why-here.js'

type Shape<Name extends Pattern['shape']> = Extract<Pattern, { shape: Name }>

/** Cells that cannot be filled together with what is to go. */
export function huntExclusion(step: FoundStep, pattern: Shape<'exclusion'>): Quarry {
  const { before } = step
  const { cells, excluded } = pattern
  const starved = new Map(excluded.filter(({ by }) => by.length > 0).map(({ by }) => [by.join(), by]))
  const sets = [...starved.values()].map((by) => ({ cells: by, digits: digitsBetween(before, by) }))
  return {
    digit: undefined,
    houses: sharedHouses(before, cells),
    clues: [
      { kind: 'in-sight', of: cells, sets },
      { kind: 'try', way: 'fill-two', size: cells.length },
      ...fittingFilling(step, pattern),
      works(step, 'fill-two', { cells, digits: digitsBetween(before, cells) }),
    ],
  }
}

export function huntExocet(step: FoundStep, pattern: Shape<'exocet'>): Quarry {
  const { base, targets, digits } = pattern
  return {
    digit: undefined,
    houses: sharedHouses(step.before, base),
    clues: [
      { kind: 'base-pair', cells: base, digits: digitsBetween(step.before, base) },
      { kind: 'try', way: 'base-and-targets', size: digits.length },
      ...roomyBase(step, pattern),
      works(step, 'base-and-targets', { cells: targets, digits }),
    ],
  }
}

export function huntSectors(step: FoundStep, pattern: Shape<'sectors'>): Quarry {
  const { cells, houses } = pattern
  const { before } = step
  return {
    digit: undefined,
    houses: houses.map(({ house }) => house),
    clues: [
      { kind: 'cells-of-few', most: 3, cells: cellsOfFew(before, 3) },
      { kind: 'try', way: 'sectors', size: cells.length },
      ...sectorsOneShort(step, pattern),
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
      ...(split.kind === 'cell' ? casesApart(step, split.cell) : []),
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
      ...noDeadEnds(step, cells),
      works(step, 'suppose', { cells, digits: cells.flatMap((cell) => candidatesIn(before, cell)) }),
    ],
  }
}

/** How many others are followed before one is taken for an example. */
const TRIED = 6

/** Another cell whose two cases, followed by singles, have nothing in common. */
function casesApart({ before }: FoundStep, own: number): Clue[] {
  for (const cell of cellsOfFew(before, 2).slice(0, TRIED)) {
    if (cell === own) continue
    const digits = candidatesIn(before, cell)
    const [one, other] = digits.map((digit) => followSingles(before, { cell, digit }))
    if (one && other && !shareSomething(before, one, other))
      return [{ kind: 'nothing-in-common', cell, digits }]
  }
  return []
}

/** Another candidate that, supposed true and followed by singles, comes to no dead end. */
function noDeadEnds({ before }: FoundStep, own: readonly number[]): Clue[] {
  for (const cell of cellsOfFew(before, 2).slice(0, TRIED)) {
    if (own.includes(cell)) continue
    for (const digit of candidatesIn(before, cell)) {
      const after = followSingles(before, { cell, digit })
      if (after && openCells(after).length > 0) return [{ kind: 'no-dead-end', cell, digit }]
    }
  }
  return []
}
