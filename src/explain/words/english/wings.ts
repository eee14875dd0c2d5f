import type { WingFact } from '../../argument/facts.js'
import { capital, count, type EnglishTerms } from './terms.js'

export function wingFact(t: EnglishTerms, fact: WingFact): string {
  switch (fact.kind) {
    case 'pivot':
      return `${capital(t.cell(fact.cell))} is ${t.digits(fact.digits, 'or')}.`
    case 'pincer': {
      const when = t.digits(fact.when, 'or')
      const where = placeOf(t, fact.house)
      return `If it is ${when}, then ${t.cell(fact.cell)}${where} is not ${when} but ${t.digit(fact.gives)}.`
    }
    case 'pivot-itself':
      return `Otherwise ${t.cell(fact.pivot)} is ${t.digit(fact.digit)} itself.`
    case 'wing-count':
      return (
        `${capital(t.cells(fact.cells))} have ${t.digits(fact.digits)} between them: ${count(fact.cells.length)} cells, ${count(fact.digits.length)} digits. ` +
        `Of ${t.digits(fact.once)} each fits only once, since its places see one another, so ${t.digit(fact.digit)} is needed as well.`
      )
    case 'alike':
      return `${capital(t.cells(fact.cells))} both have just ${t.digits(fact.digits)}.`
    case 'bridge': {
      const digit = t.digit(fact.digit)
      const ways = fact.ways.map(({ places, cell, house }) => {
        const where = placeOf(t, house)
        return `if in ${t.within(fact.house, places, 'or')}, then ${t.cell(cell)}${where} is not ${digit} but ${t.digit(fact.gives)}`
      })
      const all = fact.ways.flatMap(({ places }) => places)
      return `In ${t.house(fact.house)} the ${digit} is in ${t.within(fact.house, all, 'or')}: ${ways.join('; ')}.`
    }
    case 'take-turns': {
      const { cells, digits, houses } = fact
      const ends = [cells[0]!, cells[cells.length - 1]!]
      return (
        `${capital(t.cells(cells))} all have just ${t.digits(digits)}, and each sees the next, by ${t.houses([...new Set(houses)])}. ` +
        `So ${t.digits(digits)} take turns: of ${t.cells(ends)}, one is ${t.digit(digits[0]!)} and the other ${t.digit(digits[1]!)}.`
      )
    }
    default:
      return fact satisfies never
  }
}

/** The house in which a cell sees another, unless its name says it. */
function placeOf(t: EnglishTerms, house: number | undefined): string {
  return house === undefined || t.isSaid(house) ? '' : ` in ${t.house(house)}`
}
