import type { InkTint } from './ink-tint.js'

/** Two inks differ at least this much in tint … */
const LEAST_DISTANCE = 0.2
/** … and by this many times the spread of the tints within each. */
const LEAST_SPREADS = 4
/** A tint nearer to black than this is black. */
const NEARLY_BLACK = 0.12
const ROUNDS = 12

interface Ink {
  readonly centre: InkTint
  readonly cells: readonly number[]
}

/**
 * Cells whose figures stand in a second ink: what somebody filled in, where the page was printed in one. The print is the
 * black ink, or the commoner one when neither or both are black. Empty when all figures are of one ink.
 *
 * @param tints cell -> tint of its figure; undefined for cells without one
 */
export function secondInk(tints: readonly (InkTint | undefined)[]): readonly number[] {
  const cells = tints.flatMap((tint, cell) => (tint ? [cell] : []))
  const tintOf = (cell: number) => tints[cell]!
  if (cells.length < 2) return []
  const [one, other] = partInTwo(cells, tintOf)
  if (other.cells.length === 0) return []
  const apart = distance(one.centre, other.centre)
  const spread = Math.max(spreadOf(one, tintOf), spreadOf(other, tintOf))
  if (apart < LEAST_DISTANCE || apart < LEAST_SPREADS * spread) return []
  const black = ({ centre }: Ink) => Math.hypot(centre.redOverBlue, centre.greenOverRest) < NEARLY_BLACK
  if (black(one) !== black(other)) return black(one) ? other.cells : one.cells
  return one.cells.length >= other.cells.length ? other.cells : one.cells
}

/** Two means, begun from the tint farthest from the first cell's and the one farthest from that. */
function partInTwo(cells: readonly number[], tintOf: (cell: number) => InkTint): [Ink, Ink] {
  const farthestFrom = (from: InkTint) =>
    tintOf(
      cells.reduce((best, cell) =>
        distance(tintOf(cell), from) > distance(tintOf(best), from) ? cell : best,
      ),
    )
  let a = farthestFrom(tintOf(cells[0]!))
  let b = farthestFrom(a)
  let inks: [Ink, Ink] = [
    { centre: a, cells },
    { centre: b, cells: [] },
  ]
  for (let round = 0; round < ROUNDS; round++) {
    const nearA = cells.filter((cell) => distance(tintOf(cell), a) <= distance(tintOf(cell), b))
    const nearB = cells.filter((cell) => !nearA.includes(cell))
    if (nearB.length === 0) break
    a = meanOf(nearA.map(tintOf))
    b = meanOf(nearB.map(tintOf))
    inks = [
      { centre: a, cells: nearA },
      { centre: b, cells: nearB },
    ]
  }
  return inks
}

function distance(a: InkTint, b: InkTint): number {
  return Math.hypot(a.redOverBlue - b.redOverBlue, a.greenOverRest - b.greenOverRest)
}

function meanOf(tints: readonly InkTint[]): InkTint {
  const mean = (part: (tint: InkTint) => number) =>
    tints.reduce((sum, tint) => sum + part(tint), 0) / tints.length
  return { redOverBlue: mean((t) => t.redOverBlue), greenOverRest: mean((t) => t.greenOverRest) }
}

function spreadOf({ centre, cells }: Ink, tintOf: (cell: number) => InkTint): number {
  return Math.sqrt(cells.reduce((sum, cell) => sum + distance(tintOf(cell), centre) ** 2, 0) / cells.length)
}
