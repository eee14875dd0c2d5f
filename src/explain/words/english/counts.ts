import type { CountFact } from '../../argument/facts.js'
import { alikeHouses } from '../gathered.js'
import { capital, count, type EnglishTerms } from './terms.js'

export function countFact(t: EnglishTerms, fact: CountFact): string {
  switch (fact.kind) {
    case 'exocet-base':
      return `The base cells ${t.cells(fact.base)} take two of ${t.digits(fact.digits)}.`
    case 'exocet-lines': {
      const { digits, targets, lines, across, further } = fact
      const room =
        across.length === 0
          ? `${t.houses(lines)} would have no place for it`
          : `${t.houses(lines)} would have ${lines.length === 1 ? 'its place' : 'their places'} for it in ${t.houses(across)} only, and ${count(lines.length)} such digits need ${count(lines.length)} lines across`
      if (further) return `Likewise for ${t.digits(digits, 'or')}: ${room}.`
      return `Were ${t.digits(digits, 'or')} in the base but in neither of the targets ${t.cells(targets)}, ${room}.`
    }
    case 'exocet-targets':
      return `So the targets ${t.cells(fact.targets)} take the same two digits as ${t.cells(fact.base)}.`
    case 'sector-count': {
      const { cells, houses } = fact
      const places = alikeHouses(houses).map(
        (group) => `${t.digits(group.digits)} in ${t.houses(group.houses)}`,
      )
      return (
        `Take the ${count(cells.length)} cells ${t.cells(cells)}, and count what their houses can give them once each: ${places.join('; ')}. ` +
        `${capital(count(cells.length))} digits for ${count(cells.length)} cells: all of them are used there.`
      )
    }
    default:
      return fact satisfies never
  }
}
