import { englishTerms } from './english-terms.js'
import { techniqueTitle } from './technique-title.js'
import type { HintWording } from './wording.js'

export const englishHint: HintWording = {
  look: (geometry, houses, digit) => {
    const t = englishTerms(geometry)
    if (digit === undefined) return `Look at ${t.houses(houses)}.`
    return `Look at where ${t.digit(digit)} can go in ${t.houses(houses)}.`
  },
  method: (technique, level) =>
    level === 'scan'
      ? `There is a single to be found: ${techniqueTitle(technique)}.`
      : `The technique is: ${techniqueTitle(technique)}.`,
  cells: (geometry, cells, digits) => {
    const t = englishTerms(geometry)
    return `It is made by ${t.digits(digits)} in ${t.cells(cells)}.`
  },
  solved: 'Every cell is filled, and rightly so.',
  stuck: 'None of the techniques asked for leads on from here.',
  unsound: {
    many: 'The puzzle has more than one solution, so logic cannot decide the cells in which they differ.',
    none: 'The puzzle has no solution: its givens contradict each other.',
    undecided: 'The count of solutions was stopped before it was done, so no hint can be trusted.',
  },
  wrongDigits: (geometry, cells) => {
    const t = englishTerms(geometry)
    return `First put right what stands in ${t.cells(cells)}: it differs from the solution.`
  },
  wrongMarks: (geometry, cells) => {
    const t = englishTerms(geometry)
    return `First look again at the pencil marks of ${t.cells(cells)}: the right digit has been struck out.`
  },
}
