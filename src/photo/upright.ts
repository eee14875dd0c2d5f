import type { CellPicture, CellScores, DigitReader } from './digits/digit-reader.js'
import { QUARTER_TURNS, type QuarterTurns, turnCellPicture, turnedIndices } from './turn.js'

export interface UprightScores {
  readonly turns: QuarterTurns
  /** Nats by which the chosen turn beats the next best one. */
  readonly lead: number
  /** Cells in reading order of the upright page. */
  readonly pictures: readonly CellPicture[]
  readonly scores: readonly CellScores[]
}

/** Cells are compared in groups of this many until one turn is far ahead. */
const GROUP = 6
/** Nats ahead at which no more cells are compared. */
const ENOUGH = 14
/** A cell counts as printed upright or not only when it likely holds a digit. */
const FILLED = 0.5

/**
 * Finds which way is up from the digits themselves: printed digits read surely only the right way round. A file's own
 * word for its turn is not asked, since it is wrong on some cameras.
 *
 * @param pictures the cells as the lattice has them, row by row.
 */
export async function readUpright(
  pictures: readonly CellPicture[],
  reader: DigitReader,
  options: { readonly signal?: AbortSignal },
): Promise<UprightScores> {
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
    if (totals[ranking[0]!]! - totals[ranking[1]!]! >= ENOUGH) break
  }
  const turns = ranking[0]!
  const indices = turnedIndices(side, turns)
  const upright = Array.from(indices, (from) => turnCellPicture(pictures[from]!, turns))
  return {
    turns,
    lead: totals[turns]! - totals[ranking[1]!]!,
    pictures: upright,
    scores: turns === 0 ? asFound : await reader.read(upright, options),
  }
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
