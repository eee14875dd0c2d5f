import type { Geometry } from '../grid/geometry.js'
import type { Task, Watch } from '../limits.js'
import { solutionCounter } from './decide/counter.js'
import { decideTask, UNSOUND_PAGE_COST } from './decide/decide.js'
import { cellOptions } from './decide/options.js'
import { asPrint } from './inks/with-printed.js'
import type { QuarterTurns } from './turn.js'
import { TURN_SETTLED, type TurnedPage } from './upright.js'

export interface ChosenTurn {
  readonly page: TurnedPage
  /** Nats by which this turn beats the next best one. */
  readonly lead: number
  /** Of the geometries that the page may have when so turned, the one that it is most likely a sound puzzle of. */
  readonly geometry: Geometry
}

/** A page read the wrong way round is far from any sound puzzle: no use in looking for one for long. */
const EXAMINED_AT_MOST = 300

/**
 * Where the digits leave two turns open, the puzzle decides: read the wrong way round, it is hardly ever sound. Each
 * turn is worth what its pixels say less what must be given up to make it a sound puzzle. So is each geometry, where it
 * is not known which the grid has.
 *
 * @param pages one or two turns, most likely first
 * @param geometriesAt the geometries that the page may have in a turn, most likely first
 */
export function* chooseTurn(
  pages: readonly TurnedPage[],
  geometriesAt: (turns: QuarterTurns) => readonly Geometry[],
  watch: Watch,
): Task<ChosenTurn> {
  const choices: (Omit<ChosenTurn, 'lead'> & { readonly worth: number })[] = []
  for (const page of pages) {
    const geometries = geometriesAt(page.turns)
    const isOpen = pages.length > 1 || geometries.length > 1
    let best: (typeof choices)[number] | undefined
    for (const geometry of geometries) {
      const worth = page.nats - (isOpen ? yield* priceOfSoundness(page, geometry, watch) : 0)
      if (!best || worth > best.worth) best = { page, geometry, worth }
    }
    if (best) choices.push(best)
  }
  const [first, second] = choices
  if (!first) throw new RangeError('There is no turn to choose from.')
  if (!second) return { page: first.page, geometry: first.geometry, lead: TURN_SETTLED }
  const lead = first.worth - second.worth
  const { page, geometry } = lead >= 0 ? first : second
  return { page, geometry, lead: Math.abs(lead) }
}

/** Nats that must be given up against the pixels to make this page a sound puzzle. */
function* priceOfSoundness(page: TurnedPage, geometry: Geometry, watch: Watch): Task<number> {
  const options = page.scores.map((score) => cellOptions(asPrint(score).digits, geometry.order))
  const { kind, cost } = yield* decideTask(
    geometry,
    options,
    solutionCounter(geometry),
    watch,
    EXAMINED_AT_MOST,
  )
  return kind === 'sound' ? Math.min(cost, UNSOUND_PAGE_COST) : UNSOUND_PAGE_COST
}
