import type { DigitSet } from '../../grid/digits.js'

// How the 9×9 kernels see the grid. One word a digit and band holds the digit's candidates in the 27 cells of the
// band, bit 10·box + 3·row + column (box counted from 0 in the band, row and column in the box). So a box is nine
// neighbouring bits, a row of a box three, and the bit above each box is free: what arithmetic on all three boxes at
// once carries out of a box lands there.

/** The first bit of each box. */
export const EACH_BOX = 0x0100401

/** All 27 cells of a band. */
export const FULL = EACH_BOX * 511

/** Cell in reading order -> 32 · band + bit. */
export const PLACE_OF_CELL = Uint8Array.from({ length: 81 }, (_, cell) => {
  const row = Math.floor(cell / 9)
  const column = cell % 9
  return 32 * Math.floor(row / 3) + 10 * Math.floor(column / 3) + 3 * (row % 3) + (column % 3)
})

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

/**
 * Takes away every candidate that `marks` (cell -> digits) does not allow; digit d's words begin at stride · (d - 1).
 */
export function restrictWords(words: Int32Array, stride: number, marks: ArrayLike<DigitSet>): void {
  for (let cell = 0; cell < 81; cell++) {
    const place = PLACE_OF_CELL[cell]!
    for (let digit = 0; digit < 9; digit++) {
      if (((marks[cell]! >> digit) & 1) === 0) words[stride * digit + (place >> 5)]! &= ~(1 << (place & 31))
    }
  }
}
