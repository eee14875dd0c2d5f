import { englishTerms } from './english-terms.js'
import { titleOf } from './technique-title.js'
import type { HintWording } from './wording.js'

export const englishHint: HintWording = {
  look: (geometry, houses) => `Look at ${englishTerms(geometry).houses(houses)}.`,
  method: (technique, level) =>
    level === 'scan'
      ? `A digit can be placed: ${titleOf(technique).toLowerCase()}.`
      : `The technique is: ${titleOf(technique)}.`,
  cells: (geometry, cells, digits, style) => {
    const t = englishTerms(geometry, style)
    if (digits.length === 0) return `The cell is ${t.cells(cells)}.`
    return `It is made by ${t.digits(digits)} in ${t.cells(cells)}.`
  },
  solved: 'Every cell is filled, and rightly so.',
  stuck: 'None of the techniques asked for leads on from here.',
  unsound: {
    several: 'The puzzle has more than one solution, so logic cannot decide the cells in which they differ.',
    none: 'The puzzle has no solution: its givens contradict each other.',
    undecided: 'Counting the solutions was stopped before it was done, so no hint can be trusted.',
  },
  wrongDigits: (geometry, cells) =>
    `First put right what stands in ${englishTerms(geometry).cells(cells)}: it differs from the solution.`,
  wrongMarks: (geometry, cells) =>
    `First look again at the pencil marks of ${englishTerms(geometry).cells(cells)}: the right digit is missing there.`,
}
