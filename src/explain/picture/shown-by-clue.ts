import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { placesOf } from '../hunt/board-facts.js'
import type { Clue } from '../hunt/clue.js'
import type { Shown } from './shown-by.js'

/** Where the house has any of the digits. */
function placesIn(
  before: FoundStep['before'],
  { house, digits }: Extract<Clue, { kind: 'no-extra' }>,
): number[] {
  return [...new Set(digits.flatMap((digit) => placesOf(before, house, digit)))]
}

/** What the sentence of a clue shows: nothing of it stays but what works in the end. */
export function shownByClue({ before }: FoundStep, clue: Clue): Shown {
  const show = (
    cells: readonly number[],
    digits: readonly number[] | undefined,
    houses: readonly number[] = [],
  ): Shown => {
    const candidates = cells.flatMap((cell): Candidate[] =>
      digitsOf(before.candidates[cell]!)
        .filter((digit) => digits?.includes(digit) ?? true)
        .map((digit) => ({ cell, digit })),
    )
    return { cells, candidates, houses, concluded: [] }
  }
  switch (clue.kind) {
    case 'worth-opening':
    case 'sees':
      return show([clue.cell], undefined)
    case 'worth-settling':
      return show(clue.cells, [clue.digit], [clue.house])
    case 'nearly-full':
      return show(clue.cells, [], [clue.house])
    case 'often-placed': {
      const stand = Array.from(before.digits.keys()).filter((cell) => before.digits[cell] === clue.digit)
      return show(stand, [])
    }
    case 'cells-of-few':
    case 'more-than-two':
      return show(clue.cells, undefined)
    case 'houses-of-few':
      return show([...new Set(clue.houses.flatMap(({ cells }) => cells))], [clue.digit])
    case 'few-in-house':
      return show(clue.cells, undefined, [clue.house])
    case 'few-places': {
      const candidates = clue.digits.flatMap(({ digit, cells }) => cells.map((cell) => ({ cell, digit })))
      return {
        cells: [...new Set(candidates.map(({ cell }) => cell))],
        candidates,
        houses: [clue.house],
        concluded: [],
      }
    }
    case 'one-line':
      return show(
        clue.found.flatMap(({ cells }) => cells),
        [clue.digit],
        clue.found.map(({ from }) => from),
      )
    case 'crosses':
      return show(
        clue.found.flatMap(({ cells }) => cells),
        [clue.digit],
        clue.found.map(({ box }) => box),
      )
    case 'alike':
    case 'base-pair':
      return show(clue.cells, clue.digits)
    case 'spare-one':
      return show([...new Set(clue.sets.flatMap(({ cells }) => cells))], undefined, [clue.house])
    case 'stands':
      return show(clue.cells, [])
    case 'try':
      return show([], [])
    case 'one-digit-too-many':
      return show(clue.cells, clue.digits)
    case 'one-cell-too-many':
      return show(clue.cells, clue.digits, [clue.house])
    case 'one-line-too-many':
      return show(
        clue.base.flatMap((house) => placesOf(before, house, clue.digit)),
        [clue.digit],
        clue.base,
      )
    case 'nothing-to-strike':
      return show(clue.cells, [clue.digit], [clue.from, clue.to])
    case 'no-partner':
      return show([clue.cell], undefined)
    case 'unseen': {
      const ends = show(clue.cells, [clue.digit])
      if (clue.pivot === undefined) return ends
      const pivot = show([clue.pivot], undefined)
      return {
        ...ends,
        cells: [...pivot.cells, ...ends.cells],
        candidates: [...pivot.candidates, ...ends.candidates],
      }
    }
    case 'apart':
      return show(
        clue.houses.flatMap(({ cells }) => cells),
        [clue.digit],
        clue.houses.map(({ house }) => house),
      )
    case 'too-short': {
      const nodes = [clue.first, clue.end]
      const candidates = nodes.flatMap(({ cells, digit }) => cells.map((cell) => ({ cell, digit })))
      return { cells: candidates.map(({ cell }) => cell), candidates, houses: [], concluded: [] }
    }
    case 'quiet-colours':
      return show(clue.cells, [clue.digit])
    case 'given-corner':
    case 'four-boxes':
      return show(clue.cells, clue.digits)
    case 'two-places-left':
      return show(clue.cells, [clue.digit], [clue.house])
    case 'two-digits-left':
    case 'nothing-in-common':
      return show([clue.cell], undefined)
    case 'two-cells-open':
      return show(clue.cells, [], [clue.house])
    case 'fins-unseen':
      return show(
        clue.base.flatMap((house) => placesOf(before, house, clue.digit)),
        [clue.digit],
        clue.base,
      )
    case 'lacking-corner':
      return show(clue.cells, clue.digits)
    case 'no-dead-end':
      return show([clue.cell], [clue.digit])
    case 'in-sight':
      return show([...clue.of, ...clue.sets.flatMap(({ cells }) => cells)], undefined)
    case 'unjoined':
    case 'even-turns':
      return show(clue.cells, undefined)
    case 'goes-together':
      return { ...show([], []), cells: clue.fits.map(({ cell }) => cell), candidates: clue.fits }
    case 'has-room':
      return show([...clue.base, ...clue.targets], [clue.digit])
    case 'one-short':
      return show([clue.without], undefined)
    case 'petals-apart':
      return show([clue.stem, ...clue.petals.map(({ cell }) => cell)], undefined)
    case 'no-extra':
      return show(placesIn(before, clue), clue.digits, [clue.house])
    case 'works':
      return show(clue.cells, clue.digits, clue.houses)
    default:
      return clue satisfies never
  }
}
