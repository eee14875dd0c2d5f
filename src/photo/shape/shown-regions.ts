import type { SideWeights } from './side-weights.js'

/** The side between two neighbouring cells. */
interface InnerSide {
  readonly cells: readonly [number, number]
  readonly weight: number
}

/**
 * The irregular regions that a grid's heavy lines part it into: cell -> region. Undefined where they part it into
 * boxes, or into no regions of equal size.
 */
export function shownRegions(weights: SideWeights, order: number): readonly number[] | undefined {
  const sides = innerSides(weights, order)
  if (sides.some(({ weight }) => Number.isNaN(weight))) return undefined
  sides.sort((a, b) => a.weight - b.weight)
  // heavy lines are darker than others; or lighter, on dark ground
  const regions = parted(sides, order) ?? parted(sides.reverse(), order)
  return regions && !areBoxes(regions, order) ? regions : undefined
}

/**
 * Joins cells across one side after another. Where heavy lines bound regions of as many cells as the grid has rows, and
 * their sides come last, there is a moment when each piece is one of these; noise, or lines that are all alike, hardly
 * ever make such pieces.
 */
function parted(sides: readonly InnerSide[], order: number): readonly number[] | undefined {
  const regionOf = Array.from({ length: order * order }, (_, cell) => cell)
  const members = regionOf.map((cell) => [cell])
  let pieces = order * order
  for (const { cells } of sides) {
    const [kept, given] = [regionOf[cells[0]]!, regionOf[cells[1]]!]
    if (kept === given) continue
    for (const cell of members[given]!) regionOf[cell] = kept
    members[kept]!.push(...members[given]!)
    if (members[kept]!.length > order) return undefined
    // as many pieces as rows, none of more cells: all are regions
    if (--pieces === order) break
  }
  const numbers = [...new Set(regionOf)]
  return regionOf.map((region) => numbers.indexOf(region))
}

function innerSides({ across, down }: SideWeights, order: number): InnerSide[] {
  const sides: InnerSide[] = []
  for (let line = 1; line < order; line++) {
    for (let k = 0; k < order; k++) {
      sides.push({ cells: [(line - 1) * order + k, line * order + k], weight: across[line]![k]! })
      sides.push({ cells: [k * order + line - 1, k * order + line], weight: down[line]![k]! })
    }
  }
  return sides
}

/** Is every region a rectangle of the same shape? */
function areBoxes(regions: readonly number[], order: number): boolean {
  const widths = Array.from({ length: order }, (_, region) => {
    const columns = regions.flatMap((own, cell) => (own === region ? [cell % order] : []))
    const rows = regions.flatMap((own, cell) => (own === region ? [Math.floor(cell / order)] : []))
    const width = Math.max(...columns) - Math.min(...columns) + 1
    const height = Math.max(...rows) - Math.min(...rows) + 1
    return width * height === order ? width : 0
  })
  return widths.every((width) => width > 1 && width < order && width === widths[0])
}
