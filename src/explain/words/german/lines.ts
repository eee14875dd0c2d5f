import { layoutOf } from '../../../grid/layout.js'
import type { LineFact, SingleFact } from '../../argument/facts.js'
import type { Names } from '../../names.js'
import { capital, count, type GermanTerms, HOUSES } from './terms.js'

export function singleFact(t: GermanTerms, fact: SingleFact, { geometry }: Names): string {
  const digit = t.digit(fact.digit)
  switch (fact.kind) {
    case 'last-cell':
      return `In ${t.house(fact.house)} ist nur noch eine Zelle offen, und nur die ${digit} fehlt: ${capital(t.cell(fact.cell))} ist ${digit}.`
    case 'only-candidate': {
      const nameOf = (house: number) => {
        const { kind } = layoutOf(geometry).houses[house]!
        return kind === 'diagonal' ? t.house(house) : `${HOUSES[kind].article} ${HOUSES[kind].one}`
      }
      // with the verb each time: "the box 2" would be heard as a name
      const seen = fact.seen.map(({ house, digits }) => `${nameOf(house)} hat ${t.digits(digits)}`)
      const struck =
        fact.struck.length > 0
          ? `${t.digits(fact.struck)} ${fact.struck.length === 1 ? 'ist' : 'sind'} gestrichen`
          : ''
      const parts = [seen.join(', '), struck].filter((part) => part !== '').join('; ')
      return parts === ''
        ? `${capital(t.cell(fact.cell))} kann nur ${digit} sein.`
        : `Blick auf ${t.cell(fact.cell)}: ${capital(parts)}. Es bleibt die ${digit}.`
    }
    case 'only-place': {
      const { blockers, struck } = fact
      const ruled = struck.length > 0 ? 'dort andere Zellen' : 'dort alle anderen offenen Zellen'
      const parts = [
        ...(blockers.length > 0 ? [`die ${digit} in ${t.cells(blockers)} sperrt ${ruled}`] : []),
        ...(struck.length > 0 ? [`in ${t.cells(struck)} ist die ${digit} gestrichen`] : []),
      ]
      const because = parts.length > 0 ? `${capital(parts.join(', und '))}. ` : ''
      return `${t.house(fact.house)} braucht eine ${digit}. ${because}Nur ${t.cell(fact.cell)} bleibt dafür: Dort steht die ${digit}.`
    }
    default:
      return fact satisfies never
  }
}

export function lineFact(t: GermanTerms, fact: LineFact, { geometry }: Names): string {
  switch (fact.kind) {
    case 'confined':
      return `In ${t.house(fact.house)} passt die ${t.digit(fact.digit)} nur in ${t.within(fact.house, fact.cells, 'oder')}${
        t.isSaid(fact.into) ? '' : `, ${fact.cells.length === 2 ? 'beide' : 'alle'} in ${t.house(fact.into)}`
      }.`
    case 'naked-subset': {
      const have = t.isSaid(fact.house)
        ? `${capital(t.cells(fact.cells))} haben`
        : `In ${t.house(fact.house)} haben ${t.cells(fact.cells)}`
      return fact.cells.length === 2
        ? `${have} nur ${t.digits(fact.digits)}. Die eine nimmt die ${t.digit(fact.digits[0]!)}, die andere die ${t.digit(fact.digits[1]!)}.`
        : `${have} zusammen nur ${t.digits(fact.digits)}. ${capital(count(fact.cells.length))} Zellen, ${count(fact.digits.length)} Ziffern: Sie verbrauchen alle davon.`
    }
    case 'hidden-subset':
      return `In ${t.house(fact.house)} passen die Ziffern ${t.digits(fact.digits)} nur in ${t.isSaid(fact.house) ? 'die ' : ''}${t.within(fact.house, fact.cells, 'und')}. ${
        fact.cells.length === 2
          ? 'Diese beiden Zellen nehmen sie auf'
          : `${capital(count(fact.digits.length))} Ziffern, ${count(fact.cells.length)} Zellen: Diese Zellen nehmen sie auf`
      }, und für anderes ist dort kein Platz.`
    case 'fish': {
      const { kind } = layoutOf(geometry).houses[fact.base[0]!]!
      return fact.plain ? plainFish(t, fact, HOUSES[kind].one) : boxFish(t, fact)
    }
    default:
      return fact satisfies never
  }
}

type Fish = Extract<LineFact, { kind: 'fish' }>

function plainFish(t: GermanTerms, { digit, base, cover, fins }: Fish, kind: string): string {
  const where = cover.length === 2 ? `in ${t.anyHouse(cover)}` : `nur in ${t.toHouses(cover)}`
  const takes = fins.length > 0 ? 'nähme' : 'nimmt'
  const share =
    base.length === 2
      ? `Die eine ${kind} ${takes} die eine, die andere die andere.`
      : `Jede ${kind} ${takes} eine eigene ${t.house(cover[0]!).split(' ')[0]}.`
  return fins.length === 0
    ? `In ${t.toHouses(base)} steht die ${t.digit(digit)} ${where}. ${share}`
    : `Ohne ${t.cells(fins)} stünde die ${t.digit(digit)} in ${t.toHouses(base)} ${where}. ${share}`
}

function boxFish(t: GermanTerms, { digit, base, cover, fins, places, shared }: Fish): string {
  const lie =
    fins.length > 0
      ? `Bis auf ${t.cells(fins)} liegen alle Plätze dafür, ${t.cells(places)},`
      : `Alle Plätze dafür, ${t.cells(places)}, liegen`
  const all = `${lie} in ${t.toHouses(cover)}, wo nur ${count(cover.length)} Platz haben.`
  const twice =
    shared.length > 0
      ? ` ${capital(t.cells(shared))} ${shared.length === 1 ? 'zählt' : 'zählen'} auf beiden Seiten doppelt.`
      : ''
  return `${capital(t.houses(base))} brauchen je eine ${t.digit(digit)}, zusammen ${count(base.length)}. ${all}${twice}`
}
