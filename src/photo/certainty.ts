import type { Decision } from './decide/decide.js'
import type { Lattice } from './lattice.js'
import type { WritingDoubts } from './print-or-hand/read-writing.js'
import type { CheckReason } from './reading.js'
import type { GeometrySource } from './shape/grid-shape.js'

/**
 * What a reading must show to be called certain. The margins are in nats and were set on drawn photographs of typefaces
 * kept aside from training (`npm run bench:calibration`; the table is in README.md of this room). Of `marginInDoubt` 7
 * was tried first, and how many real photos it left certain had a part in taking 6; nothing else comes from the real
 * photos that measure it.
 */
export const CERTAIN = {
  /** Lead over the next best way to read the page: that is a hundred times less likely. */
  margin: Math.log(100),
  /**
   * The same where somebody has written in the page, and two judges have said what is print and what is not. Of 322
   * pages (133 composites and 189 drawn ones, seeds 881, 882 and 991) 16 of 32 with less than 2 nats had a wrong
   * given, one of 23 with 2 to 3, none of 267 with more.
   */
  marginAmongHands: 4,
  /**
   * The same where more is in doubt than on nearly every page: the pixels alone may be expected to have more than
   * `fewMisreads` cells wrong (print so blurred that the surest cell may be wrong, too), or less than `wellSeen` of the
   * rules was seen (cells at the grid's edges may be cut askew, figures and all). And of every grid of another order
   * than 9: fewer cells bear each other out, and fewer pages have been measured. (It costs one of 177 certain readings
   * of 240 drawn pages, seed 640001.)
   */
  marginInDoubt: 6,
  fewMisreads: 0.07,
  wellSeen: 0.85,
  /** How many cells the pixels alone may be expected to have wrong: the sum of their doubts. */
  misreads: 1.5,
  /** Lead of the page's turn over the next best turn. */
  turnLead: 6,
  /** Share of the rules that was seen on the picture. */
  support: 0.6,
  /** Handwriting in a cell read as a given, or print in a cell read as handwriting, is doubtful from here on. */
  handwritten: 0.2,
} as const

/** The order of the pages on which the margins were set. */
const USUAL_ORDER = 9

/** With so many cells in which there is rather handwriting than print, somebody has written in the page. */
const FEWEST_WRITTEN = 5

/**
 * The lead that a reading must have, in nats.
 *
 * @param handwritten cell -> how likely it was written by hand
 * @param misreads how many cells the pixels' first choices are expected to have wrong
 */
export function marginAsked(
  handwritten: readonly number[],
  misreads: number,
  { support, order }: Lattice,
): number {
  const written = handwritten.filter((share) => share > 0.5).length
  if (written >= FEWEST_WRITTEN) return CERTAIN.marginAmongHands
  if (order !== USUAL_ORDER || support < CERTAIN.wellSeen) return CERTAIN.marginInDoubt
  return misreads > CERTAIN.fewMisreads ? CERTAIN.marginInDoubt : CERTAIN.margin
}

export interface Circumstances {
  readonly decision: Decision
  /** The lead that `decision` must have. */
  readonly margin: number
  readonly lattice: Lattice
  readonly turnLead: number
  /** How many cells the pixels' first choices are expected to have wrong. */
  readonly misreads: number
  /** Cells that the picture's edge cuts. */
  readonly cellsOutside: number
  /** Cells read as givens that may be handwriting, or the other way about. */
  readonly handwritingDoubts: number
  readonly geometrySource: GeometrySource
  /** Cells in which what somebody has written is in doubt. */
  readonly writing: WritingDoubts
}

/** Every reason why a reading should be looked at; none means it is certain. */
export function checkReasons({
  decision,
  margin,
  lattice,
  turnLead,
  misreads,
  cellsOutside,
  handwritingDoubts,
  geometrySource,
  writing,
}: Circumstances): CheckReason[] {
  const reasons: CheckReason[] = []
  if (decision.kind === 'as-read') reasons.push('not-sound')
  if (decision.margin < margin) reasons.push('close-rival')
  if (misreads > CERTAIN.misreads) reasons.push('hard-to-read')
  if (cellsOutside > 0) reasons.push('grid-cut')
  if (lattice.support < CERTAIN.support) reasons.push('grid-faint')
  if (turnLead < CERTAIN.turnLead) reasons.push('turn-unclear')
  if (handwritingDoubts > 0) reasons.push('handwriting')
  if (geometrySource === 'unsure') reasons.push('box-shape')
  if (writing.entries.length > 0) reasons.push('entry-unclear')
  if (writing.marks.length > 0) reasons.push('marks-unclear')
  return reasons
}
