import { layoutOf } from '../../../grid/layout.js'
import type { Names } from '../../names.js'
import type { HintWording } from '../wording.js'
import { count, germanTerms } from './terms.js'
import { GERMAN_TITLES } from './titles.js'

/** Where a house is that cannot be found by its number alone. */
function placeOf(names: Names, house: number): string | undefined {
  const t = germanTerms(names)
  const { kind, cells } = layoutOf(names.geometry).houses[house]!
  const [first, last] = [cells[0]!, cells[cells.length - 1]!].map(t.cell)
  if (kind === 'diagonal') return `${t.house(house)} läuft von ${first} bis ${last}.`
  return kind === 'region' ? `${t.house(house)} ist die mit ${first}.` : undefined
}

export const germanHint: HintWording = {
  look: (names, houses) => {
    const where = houses.flatMap((house) => placeOf(names, house) ?? [])
    return [`Sieh dir ${germanTerms(names).houses(houses)} an.`, ...where].join(' ')
  },
  method: (technique, level) =>
    level === 'scan'
      ? `Eine Ziffer lässt sich setzen: ${GERMAN_TITLES[technique]}.`
      : `Die Technik heißt: ${GERMAN_TITLES[technique]}.`,
  key: 'Es ist ein Schlüsselschritt: Er öffnet, was alltägliche Techniken nicht öffnen.',
  cells: (names, cells, digits) => {
    const t = germanTerms(names)
    if (digits.length === 0) return `Es geht um ${t.cells(cells)}.`
    return `Es geht um ${t.digits(digits)} in ${t.cells(cells)}.`
  },
  solved: 'Alle Zellen sind gefüllt, und zwar richtig.',
  stuck: 'Keine der gewählten Techniken führt von hier aus weiter.',
  unsound: {
    many: 'Das Rätsel hat mehr als eine Lösung, also kann Logik die Zellen nicht entscheiden, in denen sie sich unterscheiden.',
    none: 'Das Rätsel hat keine Lösung: Seine Vorgaben widersprechen einander.',
    undecided: 'Das Zählen der Lösungen wurde vorzeitig beendet, also ist auf keinen Hinweis Verlass.',
  },
  mistake: (names, mistake, house) => {
    const t = germanTerms(names)
    const digit = t.digit(mistake.digit)
    const look = (what: string) =>
      [
        `Bevor es weitergeht: Unter den ${what} von ${t.house(house)} stimmt etwas nicht.`,
        placeOf(names, house) ?? [],
      ]
        .flat()
        .join(' ')
    switch (mistake.kind) {
      case 'clash': {
        const { cells, wrong } = mistake
        return {
          look: look('Ziffern'),
          method: `In ${t.house(house)} steht die ${digit} ${cells.length === 2 ? 'zweimal' : `${count(cells.length)}mal`}.`,
          cells: `Sie steht in ${t.cells(cells)}.`,
          argument: `Die Lösung hat keine ${digit} in ${t.cells(wrong, 'oder')}.`,
        }
      }
      case 'not-the-solution':
        return {
          look: look('Ziffern'),
          method: 'Eine davon steht zwar mit keiner anderen im Widerspruch, ist aber nicht die der Lösung.',
          cells: `Es ist die in ${t.cell(mistake.cell)}.`,
          argument: `Die Lösung hat keine ${digit} in ${t.cell(mistake.cell)}.`,
        }
      case 'removed':
        return {
          look: look('Kandidaten'),
          method: 'Einer, der noch gebraucht wird, ist gestrichen.',
          cells: `Gestrichen wurde er in ${t.cell(mistake.cell)}.`,
          argument: `Die Lösung hat ${digit} in ${t.cell(mistake.cell)}.`,
        }
      default:
        return mistake satisfies never
    }
  },
}
