import type { CellQuad } from './quad.js'
import { outlineQuad } from './quad.js'
import { findRegions } from './regions.js'

/** A frame holds at least nine cells of the smallest size a side. */
const SMALLEST_FRAME = 70
/** Rules one pixel wide, nine cells of eight pixels: less ink than this share of what it encloses is no grid. */
const LEAST_INK = 0.03
const MOST_FRAMES = 8

/**
 * Outlines of what may be whole grids: large connected networks of rules whose hull is four-sided. It asks nothing of the
 * cells, so it also serves where the rules within are too faint to close any.
 *
 * @param blocked 1 where a rule may run, 0 on free paper
 */
export function findFrames(blocked: Uint8Array, width: number, height: number): CellQuad[] {
  const free = blocked.map((value) => 1 - value)
  const frames: CellQuad[] = []
  for (const region of findRegions(free, width, height, SMALLEST_FRAME, Math.max(width, height))) {
    const quad = outlineQuad(region, LEAST_INK)
    if (quad) frames.push(quad)
  }
  return frames.sort((a, b) => b.area - a.area).slice(0, MOST_FRAMES)
}
