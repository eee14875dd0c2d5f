import type { DigitSet } from '../../grid/digits.js'

// How the 9×9 kernels see the grid. One word a digit and band holds the digit's candidates in the 27 cells of the
// band, bit 10·box + 3·row + column (box counted from 0 in the band, row and column in the box). So a box is nine
// neighbouring bits, a row of a box three, and the bit above each box is free: what arithmetic on all three boxes at
// once carries out of a box lands there.

/** Cell in reading order -> 32 · band + bit. */
export const PLACE_OF_CELL = Uint8Array.from({ length: 81 }, (_, cell) => {
  const row = Math.floor(cell / 9)
  const column = cell % 9
  return 32 * Math.floor(row / 3) + 10 * Math.floor(column / 3) + 3 * (row % 3) + (column % 3)
})

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
