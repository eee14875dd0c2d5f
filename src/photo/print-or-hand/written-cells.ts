import type { CellScores } from '../digits/digit-reader.js'
import { withPrinted } from '../inks/with-printed.js'
import type { CellEvidence } from '../reading.js'
import { type CellJudgement, chanceOf } from './cell-judge.js'

/**
 * Somebody has written in a page if one cell is so surely no print, but an entry, marks, or something crossed out. Of
 * the 134 photographs beside the project, which nobody has written in, one cell reaches 0.84.
 */
const WRITTEN = 0.9

export function isWrittenPage(judgements: readonly CellJudgement[]): boolean {
  return judgements.some((cell) => written(cell) > WRITTEN)
}

function written(cell: CellJudgement): number {
  return chanceOf(cell, 'entry') + chanceOf(cell, 'marks') + chanceOf(cell, 'crossed-out')
}

/**
 * Which cells of such a page are print two judges say, the page network and the comparison of figures by hand-set
 * rules. Their log odds add up, weighed by a logistic regression on 8,012 figures of 129 drawn pages (seeds 991 and
 * 881, writers and typefaces kept aside). Neither is believed beyond `MOST_ODDS`: one of them alone, very sure, had
 * made givens of entries on pages with more than 8 nats. Of 3,647 figures of other drawn pages (seed 882) 21 are taken
 * wrong instead of 29 with odds that simply add up, of 10,619 of composites 6 instead of 14.
 */
const MOST_ODDS = 7
const PAGE_WORTH = 0.78
const COMPARED_WORTH = 0.57
const FEWER_PRINTED = 1.2

/**
 * Scores of print on a page that somebody has written in. Which digit it is the digit reader and the page network say.
 */
export function printScores(
  compared: readonly CellScores[],
  read: readonly CellScores[],
  judgements: readonly CellJudgement[],
): readonly CellScores[] {
  return judgements.map((own, cell) => {
    const odds =
      PAGE_WORTH * logOdds(chanceOf(own, 'print')) +
      COMPARED_WORTH * logOdds(1 - compared[cell]!.digits[0]!) -
      FEWER_PRINTED
    const printed = 1 / (1 + Math.exp(-odds))
    const digits = Float32Array.from(read[cell]!.digits, (share, digit) =>
      digit === 0 ? 0 : Math.sqrt(share * own.digits[digit - 1]!),
    )
    const bare = chanceOf(own, 'none') > 0.5
    return {
      ...withPrinted({ digits, handwritten: 0 }, printed),
      handwritten: bare ? written(own) : 1 - printed,
    }
  })
}

function logOdds(chance: number): number {
  return Math.max(-MOST_ODDS, Math.min(MOST_ODDS, Math.log(chance / (1 - chance))))
}

/** Judgements as evidence: chances to four places, which readings are slim with, and on which all engines agree. */
export function writingOf(judgements: readonly CellJudgement[]): CellEvidence[] {
  const rounded = (chances: readonly number[]) => chances.map((chance) => Math.round(chance * 1e4) / 1e4)
  return judgements.map(({ kinds, digits, marks }) => ({
    kinds: rounded(kinds),
    digits: rounded(digits),
    marks: rounded(marks),
  }))
}
