import type { Conclusion } from '../../src/grid/board.js'
import { cellName, type Geometry, STANDARD } from '../../src/grid/geometry.js'

/** A conclusion in short: `r1c1=5` for a placement, `r5c5-3` for a removal, in reading order. */
export function said({ placements, removals }: Conclusion, geometry: Geometry = STANDARD): string {
  return [
    ...placements.map(({ cell, digit }) => ({ cell, text: `${cellName(geometry, cell)}=${digit}` })),
    ...removals.map(({ cell, digit }) => ({ cell, text: `${cellName(geometry, cell)}-${digit}` })),
  ]
    .sort((a, b) => a.cell - b.cell || a.text.localeCompare(b.text))
    .map(({ text }) => text)
    .join(' ')
}
