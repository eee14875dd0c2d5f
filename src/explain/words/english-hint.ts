import { cellName, type Geometry } from '../../grid/geometry.js'
import { capital, englishTerms } from './english-terms.js'
import { titleOf } from './technique-title.js'
import type { HintWording } from './wording.js'

/** Where a house is that cannot be found by its number alone. */
function placeOf(geometry: Geometry, house: number): string | undefined {
  const { kind, name, cells } = geometry.houses[house]!
  const [first, last] = [cells[0]!, cells[cells.length - 1]!].map((cell) => cellName(geometry, cell))
  if (kind === 'diagonal') return `${capital(name)} runs from ${first} to ${last}.`
  return kind === 'region' ? `${capital(name)} is the one with ${first}.` : undefined
}

export const englishHint: HintWording = {
  look: (geometry, houses) => {
    const where = houses.flatMap((house) => placeOf(geometry, house) ?? [])
    return [`Look at ${englishTerms(geometry).houses(houses)}.`, ...where].join(' ')
  },
  method: (technique, level) =>
    level === 'scan'
      ? `A digit can be placed: ${titleOf(technique).toLowerCase()}.`
      : `The technique is: ${titleOf(technique)}.`,
  cells: (geometry, cells, digits, style) => {
    const t = englishTerms(geometry, style)
    if (digits.length === 0) return `The cell is ${t.cells(cells)}.`
    return `It is formed by ${t.digits(digits)} in ${t.cells(cells)}.`
  },
  solved: 'Every cell is filled in, and correctly.',
  stuck: 'None of the chosen techniques gets any further from here.',
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
