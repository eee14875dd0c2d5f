import type { Geometry } from '../../src/grid/geometry.js'

/**
 * Every way to fill the grid, by trying each digit in each cell and looking at every other cell: slow, and with nothing in common
 * with the searches of the library but the geometry's peers.
 *
 * @param isAllowed may this digit be tried in this cell?
 * @param limit stop after so many
 */
export function fillings(
  { order, cellCount, arePeers }: Geometry,
  isAllowed: (cell: number, digit: number) => boolean,
  limit = Number.POSITIVE_INFINITY,
): number[][] {
  const found: number[][] = []
  const filled = new Array<number>(cellCount).fill(0)
  const fits = (cell: number, digit: number): boolean =>
    filled.every((other, at) => other !== digit || at === cell || !arePeers(at, cell))
  const choices = (cell: number): number[] =>
    Array.from({ length: order }, (_, i) => i + 1).filter(
      (digit) => isAllowed(cell, digit) && fits(cell, digit),
    )
  const fill = (): void => {
    let cell = -1
    let digits: number[] = []
    for (let open = 0; open < cellCount; open++) {
      if (filled[open]) continue
      const own = choices(open)
      if (cell >= 0 && own.length >= digits.length) continue
      cell = open
      digits = own
    }
    if (cell < 0) {
      found.push([...filled])
      return
    }
    for (const digit of digits) {
      if (found.length >= limit) return
      filled[cell] = digit
      fill()
    }
    filled[cell] = 0
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
