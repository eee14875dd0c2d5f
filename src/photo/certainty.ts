import type { Decision } from './decide/decide.js'
import type { Lattice } from './lattice.js'
import type { CheckReason } from './reading.js'

/**
 * What a reading must show to be called certain. The margins are in nats and were set on drawn photographs of typefaces
 * kept aside from training (`npm run bench:calibration`; the table stands in DEVELOPERS.md), never on the real photos that measure it.
 */
export const CERTAIN = {
  /** Lead over the next best way to read the page. */
  margin: 2.5,
  /** How many cells the pixels alone may be expected to have wrong: the sum of their doubts. */
  misreads: 1.5,
  /** Lead of the page's turn over the next best turn. */
  turnLead: 6,
  /** Share of the rules that was seen on the picture. */
  support: 0.6,
  /** Handwriting in a cell read as a given, or print in a cell read as handwriting, is doubtful from here on. */
  handwritten: 0.2,
} as const

export interface Circumstances {
  readonly decision: Decision
  readonly lattice: Lattice
  readonly turnLead: number
  /** How many cells the pixels' first choices are expected to have wrong. */
  readonly misreads: number
  /** Cells that the picture's edge cuts. */
  readonly cellsOutside: number
  /** Cells read as givens that may be handwriting, or the other way about. */
  readonly handwritingDoubts: number
}

/** Every reason why a reading should be looked at; none means it is certain. */
export function checkReasons({
  decision,
  lattice,
  turnLead,
  misreads,
  cellsOutside,
  handwritingDoubts,
}: Circumstances): CheckReason[] {
  const reasons: CheckReason[] = []
  if (decision.kind === 'as-read') reasons.push('not-sound')
  if (decision.margin < CERTAIN.margin) reasons.push('close-rival')
  if (misreads > CERTAIN.misreads) reasons.push('hard-to-read')
  if (cellsOutside > 0) reasons.push('grid-cut')
  if (lattice.support < CERTAIN.support) reasons.push('grid-faint')
  if (turnLead < CERTAIN.turnLead) reasons.push('turn-unclear')
  if (handwritingDoubts > 0) reasons.push('handwriting')
  return reasons
}
