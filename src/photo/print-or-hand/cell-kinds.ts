import type { FigureLook } from '../inks/figure-look.js'

/** What a cell shows. `none`: bare paper, dirt, or what was rubbed out. */
export const CELL_KINDS = ['none', 'print', 'entry', 'marks', 'crossed-out'] as const
/** What a cell holds. */
export type CellKind = (typeof CELL_KINDS)[number]

/** How many numbers `lookNumbers` gives. */
export const LOOK_NUMBERS = 12

/**
 * How a figure looks, as numbers of about the same size: 1 first, or all 0 where nothing could be measured. The page
 * network compares them over the whole page, since only that tells one ink from another.
 */
export function lookNumbers(look: FigureLook | undefined): number[] {
  if (!look) return Array(LOOK_NUMBERS).fill(0)
  const { height, x, y, stroke, darkness, tint, lean, light, ink } = look
  return [
    1,
    2 * height,
    4 * x,
    4 * y,
    stroke,
    darkness,
    3 * tint.redOverBlue,
    3 * tint.greenOverRest,
    lean,
    Number(light),
    Math.min(4, ink.others) / 4,
    ink.sidesReached / 4,
  ]
}
