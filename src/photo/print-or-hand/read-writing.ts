import type { CellEvidence, DigitChance, Evidence, ReadEntry, ReadMarks } from '../reading.js'
import { CELL_KINDS, type CellKind } from './cell-kinds.js'

/** What somebody has written in a cell. */
export interface CellWriting {
  readonly entry: ReadEntry
  readonly marks: ReadMarks
}

const ALTERNATIVES_AT_MOST = 3
const LEAST_ALTERNATIVE = 0.001
const NOTHING: CellWriting = {
  entry: { digit: 0, confidence: 1, alternatives: [], decidedBy: 'pixels' },
  marks: { digits: [], confidence: 1, decidedBy: 'pixels' },
}

/**
 * @param given is there a given in the cell? Then nothing is written in it.
 * @param solved the digit that the puzzle's solution has there, if it has a single one
 */
export function readWriting(
  { writing, settledWriting }: Evidence,
  cell: number,
  given: boolean,
  order: number,
  solved?: number,
): CellWriting {
  const settled = settledWriting?.[cell]
  const seen = given || !writing ? NOTHING : writingSeen(writing[cell]!, order, solved)
  const { entry, marks } = settled ?? {}
  const certain = { confidence: 1, decidedBy: 'user' } as const
  const hasEntry = entry !== undefined && entry !== 0
  const hasMarks = marks !== undefined && marks.length > 0
  return {
    entry: entry !== undefined || hasMarks ? { digit: entry ?? 0, alternatives: [], ...certain } : seen.entry,
    marks: marks !== undefined || hasEntry ? { digits: marks ?? [], ...certain } : seen.marks,
  }
}

function writingSeen(
  { kinds, digits, marks }: CellEvidence,
  order: number,
  solved: number | undefined,
): CellWriting {
  const chance = (kind: CellKind) => kinds[CELL_KINDS.indexOf(kind)]!
  // a full figure that is no given is an entry, however much it looks like print
  const entered = chance('entry') + chance('print')
  const chances: DigitChance[] = [
    { digit: 0, probability: 1 - entered },
    ...digits.slice(0, order).map((share, d) => ({ digit: d + 1, probability: entered * share })),
  ].sort((a, b) => b.probability - a.probability)
  const [best, ...others] = chances as [DigitChance, ...DigitChance[]]
  const marked = chance('marks')
  const shown = marks.slice(0, order)
  const noted = marked > 0.5 ? shown.flatMap((share, d) => (share > 0.5 ? [d + 1] : [])) : []
  return {
    entry: {
      digit: best.digit,
      // what is crossed out may still have been meant
      confidence:
        best.digit === 0
          ? best.probability - chance('crossed-out')
          : entered * sureness(digits.slice(0, order), best.digit, solved),
      alternatives: others
        .filter(({ probability }) => probability >= LEAST_ALTERNATIVE)
        .slice(0, ALTERNATIVES_AT_MOST),
      decidedBy: 'pixels',
    },
    marks: {
      digits: noted,
      confidence:
        marked > 0.5
          ? shown.reduce((product, share) => product * Math.max(share, 1 - share), marked)
          : 1 - marked,
      decidedBy: 'pixels',
    },
  }
}

/**
 * How likely a digit is the one that was written. Which it is the pixels alone say; but most of what people enter is
 * right, so that pixels and solution bear each other out where they agree. Where they do not, the pixels have to be
 * very sure, and several such entries on a page are asked about however sure they are.
 */
function sureness(shares: readonly number[], digit: number, solved: number | undefined): number {
  const { length } = shares
  const entered = shares.map((share, d) => {
    if (solved === undefined) return share
    const seen = (1 - PIXELS_FOOLED) * share + PIXELS_FOOLED / length
    return seen * (d + 1 === solved ? 1 - ENTERED_WRONG : ENTERED_WRONG / (length - 1))
  })
  return entered[digit - 1]! / entered.reduce((sum, share) => sum + share, 0)
}

/** Of what people enter so much is wrong. */
const ENTERED_WRONG = 0.05
/** Of the figures of which the pixels are quite sure, so many are something else. */
const PIXELS_FOOLED = 0.003

/**
 * How many cells of a page may be expected to have a wrong entry, or wrong marks, before it is worth a look. Of 323
 * pages (133 composites, 190 drawn ones, seeds 881, 882 and 991) 58 had nothing to look at and were right throughout.
 */
const DOUBTS_AT_MOST = 0.3
/** A cell that is less sure than this is looked at whatever the others are. */
const SURE_ENTRY = 0.9
const SURE_MARKS = 0.9

export interface WritingDoubts {
  readonly entries: readonly number[]
  readonly marks: readonly number[]
}

/** Cells whose entry or marks should be looked at; none where the page as a whole is sure. */
export function writingDoubts(cells: readonly CellWriting[]): WritingDoubts {
  const doubts = (confidence: readonly number[], sure: number) => {
    const sum = confidence.reduce((total, own) => total + 1 - own, 0)
    const unsure = confidence.flatMap((own, cell) => (own < sure ? [cell] : []))
    if (unsure.length > 0 || sum <= DOUBTS_AT_MOST) return unsure
    const least = confidence.indexOf(Math.min(...confidence))
    return [least]
  }
  return {
    entries: doubts(
      cells.map(({ entry }) => entry.confidence),
      SURE_ENTRY,
    ),
    marks: doubts(
      cells.map(({ marks }) => marks.confidence),
      SURE_MARKS,
    ),
  }
}
