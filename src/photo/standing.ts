import { CELL_SIZE, type CellPicture } from './digits/digit-reader.js'
import { median } from './median.js'

/** A cell has ink when it has more dark pixels than this. */
const LEAST_INK_PIXELS = 12
const DARK = 128
/** The part of the cell picture that no rule reaches. */
const INNER_FIRST = 8
const INNER_END = CELL_SIZE - INNER_FIRST

/** How many pixels a cell's ink is wide and high; undefined for a cell without ink. */
function inkSize({ data }: CellPicture): { readonly width: number; readonly height: number } | undefined {
  let dark = 0
  let [left, right, top, bottom] = [CELL_SIZE, 0, CELL_SIZE, 0]
  for (let y = INNER_FIRST; y < INNER_END; y++) {
    for (let x = INNER_FIRST; x < INNER_END; x++) {
      if (data[y * CELL_SIZE + x]! >= DARK) continue
      dark++
      if (x < left) left = x
      if (x > right) right = x
      if (y < top) top = y
      bottom = y
    }
  }
  return dark > LEAST_INK_PIXELS ? { width: right - left + 1, height: bottom - top + 1 } : undefined
}

export function hasInk(picture: CellPicture): boolean {
  return inkSize(picture) !== undefined
}

/**
 * Figures are taller than wide. Of 780 pages (drawn photographs in typefaces kept aside, half-solved pages, screens, real photographs)
 * that stood upright, the middle one of a page's figures was never wider than tall, and on 97 in a hundred taller by more than this.
 */
const PLAINLY_TALLER = Math.log(1.2)
const FEWEST_FIGURES = 8

/** Do the figures of a page stand, on their feet or on their heads, or do they lie? Undefined when that is not plain. */
export function figuresStand(pictures: readonly CellPicture[]): boolean | undefined {
  const taller = pictures.flatMap((picture) => {
    const size = inkSize(picture)
    return size ? [Math.log(size.height / size.width)] : []
  })
  if (taller.length < FEWEST_FIGURES) return undefined
  const middle = median(taller)
  return Math.abs(middle) > PLAINLY_TALLER ? middle > 0 : undefined
}
