import type { CellPicture, CellScores, DigitReader } from './digits/digit-reader.js'
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
/** A cell counts as printed upright or not only when it likely holds a digit. */
const FILLED = 0.5

/**
 * Which way is up, from the digits themselves: printed digits read surely only the right way round. A file's own word
 * for its turn is not asked, since it is wrong on some cameras.
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
  const filled = asFound.map((_, cell) => cell).filter((cell) => asFound[cell]!.digits[0]! < FILLED)
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

/** Log of how likely the cell's best digit is, a blank counting as no digit at all. */
function sureness({ digits }: CellScores): number {
  let best = 0
  for (let digit = 1; digit < digits.length; digit++) best = Math.max(best, digits[digit]!)
  return Math.log(Math.max(best, 1e-4))
}
