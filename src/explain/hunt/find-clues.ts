import type { FoundStep } from '../../logic/steps/step.js'
import type { Clue } from './clue.js'
import { huntChain } from './hunt-chains.js'
import { huntColours } from './hunt-colours.js'
import { huntExchange } from './hunt-exchange.js'
import { huntFish, huntLocked, huntSubset } from './hunt-lines.js'
import { huntCases, huntExclusion, huntExocet, huntPremises, huntSectors } from './hunt-others.js'
import { huntSets } from './hunt-sets.js'
import { huntSingle } from './hunt-singles.js'
import { huntWing } from './hunt-wings.js'
import type { Quarry } from './quarry.js'
import { whyHere } from './why-here.js'

/** How a step is found on its board: why one looks here, what at first, what one tries, what fails and what works. */
export function cluesFor(step: FoundStep): Clue[] {
  const { digit, houses, clues } = quarryOf(step)
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

function quarryOf(step: FoundStep): Quarry {
  const { pattern } = step
  switch (pattern.shape) {
    case 'single':
      return huntSingle(step, pattern)
    case 'locked':
      return huntLocked(step, pattern)
    case 'subset':
      return huntSubset(step, pattern)
    case 'fish':
      return huntFish(step, pattern)
    case 'wing':
      return huntWing(step, pattern)
    case 'chain':
      return huntChain(step, pattern)
    case 'colouring':
      return huntColours(step, pattern)
    case 'sets':
      return huntSets(step, pattern)
    case 'exchange':
      return huntExchange(step, pattern)
    case 'exclusion':
      return huntExclusion(step, pattern)
    case 'exocet':
      return huntExocet(step, pattern)
    case 'sectors':
      return huntSectors(step, pattern)
    case 'premises':
      return huntPremises(step)
    case 'cases':
      return huntCases(step, pattern)
    default:
      return pattern satisfies never
  }
}
