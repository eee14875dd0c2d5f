import type { Geometry } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'

/**
 * Every way to fill the grid, by trying each digit in each cell, those with the fewest choices first. It draws no
 * conclusions and has nothing in common with the searches of the library but the geometry's peers.
 *
 * @param isAllowed may this digit be tried in this cell?
 * @param limit stop after so many
 */
export function fillings(
  geometry: Geometry,
  isAllowed: (cell: number, digit: number) => boolean,
  limit = Number.POSITIVE_INFINITY,
): number[][] {
  const { order, cellCount, arePeers } = layoutOf(geometry)
  const cells = Array.from({ length: cellCount }, (_, cell) => cell)
  const peersOf = cells.map((cell) => cells.filter((other) => other !== cell && arePeers(cell, other)))
  const digits = Array.from({ length: order }, (_, i) => i + 1)
  // cell, digit -> how many things are against it
  const against = cells.map((cell) => [0, ...digits.map((digit) => (isAllowed(cell, digit) ? 0 : 1))])
  const found: number[][] = []
  const filled = cells.map(() => 0)

  const openWithFewest = (): number => {
    let best = -1
    let fewest = order + 1
    for (const cell of cells) {
      if (filled[cell]) continue
      let count = 0
      for (let digit = 1; digit <= order; digit++) if (against[cell]![digit] === 0) count++
      if (count < fewest) {
        fewest = count
        best = cell
      }
    }
    return best
  }
  const fill = (): void => {
    const cell = openWithFewest()
    if (cell < 0) {
      found.push([...filled])
      return
    }
    for (const digit of digits) {
      if (found.length >= limit) return
      if (against[cell]![digit] !== 0) continue
      filled[cell] = digit
      for (const peer of peersOf[cell]!) against[peer]![digit]!++
      fill()
      for (const peer of peersOf[cell]!) against[peer]![digit]!--
      filled[cell] = 0
    }
  }
  fill()
  return found
}

/** Does a digit stand in a cell for all that a board says: its digit, or one of its candidates? */
export function allowedOn(board: {
  readonly digits: readonly number[]
  readonly candidates: readonly number[]
}): (cell: number, digit: number) => boolean {
  return (cell, digit) =>
    board.digits[cell] ? board.digits[cell] === digit : ((board.candidates[cell]! >> (digit - 1)) & 1) === 1
}
