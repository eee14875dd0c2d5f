import type { Geometry } from './geometry.js'

/** cell -> number of its box or region, in the order in which they are met; all 0 when a geometry has neither. */
export function piecesOf(geometry: Geometry): number[] {
  const pieces = new Array<number>(geometry.cellCount).fill(0)
  let count = 0
  for (const house of geometry.houses) {
    if (house.kind !== 'box' && house.kind !== 'region') continue
    for (const cell of house.cells) pieces[cell] = count
    count++
  }
  return pieces
}

/** Do two maps cut the cells into the same pieces, whatever their numbers? */
export function samePieces(a: readonly number[], b: readonly number[]): boolean {
  const there = new Map<number, number>()
  const back = new Map<number, number>()
  return a.every((piece, cell) => {
    const other = b[cell]!
    if (!there.has(piece)) there.set(piece, other)
    if (!back.has(other)) back.set(other, piece)
    return there.get(piece) === other && back.get(other) === piece
  })
}
