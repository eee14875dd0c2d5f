import type { Geometry } from '../grid/geometry.js'
import { layoutOf } from '../grid/layout.js'

/** Flat copies of a geometry's lists, for loops that run once a board. */
export interface HouseTables {
  readonly houseCount: number
  /** cell -> where its entries in the other two lists begin; one more at the end. */
  readonly from: Uint16Array
  /** house × order, and the position of the cell within that house as one bit. */
  readonly rowBase: Uint16Array
  readonly positionBit: Uint16Array
}

const tablesOf = new WeakMap<Geometry, HouseTables>()
let lastGeometry: Geometry | undefined
let lastTables: HouseTables | undefined

/** The tables of a geometry, made once. */
export function houseTables(geometry: Geometry): HouseTables {
  const layout = layoutOf(geometry)
  if (geometry === lastGeometry) return lastTables!
  let found = tablesOf.get(geometry)
  if (!found) {
    const from = new Uint16Array(geometry.cellCount + 1)
    const rowBase: number[] = []
    const positionBit: number[] = []
    for (let cell = 0; cell < geometry.cellCount; cell++) {
      from[cell] = rowBase.length
      for (const house of layout.housesOf[cell]!) {
        rowBase.push(house * geometry.order)
        positionBit.push(1 << layout.positionIn(house, cell))
      }
    }
    from[geometry.cellCount] = rowBase.length
    found = {
      houseCount: layout.houses.length,
      from,
      rowBase: Uint16Array.from(rowBase),
      positionBit: Uint16Array.from(positionBit),
    }
    tablesOf.set(geometry, found)
  }
  lastGeometry = geometry
  lastTables = found
  return found
}
