import { perLayout } from '../../grid/per-layout.js'

/** Flat copies of a geometry's lists, for loops that run once a board. */
export interface HouseTables {
  readonly houseCount: number
  /** cell -> where its entries in the other two lists begin; one more at the end. */
  readonly from: Uint16Array
  /** house × order, and the position of the cell within that house as one bit. */
  readonly rowBase: Uint16Array
  readonly positionBit: Uint16Array
}

/** The tables of a geometry, made once. */
export const houseTables = perLayout(({ order, cellCount, houses, housesOf, positionIn }): HouseTables => {
  const from = new Uint16Array(cellCount + 1)
  const rowBase: number[] = []
  const positionBit: number[] = []
  for (let cell = 0; cell < cellCount; cell++) {
    from[cell] = rowBase.length
    for (const house of housesOf[cell]!) {
      rowBase.push(house * order)
      positionBit.push(1 << positionIn(house, cell))
    }
  }
  from[cellCount] = rowBase.length
  return {
    houseCount: houses.length,
    from,
    rowBase: Uint16Array.from(rowBase),
    positionBit: Uint16Array.from(positionBit),
  }
})
