import type { Geometry } from '../grid/geometry.js'
import { solutionCounter } from './decide/counter.js'
import { decide, UNSOUND_PAGE_COST } from './decide/decide.js'
import { cellOptions } from './decide/options.js'
import { asPrint } from './inks/with-printed.js'
import { TURN_SETTLED, type TurnedPage } from './upright.js'

export interface ChosenTurn {
  readonly page: TurnedPage
  /** Nats by which this turn beats the next best one. */
  readonly lead: number
}

/** A page read the wrong way round is far from any sound puzzle: no use in looking for one for long. */
const EXAMINED_AT_MOST = 300

/**
 * Where the digits leave two turns open, the puzzle decides: read the wrong way round, it is hardly ever sound. Each turn
 * is worth what its pixels say less what must be given up to make it a sound puzzle.
 *
 * @param pages one or two turns, most likely first
 */
export function chooseTurn(geometry: Geometry, pages: readonly TurnedPage[]): ChosenTurn {
  const [first, second] = pages
  if (!first) throw new RangeError('There is no turn to choose from.')
  if (!second) return { page: first, lead: TURN_SETTLED }
  const count = solutionCounter(geometry)
  const worth = (page: TurnedPage) => {
    const options = page.scores.map((score) => cellOptions(asPrint(score).digits, geometry.order))
    const { kind, cost } = decide(geometry, options, count, EXAMINED_AT_MOST)
    return page.nats - (kind === 'sound' ? Math.min(cost, UNSOUND_PAGE_COST) : UNSOUND_PAGE_COST)
  }
  const lead = worth(first) - worth(second)
  return lead >= 0 ? { page: first, lead } : { page: second, lead: -lead }
}
