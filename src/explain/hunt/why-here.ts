import { applyTo } from '../../grid/board/edit.js'
import type { Board } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { candidatesIn, openIn, placesOf } from './board-facts.js'
import type { WhyHere } from './clue.js'

/** Open cells of a house that is nearly full. */
const FEW = 5

/** What would make one look here: what the step settles, or else the fullest house that it has a part in. */
export function whyHere(step: FoundStep, digit: number | undefined, houses: readonly number[]): WhyHere[] {
  const out: WhyHere[] = []
  const wanted = step.pattern.shape === 'single' ? undefined : settledBy(step)
  if (wanted) out.push(wanted)
  if (digit !== undefined) {
    const placed = Array.from(step.before.digits).filter((other) => other === digit).length
    if (2 * placed >= step.before.geometry.order)
      out.push({ kind: 'often-placed', digit, placed, order: step.before.geometry.order })
  }
  if (out.length === 0 && houses.length > 0) {
    const fullest = [...houses]
      .map((house) => ({ house, cells: openIn(step.before, house) }))
      .filter(({ cells }) => cells.length > 0)
      .sort((a, b) => a.cells.length - b.cells.length)[0]
    // a house is no reason to look there unless little of it is open
    if (fullest && fullest.cells.length <= FEW)
      out.push({ kind: 'nearly-full', ...fullest, of: new Set(houses).size })
  }
  return out
}

/** A cell that the step leaves one candidate, or a house that it leaves one place for a digit. */
function settledBy(step: FoundStep): WhyHere | undefined {
  const { before } = step
  const after: Board = applyTo(before, { placements: step.placements, removals: step.removals })
  for (const { cell } of step.removals) {
    const digits = candidatesIn(before, cell)
    if (digits.length > 1 && candidatesIn(after, cell).length === 1)
      return { kind: 'worth-opening', cell, digits }
  }
  for (const { cell, digit } of step.removals) {
    for (const house of layoutOf(before.geometry).housesOf[cell]!) {
      const cells = placesOf(before, house, digit)
      if (cells.length > 1 && placesOf(after, house, digit).length === 1)
        return { kind: 'worth-settling', house, digit, cells }
    }
  }
  return undefined
}

/** Houses that hold two or more of the cells. */
export function sharedHouses(board: Board, cells: readonly number[]): number[] {
  const { housesOf } = layoutOf(board.geometry)
  const count = new Map<number, number>()
  for (const cell of new Set(cells))
    for (const house of housesOf[cell]!) count.set(house, (count.get(house) ?? 0) + 1)
  return [...count].filter(([, times]) => times > 1).map(([house]) => house)
}
