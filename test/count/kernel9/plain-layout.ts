import { PLACE_OF_CELL } from '../../../src/count/kernel9/layout.js'

// Tables of the kernel in TypeScript, of words as `layout.ts` has them.

/** The first bit of each box. */
export const EACH_BOX = 0x0100401

/** All 27 cells of a band. */
export const FULL = EACH_BOX * 511

/** 32 · band + bit -> cell in reading order; 0 for the unused bits. */
export const CELL_OF_PLACE = new Uint8Array(96)
PLACE_OF_CELL.forEach((place, cell) => {
  CELL_OF_PLACE[place] = cell
})

/** 3 · place + band -> the cells of that band which the place sees (itself not among them). */
export const SEEN_FROM_PLACE = new Int32Array(96 * 3)
for (let cell = 0; cell < 81; cell++) {
  for (let other = 0; other < 81; other++) {
    if (other === cell || !seesOther(cell, other)) continue
    const place = PLACE_OF_CELL[other]!
    SEEN_FROM_PLACE[3 * PLACE_OF_CELL[cell]! + (place >> 5)]! |= 1 << (place & 31)
  }
}

function seesOther(cell: number, other: number): boolean {
  const [row, column] = [Math.floor(cell / 9), cell % 9]
  const [otherRow, otherColumn] = [Math.floor(other / 9), other % 9]
  const sameBox =
    Math.floor(row / 3) === Math.floor(otherRow / 3) && Math.floor(column / 3) === Math.floor(otherColumn / 3)
  return row === otherRow || column === otherColumn || sameBox
}
