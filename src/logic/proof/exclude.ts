import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'

/** Can the two not be true together? Same cell, other digit; or same digit, cells that see each other. */
export function exclude(geometry: Geometry, a: Candidate, b: Candidate): boolean {
  return a.cell === b.cell
    ? a.digit !== b.digit
    : a.digit === b.digit && layoutOf(geometry).arePeers(a.cell, b.cell)
}
