import type { WingFact } from '../../argument/facts.js'
import { capital, count, type GermanTerms } from './terms.js'

export function wingFact(t: GermanTerms, fact: WingFact): string {
  switch (fact.kind) {
    case 'pivot':
      return `${capital(t.cell(fact.cell))} ist ${t.digits(fact.digits, 'oder')}.`
    case 'pincer': {
      const when = t.digits(fact.when, 'oder')
      const where = placeOf(t, fact.house)
      return `Bei ${when} ist ${t.cell(fact.cell)}${where} nicht ${when}, sondern ${t.digit(fact.gives)}.`
    }
    case 'pivot-itself':
      return `Sonst ist ${t.cell(fact.pivot)} selbst ${t.digit(fact.digit)}.`
    case 'wing-count':
      return (
        `${capital(t.cells(fact.cells))} haben zusammen ${t.digits(fact.digits)}: ${count(fact.cells.length)} Zellen, ${count(fact.digits.length)} Ziffern. ` +
        `Von ${t.digits(fact.once)} passt jede nur einmal hinein, weil ihre Plätze einander sehen; also wird auch die ${t.digit(fact.digit)} gebraucht.`
      )
    case 'alike':
      return `${capital(t.cells(fact.cells))} haben beide nur ${t.digits(fact.digits)}.`
    case 'bridge': {
      const digit = t.digit(fact.digit)
      const ways = fact.ways.map(({ places, cell, house }) => {
        const where = placeOf(t, house)
        return `wenn in ${t.within(fact.house, places, 'oder')}, dann ist ${t.cell(cell)}${where} nicht ${digit}, sondern ${t.digit(fact.gives)}`
      })
      const all = fact.ways.flatMap(({ places }) => places)
      return `In ${t.house(fact.house)} steht die ${digit} in ${t.within(fact.house, all, 'oder')}: ${ways.join('; ')}.`
    }
    case 'take-turns': {
      const { cells, digits, houses } = fact
      const ends = [cells[0]!, cells[cells.length - 1]!]
      return (
        `${capital(t.cells(cells))} haben alle nur ${t.digits(digits)}, und jede sieht die nächste, in ${t.toHouses([...new Set(houses)])}. ` +
        `Also wechseln sich ${t.digits(digits)} ab: Von ${t.cells(ends)} ist die eine ${t.digit(digits[0]!)}, die andere ${t.digit(digits[1]!)}.`
      )
    }
    default:
      return fact satisfies never
  }
}

/** The house in which a cell sees another, unless its name says it. */
function placeOf(t: GermanTerms, house: number | undefined): string {
  return house === undefined || t.isSaid(house) ? '' : ` in ${t.house(house)}`
}
