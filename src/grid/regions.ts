import { InputError } from '../errors.js'
import type { Geometry } from './geometry.js'
import { layoutOf } from './layout.js'

/** cell -> number of its box or region, in the order in which they are met; all 0 when a geometry has neither. */
export function regionsOf(geometry: Geometry): number[] {
  const numbers = new Array<number>(geometry.cellCount).fill(0)
  let count = 0
  for (const house of layoutOf(geometry).houses) {
    if (house.kind !== 'box' && house.kind !== 'region') continue
    for (const cell of house.cells) numbers[cell] = count
    count++
  }
  return numbers
}

/** Do two maps cut the cells into the same regions, whatever their numbers? */
export function sameRegions(a: readonly number[], b: readonly number[]): boolean {
  const there = new Map<number, number>()
  const back = new Map<number, number>()
  return a.every((region, cell) => {
    const other = b[cell]!
    if (!there.has(region)) there.set(region, other)
    if (!back.has(other)) back.set(other, region)
    return there.get(region) === other && back.get(other) === region
  })
}

/** Do two geometries have the same houses and the same peers, whatever they are called? */
export function sameRules(a: Geometry, b: Geometry): boolean {
  const [one, other] = [layoutOf(a), layoutOf(b)]
  if (one === other) return true
  if (one.order !== other.order || one.houses.length !== other.houses.length) return false
  const houses = new Set(one.houses.map((house) => house.cells.join()))
  return (
    other.houses.every((house) => houses.has(house.cells.join())) &&
    one.peersOf.every((peers, cell) => peers.join() === other.peersOf[cell]!.join())
  )
}

/** @throws InputError `geometry-shape` for rules that neither a line of text nor a canonical key has words for */
export function assertSayable(geometry: Geometry): void {
  if (geometry.furtherPeers === undefined) return
  const name = `the geometry "${geometry.name}"`
  throw new InputError(
    'geometry-shape',
    `The rules of ${name} go beyond boxes, regions and both diagonals and would be lost in writing; keep them elsewhere and hand the geometry in when reading.`,
    { found: name, expected: 'boxes or regions, with or without both diagonals' },
  )
}
