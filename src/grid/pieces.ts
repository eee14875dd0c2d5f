import { InputError } from '../errors.js'
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

/** Do two geometries have the same houses and the same peers, whatever they are called? */
export function sameRules(a: Geometry, b: Geometry): boolean {
  if (a === b) return true
  if (a.order !== b.order || a.houses.length !== b.houses.length) return false
  const houses = new Set(a.houses.map((house) => house.cells.join()))
  return (
    b.houses.every((house) => houses.has(house.cells.join())) &&
    a.peersOf.every((peers, cell) => peers.join() === b.peersOf[cell]!.join())
  )
}

/**
 * @param readBack what comes back from the words that were found for this geometry
 * @throws InputError `geometry-shape` when that is another one, so that no rule is lost in writing
 */
export function assertCarried(geometry: Geometry, readBack: () => Geometry): void {
  try {
    if (sameRules(readBack(), geometry)) return
  } catch (error) {
    if (!(error instanceof InputError)) throw error
  }
  throw uncarried(geometry)
}

/** The error for rules that a way of saving has no words for. */
function uncarried(geometry: Geometry): InputError {
  const name = `the geometry "${geometry.name}"`
  return new InputError(
    'geometry-shape',
    `The rules of ${name} go beyond boxes, regions and both diagonals and would be lost in writing; keep them elsewhere and hand the geometry in when reading.`,
    { found: name, expected: 'boxes or regions, with or without both diagonals' },
  )
}
