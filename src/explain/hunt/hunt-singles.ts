import type { Board } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { argueSingle } from '../argument/argue-singles.js'
import { candidatesIn, cellsOfFew, digitsBetween, housesOfFew, openIn } from './board-facts.js'
import type { Clue } from './clue.js'
import { type Quarry, works } from './quarry.js'

/** A house with one open cell, a digit that rules its way through a house, or a cell that sees all digits but one. */
export function huntSingle(step: FoundStep, pattern: Extract<Pattern, { shape: 'single' }>): Quarry {
  const { cell, digit } = pattern
  const { before } = step
  const fact = argueSingle(step, pattern)[0]
  const houses = pattern.house === undefined ? [] : [pattern.house]
  if (fact?.kind === 'last-cell') {
    const cells = openIn(before, fact.house)
    const clues: Clue[] = [
      { kind: 'try', way: 'fill-house', size: 1 },
      ...housesWithTwo(before).slice(0, 1),
      works(step, 'fill-house', { cells, digits: [digit], houses: [fact.house] }),
    ]
    return { digit: undefined, houses: [fact.house], clues }
  }
  if (fact?.kind === 'only-place') {
    const stands = Array.from(before.digits.keys()).filter((other) => before.digits[other] === digit)
    const clues: Clue[] = [
      ...(stands.length > 0 ? [{ kind: 'stands' as const, digit, cells: stands }] : []),
      { kind: 'try', way: 'cross-out', size: 1 },
      ...placesTwo(before, digit).slice(0, 1),
      works(step, 'cross-out', { cells: [cell], digits: [digit], houses: [fact.house] }),
    ]
    return { digit: undefined, houses, clues }
  }
  const seen = fact?.kind === 'only-candidate' ? fact.seen.flatMap((part) => part.digits) : []
  const clues: Clue[] = [
    { kind: 'sees', cell, digits: [...seen].sort((a, b) => a - b) },
    { kind: 'try', way: 'count-digits', size: 1 },
    ...cellsWithTwo(before, cell).slice(0, 1),
    works(step, 'count-digits', { cells: [cell], digits: digitsBetween(before, [cell]) }),
  ]
  return {
    digit: undefined,
    houses: fact?.kind === 'only-candidate' ? fact.seen.map(({ house }) => house) : [],
    clues,
  }
}

function housesWithTwo(board: Board): Clue[] {
  return layoutOf(board.geometry).houses.flatMap(({ index }): Clue[] => {
    const cells = openIn(board, index)
    return cells.length === 2 ? [{ kind: 'two-cells-open', house: index, cells }] : []
  })
}

function placesTwo(board: Board, digit: number): Clue[] {
  return housesOfFew(board, digit, 'any', 2).map(({ house, cells }) => ({
    kind: 'two-places-left',
    house,
    digit,
    cells,
  }))
}

/** Cells that see the cell and have two digits left. */
function cellsWithTwo(board: Board, own: number): Clue[] {
  const layout = layoutOf(board.geometry)
  return cellsOfFew(board, 2)
    .filter((cell) => layout.arePeers(cell, own))
    .map((cell) => ({ kind: 'two-digits-left', cell, digits: candidatesIn(board, cell) }))
}
