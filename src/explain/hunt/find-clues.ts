import type { FoundStep } from '../../logic/steps/step.js'
import { shapeClues } from '../shapes/shapes.js'
import type { Clue } from './clue.js'
import { whyHere } from './why-here.js'

/** How a step is found on its board: why one looks here, what at first, what one tries, what fails and what works. */
export function cluesFor(step: FoundStep): Clue[] {
  const { digit, houses, clues } = shapeClues(step)
  const there = clues.filter(isThere)
  // after cells, or after the houses of another digit
  const isFurther = (i: number) => /^(cells-of-few|houses-of-few)$/.test(there[i - 1]?.kind ?? '')
  const inOrder = there.map((clue, i) =>
    clue.kind === 'houses-of-few' && isFurther(i) ? { ...clue, isFurther: true } : clue,
  )
  return [...whyHere(step, digit, houses), ...inOrder]
}

/** Is there anything that the clue points at? */
function isThere(clue: Clue): boolean {
  switch (clue.kind) {
    case 'cells-of-few':
    case 'few-in-house':
    case 'alike':
      return clue.cells.length > 0
    case 'houses-of-few':
      return clue.houses.length > 0
    case 'spare-one':
      return clue.sets.length > 0
    default:
      return true
  }
}
