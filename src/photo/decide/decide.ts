import type { Geometry } from '../../grid/geometry.js'
import { runNow, type Task, type Watch } from '../../limits.js'
import { LARGEST_FIGURE } from '../digits/digit-reader.js'
import type { CellOptions } from './options.js'
import { type SolutionCounter, type SoundReading, soundReadings } from './search.js'

/** Prior odds, in nats, against a printed puzzle being unsound: about one in a thousand. */
export const UNSOUND_PAGE_COST = 7

/**
 * Prior odds, in nats, against each cell beyond the first that print has wrong on such a page: about one in fifty. A
 * setter's fault is one digit, as a rule; many cells a little in doubt are a blurred picture.
 */
const FURTHER_FAULT_COST = 4

/**
 * What it costs, in nats, to take the page for unsound instead of changing so many cells of what the pixels say. A
 * repair that costs more says the page itself is more likely at fault than the reading.
 */
function unsoundPageCost(cellsChanged: number): number {
  return UNSOUND_PAGE_COST + FURTHER_FAULT_COST * Math.max(0, cellsChanged - 1)
}

/** Beyond this lead, in nats, a runner-up is not looked for. */
export const MARGIN_CAP = 20

const EXAMINED_AT_MOST = 4000
/** Of an order above 9, where each takes longer. */
const EXAMINED_OF_LARGE = 60

function examinedAtMost({ order }: Geometry): number {
  return order <= LARGEST_FIGURE ? EXAMINED_AT_MOST : EXAMINED_OF_LARGE
}

export interface Decision {
  readonly digits: Uint8Array
  /** `sound`: exactly one solution. `as-read`: the pixels' own first choice, though it is not a sound puzzle. */
  readonly kind: 'sound' | 'as-read'
  /** Nats given up against the pixels' own first choice. */
  readonly cost: number
  /** Nats to the next best way to read the page, capped at `MARGIN_CAP`. */
  readonly margin: number
  /** The next best sound reading within the cap, if any. */
  readonly runnerUp: Uint8Array | undefined
}

/**
 * Weighs all cells together: the most probable reading without a clash and with exactly one solution, against the page
 * as the pixels alone have it.
 *
 * @param budget how many readings may be examined
 */
export function decide(
  geometry: Geometry,
  options: readonly CellOptions[],
  count: SolutionCounter,
  budget = examinedAtMost(geometry),
): Decision {
  return runNow({}, (watch) => decideTask(geometry, options, count, watch, budget))
}

/** The same as work that can be paused. */
export function* decideTask(
  geometry: Geometry,
  options: readonly CellOptions[],
  count: SolutionCounter,
  watch: Watch,
  budget = examinedAtMost(geometry),
): Task<Decision> {
  const pixels = Uint8Array.from(options, ({ digits }) => digits[0]!)
  const search = soundReadings(geometry, options, count, {
    costLimit: UNSOUND_PAGE_COST + MARGIN_CAP,
    budget,
  })
  const first = yield* nextReading(search, watch)
  const changed = first.done ? 1 : pixels.filter((digit, cell) => digit !== first.value.digits[cell]).length
  if (first.done || first.value.cost > unsoundPageCost(changed)) {
    const repairCost = first.done ? first.value : first.value.cost
    return {
      digits: pixels,
      kind: 'as-read',
      cost: 0,
      margin: Math.min(MARGIN_CAP, Math.max(0, repairCost - unsoundPageCost(changed))),
      runnerUp: first.done ? undefined : first.value.digits,
    }
  }
  const best = first.value
  const second = yield* nextReading(search, watch)
  const rivalCosts = [second.done ? second.value : second.value.cost]
  // A reading that overrides the pixels has the page as the pixels have it for a rival, sound or not. However many
  // cells it changes, it must beat a page with a single fault to be trusted.
  if (best.cost > 0) rivalCosts.push(UNSOUND_PAGE_COST)
  return {
    digits: best.digits,
    kind: 'sound',
    cost: best.cost,
    margin: Math.max(
      0,
      Math.min(MARGIN_CAP, Math.min(...rivalCosts) - best.cost, twinMargin(geometry, options, best.digits)),
    ),
    runnerUp: second.done ? undefined : second.value.digits,
  }
}

type SearchEnd = { readonly done: true; readonly value: number }
type Found = { readonly done?: false; readonly value: SoundReading }

function* nextReading(search: ReturnType<typeof soundReadings>, watch: Watch): Task<SearchEnd | Found> {
  for (;;) {
    const { done, value } = search.next()
    if (done) return { done, value }
    if (value) return { value }
    // every step may take a millisecond
    watch.read()
    if (watch.isDue()) yield
  }
}

/**
 * Exchange two digits throughout a puzzle and it is as sound as before, so logic cannot tell a typeface whose 1 looks
 * like a 7. All printed digits of a kind share one glyph, so their scores err together: the evidence against such an
 * exchange is that of its single most telling cell, not the sum over cells. A sound puzzle shows all digits but one, so
 * of any two at least one is there to tell.
 */
function twinMargin(geometry: Geometry, options: readonly CellOptions[], digits: Uint8Array): number {
  const order = geometry.order
  // against[d][e]: the most telling cell among those read as d, if they were all e
  const against = Array.from({ length: order + 1 }, () => new Float64Array(order + 1))
  digits.forEach((digit, cell) => {
    if (digit === 0) return
    const { digits: possible, costs } = options[cell]!
    const own = costs[possible.indexOf(digit)]!
    const row = against[digit]!
    for (let other = 1; other <= order; other++) {
      const rank = possible.indexOf(other)
      row[other] = Math.max(row[other]!, rank < 0 ? MARGIN_CAP : costs[rank]! - own)
    }
  })
  let margin = MARGIN_CAP
  for (let one = 1; one <= order; one++) {
    for (let other = one + 1; other <= order; other++) {
      margin = Math.min(margin, Math.max(against[one]![other]!, against[other]![one]!))
    }
  }
  return margin
}
