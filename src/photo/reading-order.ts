import type { Reading } from './reading.js'

/**
 * Readings by rows of the upright page, then from left to right. Grids of one page lie the same way; should they not,
 * the first one's turn counts for all. Two grids stand in one row when their middles are less than half a grid apart.
 */
export function inReadingOrder(readings: readonly Reading[]): Reading[] {
  const turns = readings[0]?.turns ?? 0
  const placed = readings.map((reading) => {
    const { points } = reading.lattice
    const xs = points.map(({ x }) => x)
    const ys = points.map(({ y }) => y)
    const middle = { x: mean(xs), y: mean(ys) }
    const upright = [
      middle,
      { x: -middle.y, y: middle.x },
      { x: -middle.x, y: -middle.y },
      { x: middle.y, y: -middle.x },
    ][turns]!
    return { reading, ...upright, reach: (Math.max(...ys) - Math.min(...ys)) / 2 }
  })
  placed.sort((a, b) => a.y - b.y)
  const rows: (typeof placed)[] = []
  for (const item of placed) {
    const row = rows.at(-1)
    if (row && item.y - row[0]!.y < Math.min(row[0]!.reach, item.reach)) row.push(item)
    else rows.push([item])
  }
  return rows.flatMap((row) => row.sort((a, b) => a.x - b.x).map(({ reading }) => reading))
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
