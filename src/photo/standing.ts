import { CELL_SIZE, type CellPicture } from './digits/digit-reader.js'
import { median } from './median.js'

/** A cell has ink when it has more dark pixels than this. */
const LEAST_INK_PIXELS = 12
const DARK = 128
/** The part of the cell picture that no rule reaches. */
const INNER_FIRST = 8
const INNER_END = CELL_SIZE - INNER_FIRST

interface InkBox {
  readonly width: number
  readonly height: number
  /** Does it reach the left or the right end of the inner part, the upper or the lower? */
  readonly reachesSides: boolean
  readonly reachesEnds: boolean
}

/** The box around a cell's ink, in pixels; undefined for a cell without ink. */
function inkBox({ data }: CellPicture): InkBox | undefined {
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
  if (dark <= LEAST_INK_PIXELS) return undefined
  return {
    width: right - left + 1,
    height: bottom - top + 1,
    reachesSides: left === INNER_FIRST || right === INNER_END - 1,
    reachesEnds: top === INNER_FIRST || bottom === INNER_END - 1,
  }
}

/** A figure is wider and higher than this; ink along the edge that is not belongs to a rule. */
const SLIVER = 8

/**
 * Thick or double rules reach further in than others: ink that reaches out both ways, or is a sliver along the edge,
 * may be theirs.
 */
function mayBeRules({ width, height, reachesSides, reachesEnds }: InkBox): boolean {
  return (reachesSides && reachesEnds) || (reachesSides && width < SLIVER) || (reachesEnds && height < SLIVER)
}

export function hasInk(picture: CellPicture): boolean {
  return inkBox(picture) !== undefined
}

/**
 * Figures are taller than wide. Of 780 pages (drawn photographs in typefaces kept aside, half-solved pages, screens,
 * real photographs) that stood upright, the middle one of a page's figures was never wider than tall, and on 97 in a
 * hundred taller by more than this.
 */
const PLAINLY_TALLER = Math.log(1.2)
const FEWEST_FIGURES = 8

/**
 * Do the figures of a page stand, upright or upside down, or do they lie? Undefined when that is not plain.
 */
export function figuresStand(pictures: readonly CellPicture[]): boolean | undefined {
  const taller = pictures.flatMap((picture) => {
    const box = inkBox(picture)
    return box && !mayBeRules(box) ? [Math.log(box.height / box.width)] : []
  })
  if (taller.length < FEWEST_FIGURES) return undefined
  const middle = median(taller)
  return Math.abs(middle) > PLAINLY_TALLER ? middle > 0 : undefined
}
