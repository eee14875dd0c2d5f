import { layoutOf } from '../../../grid/layout.js'
import type { LineFact, SingleFact } from '../../argument/facts.js'
import type { Names } from '../../names.js'
import { capital, count, type EnglishTerms } from './terms.js'

export function singleFact(t: EnglishTerms, fact: SingleFact, { geometry }: Names): string {
  const digit = t.digit(fact.digit)
  switch (fact.kind) {
    case 'last-cell':
      return `${capital(t.house(fact.house))} has one open cell left, and only the ${digit} is missing: ${t.cell(fact.cell)} is ${digit}.`
    case 'only-candidate': {
      // a cell has one house of each kind, but for diagonals
      const nameOf = (house: number) => {
        const { kind } = layoutOf(geometry).houses[house]!
        return kind === 'diagonal' ? t.house(house) : `the ${kind}`
      }
      // with the verb each time: "the box 2" would be heard as a name
      const seen = fact.seen.map(({ house, digits }) => `${nameOf(house)} has ${t.digits(digits)}`)
      const struck =
        fact.struck.length > 0
          ? `${t.digits(fact.struck)} ${fact.struck.length === 1 ? 'is' : 'are'} crossed out`
          : ''
      const parts = [seen.join(', '), struck].filter((part) => part !== '').join('; ')
      return parts === ''
        ? `${t.cell(fact.cell)} can only be ${digit}.`
        : `Look at ${t.cell(fact.cell)}: ${parts}. That leaves ${digit}.`
    }
    case 'only-place': {
      const { blockers, struck } = fact
      const many = blockers.length > 1
      const ruled = struck.length > 0 ? 'other cells there' : 'every other open cell there'
      const parts = [
        ...(many ? [`the ${t.several(fact.digit)} in ${t.cells(blockers)} rule out ${ruled}`] : []),
        ...(blockers.length === 1 ? [`the ${digit} in ${t.cells(blockers)} rules out ${ruled}`] : []),
        ...(struck.length > 0 ? [`${digit} is crossed out in ${t.cells(struck)}`] : []),
      ]
      const because = parts.length > 0 ? `${capital(parts.join(', and '))}. ` : ''
      return `${capital(t.house(fact.house))} needs ${t.one(fact.digit)}. ${because}Only ${t.cell(fact.cell)} is left, so it is ${digit}.`
    }
    default:
      return fact satisfies never
  }
}

export function lineFact(t: EnglishTerms, fact: LineFact): string {
  switch (fact.kind) {
    case 'confined':
      return `In ${t.house(fact.house)} the ${t.digit(fact.digit)} can only be in ${t.within(fact.house, fact.cells, 'or')}${
        t.isSaid(fact.into) ? '' : `, ${fact.cells.length === 2 ? 'both' : 'all'} in ${t.house(fact.into)}`
      }.`
    case 'naked-subset': {
      const cells = t.isSaid(fact.house)
        ? capital(t.cells(fact.cells))
        : `In ${t.house(fact.house)}, ${t.cells(fact.cells)}`
      return fact.cells.length === 2
        ? `${cells} have just ${t.digits(fact.digits)}. One takes the ${t.digit(fact.digits[0]!)}, the other the ${t.digit(fact.digits[1]!)}.`
        : `${cells} have just ${t.digits(fact.digits)} between them. ${capital(count(fact.cells.length))} cells, ${count(fact.digits.length)} digits: they use up all of them.`
    }
    case 'hidden-subset':
      return `In ${t.house(fact.house)} the digits ${t.digits(fact.digits)} fit only in ${t.within(fact.house, fact.cells)}. ${
        fact.cells.length === 2
          ? 'These two cells take them'
          : `${capital(count(fact.cells.length))} digits, ${count(fact.cells.length)} cells: these cells take them`
      }, with no room for anything else.`
    case 'fish':
      return fact.plain ? plainFish(t, fact) : boxFish(t, fact)
    default:
      return fact satisfies never
  }
}

type Fish = Extract<LineFact, { kind: 'fish' }>

function plainFish(t: EnglishTerms, { digit, base, cover, fins }: Fish): string {
  const where = cover.length === 2 ? `in ${t.houses(cover, 'or')}` : `only in ${t.houses(cover)}`
  const kind = t.house(base[0]!).split(' ')[0]!
  const share =
    base.length === 2
      ? `One ${kind} ${fins.length > 0 ? 'would take' : 'takes'} one, the other ${fins.length > 0 ? 'would take' : 'takes'} the other.`
      : `Each ${kind} ${fins.length > 0 ? 'would take' : 'takes'} a ${t.house(cover[0]!).split(' ')[0]} of its own.`
  return fins.length === 0
    ? `In ${t.houses(base)} the ${t.digit(digit)} is ${where}. ${share}`
    : `But for ${t.cells(fins)}, the ${t.digit(digit)} in ${t.houses(base)} would be ${where}. ${share}`
}

function boxFish(t: EnglishTerms, { digit, base, cover, fins, places, shared }: Fish): string {
  const all = `all the places, ${t.cells(places)}, lie in ${t.houses(cover)}`
  const twice =
    shared.length > 0
      ? ` ${capital(t.cells(shared))} ${shared.length === 1 ? 'counts' : 'count'} for two houses on either side.`
      : ''
  return (
    `${capital(t.houses(base))} need ${count(base.length)} ${t.several(digit)}, one each. ` +
    `${fins.length > 0 ? `But for ${t.cells(fins)}, ${all}` : capital(all)}, which have room for ${count(cover.length)}.${twice}`
  )
}
