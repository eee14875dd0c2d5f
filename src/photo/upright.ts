import { CELL_SIZE, type CellPicture, type CellScores, type DigitReader } from './digits/digit-reader.js'
import { QUARTER_TURNS, type QuarterTurns, turnCellPicture, turnedIndices } from './turn.js'

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
const GROUP = 6
/** Nats ahead at which a turn is settled by the pixels alone. */
export const TURN_SETTLED = 14
/** A cell speaks for a turn when it likely holds a digit or has ink, of which there are this many dark pixels at least. */
const FILLED = 0.5
const LEAST_INK_PIXELS = 12
const DARK = 128
/** The part of a cell picture that no rule reaches. */
const INNER_FIRST = 8
const INNER_END = CELL_SIZE - INNER_FIRST
/**
 * Nats that a sure reading is worth, as a share of the log of its doubt. Measured on drawn pages of training typefaces, a
 * digit is worth 0.85 of it against a page lying on its side and about 0.4 against one upside down; that no digit is
 * printed, half as much. Pages err as a whole, so the low end is taken.
 */
const DIGIT_WORTH = 0.5
const NONE_WORTH = 0.25
const LEAST_DOUBT = 1e-3

/**
 * Which way is up, from the figures themselves: ink reads surely only the right way round, as a printed digit or as none
 * (handwriting, pencil marks); turned, it looks a little like several things. A file's own word for its turn is not asked,
 * since it is wrong on some cameras.
 *
 * Only 3, 4 and 7 tell a page from the same page upside down, so the pixels may leave two turns open.
 *
 * @param pictures the cells as the lattice has them, row by row.
 * @returns the most likely turn and, unless it is settled, the next one.
 */
export async function likelyTurns(
  pictures: readonly CellPicture[],
  reader: DigitReader,
  options: { readonly signal?: AbortSignal },
): Promise<TurnedPage[]> {
  const side = Math.round(Math.sqrt(pictures.length))
  const asFound = await reader.read(pictures, options)
  const filled = pictures.flatMap((picture, cell) =>
    asFound[cell]!.digits[0]! < FILLED || hasInk(picture) ? [cell] : [],
  )
  const totals = [0, 0, 0, 0]
  let ranking: readonly QuarterTurns[] = QUARTER_TURNS
  for (let start = 0; start < filled.length; start += GROUP) {
    const group = spread(filled, start, GROUP)
    for (const turns of QUARTER_TURNS) {
      const scores =
        turns === 0
          ? group.map((cell) => asFound[cell]!)
          : await reader.read(
              group.map((cell) => turnCellPicture(pictures[cell]!, turns)),
              options,
            )
      for (const score of scores) totals[turns] = totals[turns]! + sureness(score)
    }
    ranking = [...QUARTER_TURNS].sort((a, b) => totals[b]! - totals[a]!)
    if (totals[ranking[0]!]! - totals[ranking[1]!]! >= TURN_SETTLED) break
  }
  const [best, next] = ranking as [QuarterTurns, QuarterTurns]
  const settled = totals[best]! - totals[next]! >= TURN_SETTLED
  const pages: TurnedPage[] = []
  for (const turns of settled ? [best] : [best, next]) {
    const indices = turnedIndices(side, turns)
    const turned = Array.from(indices, (from) => turnCellPicture(pictures[from]!, turns))
    const scores = turns === 0 ? asFound : await reader.read(turned, options)
    pages.push({ turns, nats: totals[turns]!, pictures: turned, scores })
  }
  return pages
}

/** Every `stride`-th cell, so that a group is spread over the whole page instead of its top rows. */
function spread(cells: readonly number[], start: number, size: number): number[] {
  const groups = Math.ceil(cells.length / size)
  return cells.filter((_, i) => i % groups === start / size)
}

function hasInk({ data }: CellPicture): boolean {
  let dark = 0
  for (let y = INNER_FIRST; y < INNER_END; y++) {
    for (let x = INNER_FIRST; x < INNER_END; x++) if (data[y * CELL_SIZE + x]! < DARK) dark++
  }
  return dark > LEAST_INK_PIXELS
}

/** What a cell's reading is worth for the turn it was read at, in nats. */
function sureness({ digits }: CellScores): number {
  const none = digits[0]!
  let best = 0
  for (let digit = 1; digit < digits.length; digit++) best = Math.max(best, digits[digit]!)
  const doubt = Math.max(LEAST_DOUBT, 1 - Math.max(best, none))
  return -Math.log(doubt) * (best >= none ? DIGIT_WORTH : NONE_WORTH)
}
