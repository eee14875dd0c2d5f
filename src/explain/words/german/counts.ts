import type { CountFact } from '../../argument/facts.js'
import { alikeHouses } from '../gathered.js'
import { capital, count, counted, type GermanTerms } from './terms.js'

export function countFact(t: GermanTerms, fact: CountFact): string {
  switch (fact.kind) {
    case 'exocet-base':
      return `Die Basiszellen ${t.cells(fact.base)} nehmen zwei von ${t.digits(fact.digits)}.`
    case 'exocet-lines': {
      const { digits, targets, lines, across, further } = fact
      const room =
        across.length === 0
          ? `hätten ${t.houses(lines)} keinen Platz dafür`
          : `hätten ${t.houses(lines)} den Platz dafür nur in ${t.toHouses(across)}, und ${count(lines.length)} solche Ziffern brauchen ${count(lines.length)} Querlinien`
      const lack = lines.length === 1 ? room.replace('hätten', 'hätte') : room
      return further
        ? `Ebenso bei ${t.digits(digits, 'oder')}: Dann ${lack}.`
        : `Stünde ${t.digits(digits, 'oder')} in der Basis, aber in keinem der Ziele ${t.cells(targets)}, ${lack}.`
    }
    case 'exocet-targets':
      return `Also nehmen die Ziele ${t.cells(fact.targets)} dieselben zwei Ziffern wie ${t.cells(fact.base)}.`
    case 'sector-count': {
      const { cells, houses } = fact
      const places = alikeHouses(houses).map(
        (group) => `${t.digits(group.digits)} in ${t.toHouses(group.houses)}`,
      )
      return (
        `Nimm ${cells.length === 1 ? 'die Zelle' : `die ${counted(cells.length, 'Zelle')}`} ${t.cells(cells)} und zähle, was ihre Häuser ihnen je einmal geben können: ${places.join('; ')}. ` +
        `${capital(count(cells.length))} Ziffern für ${count(cells.length)} Zellen: Alle werden dort gebraucht.`
      )
    }
    default:
      return fact satisfies never
  }
}
