import type { CellPicture, CellScores, DigitReader, ReadCellsOptions } from './digits/digit-reader.js'
import { figuresStand, hasInk } from './standing.js'
import { QUARTER_TURNS, type QuarterTurns, turnCellPicture, turnedIndices } from './turn.js'
import { speaksForUpright } from './upside-down.js'

/** A page as it reads when brought upright by so many turns. */
export interface TurnedPage {
  readonly turns: QuarterTurns
  /** How likely the pixels make this turn, in nats; only differences between turns of one page mean something. */
  readonly nats: number
  /** Cells in reading order of the page so turned. */
  readonly pictures: readonly CellPicture[]
  readonly scores: readonly CellScores[]
}

/** Cells are compared in groups of this many until one turn is far ahead. */
const GROUP = 2
/** Any so many in a row are spread over the whole page. */
const SPREAD_OVER = 5
/**
 * Digits that look like others upside down, which do not look like them: cells that seem to hold one
 * are compared first.
 */
const TELLING = [3, 5] as const
const SEEMS = 0.9
/** Nats ahead at which a turn is settled by the pixels alone. */
export const TURN_SETTLED = 14
/** A cell without ink, of which the reader is this sure that it has no digit, is bare paper. */
const BARE = 0.999
/** A cell speaks for a turn when it likely holds a digit or has ink. */
const FILLED = 0.5
/**
 * Nats that a sure reading is worth, as a share of the log of its doubt. Measured on drawn pages of training typefaces,
 * a digit is worth 0.85 of it against a page lying on its side and about 0.4 against one upside down; that no digit is
 * printed, half as much. Pages err as a whole, so the low end is taken.
 */
const DIGIT_WORTH = 0.5
const NONE_WORTH = 0.25
const LEAST_DOUBT = 1e-3

/**
 * Which way is up, from the figures themselves: ink reads surely only the right way round, as a printed digit or as
 * none (handwriting, pencil marks); turned, it looks a little like several things. A file's own word for its turn is
 * not asked, since it is wrong on some cameras.
 *
 * Figures are taller than wide, so where that shows only two turns are compared. Only 3, 4 and 7 tell a page from the
 * same page upside down, so the pixels may leave two turns open.
 *
 * @param pictures the cells as the lattice has them, row by row.
 * @returns the most likely turn and, unless it is settled, the next one.
 */
export async function likelyTurns(
  pictures: readonly CellPicture[],
  reader: DigitReader,
  options: ReadCellsOptions,
): Promise<TurnedPage[]> {
  const side = Math.round(Math.sqrt(pictures.length))
  const every = pictures.map((_, cell) => cell)
  const turned = new TurnedCells(pictures, reader, options)
  const asFound = await turned.scores(every, 0)
  const filled = every.filter((cell) => asFound[cell]!.digits[0]! < FILLED || hasInk(pictures[cell]!))
  const totals = possibleTurns(pictures)
  let ranking: readonly QuarterTurns[] = QUARTER_TURNS
  const order = spread(filled)
  const telling = order.filter((cell) => TELLING.some((digit) => asFound[cell]!.digits[digit]! > SEEMS))
  const others = order.filter((cell) => !telling.includes(cell))
  const compared = [...telling, ...others]
  for (let start = 0; start < compared.length; start += GROUP) {
    const group = compared.slice(start, start + GROUP)
    const most = Math.max(...totals)
    for (const turns of QUARTER_TURNS) {
      // against this turn the pixels have settled it
      if (most - totals[turns]! >= TURN_SETTLED) continue
      for (const score of await turned.scores(group, turns)) totals[turns] = totals[turns]! + sureness(score)
    }
    for (const turns of [0, 1] as const) {
      const opposite = (turns + 2) as QuarterTurns
      if ([turns, opposite].some((way) => most - totals[way]! >= TURN_SETTLED)) continue
      const [these, those] = [await turned.scores(group, turns), await turned.scores(group, opposite)]
      for (const [i, score] of these.entries()) {
        totals[turns] = totals[turns]! + speaksForUpright(score, those[i]!)
      }
    }
    ranking = [...QUARTER_TURNS].sort((a, b) => totals[b]! - totals[a]!)
    if (totals[ranking[0]!]! - totals[ranking[1]!]! >= TURN_SETTLED) break
  }
  const [best, next] = ranking as [QuarterTurns, QuarterTurns]
  const settled = totals[best]! - totals[next]! >= TURN_SETTLED
  const pages: TurnedPage[] = []
  for (const turns of settled ? [best] : [best, next]) {
    const cells = [...turnedIndices(side, turns)]
    const scores = await turned.scores(cells, turns)
    pages.push({ turns, nats: totals[turns]!, pictures: turned.pictures(cells, turns), scores })
  }
  return pages
}

/** Nats to begin with: 0 for each turn, and minus infinity for those that would leave the figures lying. */
function possibleTurns(pictures: readonly CellPicture[]): number[] {
  const stand = figuresStand(pictures)
  return QUARTER_TURNS.map((turns) =>
    stand === undefined || (turns % 2 === 0) === stand ? 0 : Number.NEGATIVE_INFINITY,
  )
}

/** Cells turned and read as they are asked for, each once. */
class TurnedCells {
  /** By turn and cell. */
  private readonly turned: CellPicture[][] = QUARTER_TURNS.map(() => [])
  private readonly read: CellScores[][] = QUARTER_TURNS.map(() => [])

  constructor(
    private readonly found: readonly CellPicture[],
    private readonly reader: DigitReader,
    private readonly options: ReadCellsOptions,
  ) {}

  pictures(cells: readonly number[], turns: QuarterTurns): CellPicture[] {
    const turned = this.turned[turns]!
    return cells.map((cell) => {
      turned[cell] ??= turnCellPicture(this.found[cell]!, turns)
      return turned[cell]
    })
  }

  async scores(cells: readonly number[], turns: QuarterTurns): Promise<CellScores[]> {
    const read = this.read[turns]!
    const asFound = this.read[0]!
    const missing: number[] = []
    for (const cell of cells) {
      if (read[cell]) continue
      const before = asFound[cell]
      // bare paper looks the same whichever way it lies
      if (before && before.digits[0]! > BARE && !hasInk(this.found[cell]!)) read[cell] = before
      else missing.push(cell)
    }
    if (missing.length > 0) {
      const scores = await this.reader.read(this.pictures(missing, turns), this.options)
      missing.forEach((cell, k) => {
        read[cell] = scores[k]!
      })
    }
    return cells.map((cell) => read[cell]!)
  }
}

/** In an order in which any few in a row are spread over the whole page, instead of its top rows. */
function spread(cells: readonly number[]): number[] {
  const apart = Math.ceil(cells.length / SPREAD_OVER)
  return Array.from({ length: apart }, (_, start) => cells.filter((_, i) => i % apart === start)).flat()
}

/** What a cell's reading is worth for the turn it was read at, in nats. */
function sureness({ digits }: CellScores): number {
  const none = digits[0]!
  let best = 0
  for (let digit = 1; digit < digits.length; digit++) best = Math.max(best, digits[digit]!)
  const doubt = Math.max(LEAST_DOUBT, 1 - Math.max(best, none))
  return -Math.log(doubt) * (best >= none ? DIGIT_WORTH : NONE_WORTH)
}
