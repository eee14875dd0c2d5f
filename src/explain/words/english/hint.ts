import { layoutOf } from '../../../grid/layout.js'
import type { Names } from '../../names.js'
import type { HintWording } from '../wording.js'
import { titleOf } from './technique-title.js'
import { capital, count, englishTerms } from './terms.js'

/** Where a house is that cannot be found by its number alone. */
function placeOf(names: Names, house: number): string | undefined {
  const { kind, name, cells } = layoutOf(names.geometry).houses[house]!
  const [first, last] = [cells[0]!, cells[cells.length - 1]!].map(englishTerms(names).cell)
  if (kind === 'diagonal') return `${capital(name)} runs from ${first} to ${last}.`
  return kind === 'region' ? `${capital(name)} is the one with ${first}.` : undefined
}

export const englishHint: HintWording = {
  look: (names, houses) => {
    const where = houses.flatMap((house) => placeOf(names, house) ?? [])
    return [`Look at ${englishTerms(names).houses(houses)}.`, ...where].join(' ')
  },
  method: (technique, level) =>
    level === 'scan'
      ? `A digit can be placed: ${titleOf(technique).toLowerCase()}.`
      : `The technique is: ${titleOf(technique)}.`,
  key: 'It is a key step: it opens what everyday techniques cannot.',
  cells: (names, cells, digits) => {
    const t = englishTerms(names)
    if (digits.length === 0) return `The ${cells.length === 1 ? 'cell is' : 'cells are'} ${t.cells(cells)}.`
    return `It is formed by ${t.digits(digits)} in ${t.cells(cells)}.`
  },
  solved: 'Every cell is filled in, and correctly.',
  stuck: 'None of the chosen techniques gets any further from here.',
  unsound: {
    many: 'The puzzle has more than one solution, so logic cannot decide the cells in which they differ.',
    none: 'The puzzle has no solution: its givens contradict each other.',
    undecided: 'Counting the solutions was stopped before it was done, so no hint can be trusted.',
  },
  mistake: (names, mistake, house) => {
    const t = englishTerms(names)
    const digit = t.digit(mistake.digit)
    const look = (what: string) =>
      [
        `Before you go on: something is off among the ${what} of ${t.house(house)}.`,
        placeOf(names, house) ?? [],
      ]
        .flat()
        .join(' ')
    switch (mistake.kind) {
      case 'clash': {
        const { cells, wrong } = mistake
        return {
          look: look('digits'),
          method: `There are ${count(cells.length)} ${t.several(mistake.digit)} in ${t.house(house)}.`,
          cells: `They are in ${t.cells(cells)}.`,
          argument: `The solution has no ${digit} in ${t.cells(wrong, 'or')}.`,
        }
      }
      case 'not-the-solution':
        return {
          look: look('digits'),
          method: "One of them clashes with no other digit, but it is not the solution's.",
          cells: `It is the one in ${t.cell(mistake.cell)}.`,
          argument: `The solution has no ${digit} in ${t.cell(mistake.cell)}.`,
        }
      case 'removed':
        return {
          look: look('pencil marks'),
          method: 'One that is still needed was removed.',
          cells: `It was removed from ${t.cell(mistake.cell)}.`,
          argument: `The solution has ${t.candidate(mistake)}.`,
        }
    }
  },
}
